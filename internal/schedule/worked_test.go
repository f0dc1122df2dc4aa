package schedule

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The examples of this file are worked by hand; each says what happens and why. Minutes would be 60 times as long: the
// numbers are seconds to keep them short.

// bare is one machine with the given working time and jobs of run 100, set-up 10 each.
func bare(jobs int, windows ...Window) *Problem {
	p := &Problem{Machines: []Machine{{Windows: windows}}, Weights: Weights{Late: 1000, Setup: 1000, Wait: 1000, Bench: 1000}}
	for range jobs {
		p.Jobs = append(p.Jobs, Job{Run: []Time{100}, Due: Forever, Weight: 1})
	}
	table := make([][]Time, jobs+1)
	for i := range table {
		for range jobs {
			table[i] = append(table[i], 10)
		}
	}
	p.Setup = [][][]Time{table}
	return p
}

type times struct{ SetupStart, RunStart, RunEnd Time }

func timesOf(row []Task) []times {
	var list []times
	for _, t := range row {
		list = append(list, times{t.SetupStart, t.RunStart, t.RunEnd})
	}
	return list
}

// hold checks a problem, decodes an order and holds the plan to the definition.
func hold(t *testing.T, p *Problem, order Order) *Plan {
	t.Helper()
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	plan := Decode(p, order)
	if _, err := Evaluate(p, order, plan); err != nil {
		t.Fatalf("%v\nplan: %+v", err, plan)
	}
	return plan
}

func TestWorkPausesOutsideWindows(t *testing.T) {
	for _, c := range []struct {
		name    string
		windows []Window
		want    []times
	}{
		{"open", []Window{{0, Forever}}, []times{{0, 10, 110}, {110, 120, 220}}},
		{"starts late", []Window{{30, Forever}}, []times{{30, 40, 140}, {140, 150, 250}}},
		{"run goes on after the break", []Window{{0, 60}, {80, Forever}}, []times{{0, 10, 130}, {130, 140, 240}}},
		{"set-up goes on after the break", []Window{{0, 4}, {20, Forever}}, []times{{0, 26, 126}, {126, 136, 236}}},
		{"set-up ends with the window, the run starts in the next", []Window{{0, 10}, {20, Forever}}, []times{{0, 20, 120}, {120, 130, 230}}},
		{"run ends with the window, the next set-up starts in the next", []Window{{0, 110}, {200, Forever}}, []times{{0, 10, 110}, {200, 210, 310}}},
		{"windows that touch are one", []Window{{0, 50}, {50, Forever}}, []times{{0, 10, 110}, {110, 120, 220}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			plan := hold(t, bare(2, c.windows...), Order{{0, 1}})
			if diff := cmp.Diff(c.want, timesOf(plan.Tasks[0])); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestJobsThatFindNoTime(t *testing.T) {
	p := bare(3, Window{0, 150})
	p.Jobs[2].Run[0] = 30 // the short one still goes in after the long one that does not
	plan := hold(t, p, Order{{0, 1, 2}})
	if diff := cmp.Diff([]Unplaced{{Job: 1, Why: NoTime}}, plan.Unplaced); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]times{{0, 10, 110}, {110, 120, 150}}, timesOf(plan.Tasks[0])); diff != "" {
		t.Error(diff)
	}
}

// Idle time counts from the start of the horizon: a machine that could work at once does not get it for nothing by putting
// everything behind a late release.
func TestIdleBeforeTheFirstJobIsWaiting(t *testing.T) {
	p := bare(2, Window{0, Forever})
	p.Jobs[1].Release = 60
	for _, order := range []Order{{{0, 1}}, {{1, 0}}} {
		plan := hold(t, p, order)
		end := plan.Tasks[0][1].RunEnd
		if busy := plan.Cost.Setup + p.Jobs[0].Run[0] + p.Jobs[1].Run[0]; plan.Cost.Wait != end-busy {
			t.Errorf("order %v ends at %d with %d s of work and waits %d s", order, end, busy, plan.Cost.Wait)
		}
	}
}

func TestReleaseMakesWait(t *testing.T) {
	p := bare(2, Window{0, 100}, Window{150, Forever})
	p.Jobs[0].Run[0] = 20
	p.Jobs[1].Release = 60 // the machine is free at 30 and waits to 60; the set-up takes 10, 30 s of run fit before the break
	p.Jobs[1].Due, p.Jobs[1].Weight = 200, 3
	plan := hold(t, p, Order{{0, 1}})
	if diff := cmp.Diff([]times{{0, 10, 30}, {60, 70, 220}}, timesOf(plan.Tasks[0])); diff != "" {
		t.Error(diff)
	}
	want := Cost{Late: 60, Setup: 20, Wait: 30, Makespan: 220, Total: 110_000}
	if diff := cmp.Diff(want, plan.Cost); diff != "" {
		t.Error(diff)
	}
}

// two is two machines, jobs that run on either.
func two(jobs int) *Problem {
	p := bare(jobs, Window{0, Forever})
	p.Machines = append(p.Machines, p.Machines[0])
	for j := range p.Jobs {
		p.Jobs[j].Run = []Time{100, 100}
	}
	p.Setup = append(p.Setup, p.Setup[0])
	return p
}

func TestPrecedenceAcrossMachines(t *testing.T) {
	p := two(3)
	p.Precedences = []Precedence{{Before: 0, After: 1}, {Before: 2, After: 1}}
	plan := hold(t, p, Order{{0, 2}, {1}})
	if diff := cmp.Diff([]times{{220, 230, 330}}, timesOf(plan.Tasks[1])); diff != "" {
		t.Error(diff)
	}
}

func TestDeadlock(t *testing.T) {
	// 0 waits for 3, which stands after 2, which waits for 1, which stands after 0.
	p := two(4)
	p.Precedences = []Precedence{{Before: 3, After: 0}, {Before: 1, After: 2}}
	plan := hold(t, p, Order{{0, 1}, {2, 3}})
	want := []Unplaced{{Job: 0, Why: Deadlock}}
	if diff := cmp.Diff(want, plan.Unplaced); diff != "" {
		t.Error(diff)
	}
	// On one machine the later job's follower is an orphan.
	p = bare(3, Window{0, Forever})
	p.Precedences = []Precedence{{Before: 1, After: 0}, {Before: 0, After: 2}}
	plan = hold(t, p, Order{{0, 1, 2}})
	want = []Unplaced{{Job: 0, Why: Deadlock}, {Job: 2, Why: Orphan}}
	if diff := cmp.Diff(want, plan.Unplaced); diff != "" {
		t.Error(diff)
	}
}

func TestStartedJobRunsOn(t *testing.T) {
	p := shafts(2)
	p.Machines[0].Fixed, p.Machines[0].Started = []int{1}, true
	p.Jobs[1].Release = 500 // of no account: it runs already, with whatever stands there
	plan := hold(t, p, Order{{1, 0}})
	if diff := cmp.Diff(times{0, 0, 100}, timesOf(plan.Tasks[0])[0]); diff != "" {
		t.Error(diff)
	}
}

// shafts is one machine with one station, guide at 50, access 5 and swap 20. Patterns: 0 plain, 1 has one tool, 2 has
// two, 3 has two of another type. From any pattern to any other: 60 in the folder, 40 on the bench. Set 0 is plain and
// mounted; there is a person at the bench, and one loose tool of each type. Every job wants plain shafts.
func shafts(jobs int) *Problem {
	p := bare(jobs, Window{0, Forever})
	t := &Tooling{
		Classes:  1,
		Patterns: []Pattern{{}, {Tools: []Count{{0, 1}}}, {Tools: []Count{{0, 2}}}, {Tools: []Count{{1, 2}}}},
		Sets:     []Set{{Station: 0}},
		Units:    []Unit{{GuideMove: 7, GuideAt: 50}},
		Stations: []Station{{Swap: 20, Access: 5}},
		Loose:    []int{1, 1},
		People:   []Person{{Windows: []Window{{0, Forever}}}},
	}
	for a := range t.Patterns {
		var folder, bench []Time
		for b := range t.Patterns {
			if a == b {
				folder, bench = append(folder, 0), append(bench, 0)
			} else {
				folder, bench = append(folder, 60), append(bench, 40)
			}
		}
		t.InFolder, t.OnBench = append(t.InFolder, folder), append(t.OnBench, bench)
	}
	for range jobs {
		t.Wants = append(t.Wants, []Want{wantAt(0, AnywhereLo, AnywhereHi)})
	}
	p.Tools = t
	return p
}

// wantAt wants a pattern with the guide from lo to hi, best in the middle.
func wantAt(pattern int, lo, hi int64) Want {
	return Want{Pattern: pattern, Guide: (lo + hi) / 2, Fits: []Fit{{pattern, lo, hi}}}
}

func TestModes(t *testing.T) {
	for _, c := range []struct {
		name    string
		change  func(*Problem)
		mount   Mount
		guides  Time
		start   Time // of the set-up
		builds  []Build
		nothing Reason
	}{{
		name:   "plain shafts stay",
		change: func(*Problem) {},
		mount:  Mount{Mode: Keep, Guide: 50, Build: -1},
	}, {
		name:   "the guide moves to the middle of the range, which costs once",
		change: func(p *Problem) { p.Tools.Wants[0][0] = wantAt(0, 60, 80) },
		mount:  Mount{Mode: Shift, Guide: 70, Build: -1}, guides: 7,
	}, {
		name: "a set on the rack serves",
		change: func(p *Problem) {
			p.Tools.Sets = append(p.Tools.Sets, Set{Pattern: 1, Station: -1})
			p.Tools.Wants[0][0] = wantAt(1, 40, 60)
		},
		mount: Mount{Mode: Swap, Set: 1, From: 1, Time: 20, Guide: 50, Build: -1},
	}, {
		name: "a set of another pattern serves from 70 to 90, the guide moves to the middle of it",
		change: func(p *Problem) {
			p.Tools.Sets = append(p.Tools.Sets, Set{Pattern: 2, Station: -1})
			p.Tools.Wants[0][0] = Want{Pattern: 1, Guide: 50, Fits: []Fit{{1, 40, 60}, {2, 70, 90}}}
			p.Tools.People = nil
		},
		mount: Mount{Mode: Swap, Set: 1, From: 2, Time: 20, Guide: 80, Build: -1}, guides: 7,
	}, {
		name: "tools are fitted in the folder when there is no bench: 5 access, 60 work",
		change: func(p *Problem) {
			p.Tools.Wants[0][0] = wantAt(1, 40, 60)
			p.Tools.People = nil
		},
		mount: Mount{Mode: InFolder, Set: 0, From: 0, Time: 65, Guide: 50, Build: -1},
	}, {
		name: "at the start a build of 40 and a swap of 20 come to the price of fitting 65: 20 × 2 + 40 × 1 + 40 × 1 < 65 × 2",
		change: func(p *Problem) {
			p.Tools.Sets = append(p.Tools.Sets, Set{Pattern: 0, Station: -1})
			p.Tools.Wants[0][0] = wantAt(1, 40, 60)
			p.Weights.Wait = 0
		},
		mount: Mount{Mode: Built, Set: 1, From: 1, Time: 20, Guide: 50, Build: 0}, start: 40,
		builds: []Build{{Set: 1, Pattern: 1, Start: 0, End: 40, Work: 40}},
	}, {
		name: "when waiting has a price of its own, fitting is sooner and cheaper",
		change: func(p *Problem) {
			p.Tools.Sets = append(p.Tools.Sets, Set{Pattern: 0, Station: -1})
			p.Tools.Wants[0][0] = wantAt(1, 40, 60)
		},
		mount: Mount{Mode: InFolder, Set: 0, From: 0, Time: 65, Guide: 50, Build: -1},
	}, {
		name: "two tools are wanted, one is loose, the other comes from a set that the bench makes plain first",
		change: func(p *Problem) {
			p.Tools.Sets = append(p.Tools.Sets, Set{Pattern: 1, Station: -1})
			p.Tools.Wants[0][0] = wantAt(2, 40, 60)
			p.Tools.OnBench[1][2], p.Tools.InFolder[1][2] = -1, -1
		},
		mount: Mount{Mode: InFolder, Set: 0, From: 0, Time: 65, Guide: 50, Build: -1}, start: 40,
		builds: []Build{{Set: 1, From: 1, Pattern: 0, Start: 0, End: 40, Work: 40}},
	}, {
		name:    "two tools are wanted and one is all there is",
		change:  func(p *Problem) { p.Tools.Wants[0][0] = wantAt(3, 40, 60) },
		nothing: NoTools,
	}, {
		name: "a locked set is swapped out and another fitted at the machine: 20 + 60",
		change: func(p *Problem) {
			p.Tools.Sets[0].Locked = true
			p.Tools.Sets = append(p.Tools.Sets, Set{Pattern: 1, Station: -1})
			p.Tools.Wants[0][0] = wantAt(2, 40, 60)
			p.Tools.People = nil
		},
		mount: Mount{Mode: InFolder, Set: 1, From: 1, Time: 80, Guide: 50, Build: -1},
	}, {
		name: "plain shafts go in",
		change: func(p *Problem) {
			p.Tools.Sets = []Set{{Pattern: 1, Station: 0}, {Pattern: 0, Station: -1}}
		},
		mount: Mount{Mode: Plain, Set: 1, From: 0, Time: 20, Guide: 50, Build: -1},
	}, {
		name: "anything may stay where the sheet does not pass",
		change: func(p *Problem) {
			p.Tools.Sets[0].Pattern = 3
			p.Tools.Wants[0][0] = Want{Any: true}
		},
		mount: Mount{Mode: Keep, From: 3, Guide: 50, Build: -1},
	}} {
		t.Run(c.name, func(t *testing.T) {
			p := shafts(1)
			c.change(p)
			plan := hold(t, p, Order{{0}})
			if c.nothing != 0 {
				if diff := cmp.Diff([]Unplaced{{Job: 0, Why: c.nothing}}, plan.Unplaced); diff != "" {
					t.Error(diff)
				}
				return
			}
			if len(plan.Tasks[0]) != 1 {
				t.Fatalf("job without a place: %v", plan.Unplaced)
			}
			task := plan.Tasks[0][0]
			if diff := cmp.Diff([]Mount{c.mount}, task.Mounts); diff != "" {
				t.Error(diff)
			}
			if task.Guides != c.guides || task.SetupStart != c.start {
				t.Errorf("guides take %d, want %d; set-up starts at %d, want %d", task.Guides, c.guides, task.SetupStart, c.start)
			}
			if diff := cmp.Diff(c.builds, plan.Builds); diff != "" && len(c.builds)+len(plan.Builds) > 0 {
				t.Error(diff)
			}
		})
	}
}

// While job 0 runs (10 to 110) the bench builds for job 1. Of the two sets on the rack, set 1 carries what job 2 needs
// and set 2 what job 3 needs, so set 2 is stripped, although its number is higher.
func TestBenchStripsTheSetNeededLast(t *testing.T) {
	p := shafts(4)
	p.Tools.Loose = []int{3, 3}
	p.Tools.Sets = append(p.Tools.Sets, Set{Pattern: 1, Station: -1}, Set{Pattern: 3, Station: -1})
	p.Tools.Wants[1][0], p.Tools.Wants[2][0], p.Tools.Wants[3][0] = wantAt(2, 40, 60), wantAt(1, 40, 60), wantAt(3, 40, 60)
	plan := hold(t, p, Order{{0, 1, 2, 3}})
	want := Build{Set: 2, From: 3, Pattern: 2, Job: 1, Start: 0, End: 40, Work: 40}
	if diff := cmp.Diff(want, plan.Builds[0]); diff != "" {
		t.Error(diff)
	}
	// When jobs 2 and 3 change places, so do the sets.
	plan = hold(t, p, Order{{0, 1, 3, 2}})
	want.Set, want.From = 1, 1
	if diff := cmp.Diff(want, plan.Builds[0]); diff != "" {
		t.Error(diff)
	}
}

// Two stations share a guide at 50. The rack's sets serve at 60–80 and at 70–90: both at 70–80, the middle
// of which is 75, for one move.
func TestStationsOfAUnitShareTheGuide(t *testing.T) {
	p := shafts(1)
	p.Tools.Stations = append(p.Tools.Stations, p.Tools.Stations[0])
	p.Tools.Sets = []Set{{Station: 0}, {Station: 1}, {Pattern: 1, Station: -1}, {Pattern: 2, Station: -1}}
	p.Tools.People, p.Tools.Loose = nil, []int{0, 0}
	p.Tools.Wants[0] = []Want{
		{Pattern: 1, Guide: 50, Fits: []Fit{{1, 60, 80}}},
		{Pattern: 2, Guide: 50, Fits: []Fit{{2, 70, 90}}},
	}
	task := hold(t, p, Order{{0}}).Tasks[0][0]
	want := []Mount{
		{Station: 0, Mode: Swap, Set: 2, From: 1, Time: 20, Guide: 75, Build: -1},
		{Station: 1, Mode: Swap, Set: 3, From: 2, Time: 20, Guide: 75, Build: -1},
	}
	if diff := cmp.Diff(want, task.Mounts); diff != "" || task.Guides != 7 {
		t.Errorf("guides take %d, want 7\n%s", task.Guides, diff)
	}
	// Ranges that do not meet leave no place for the guide.
	p.Tools.Wants[0][1].Fits[0] = Fit{2, 81, 90}
	if plan := hold(t, p, Order{{0}}); len(plan.Unplaced) != 1 {
		t.Errorf("placed although no position serves both: %+v", plan.Tasks)
	}
}

// Machine 0 has the only set that serves both jobs. Machine 1, which has nothing to fit, waits until it comes out at
// 140 — when job 2's run starts on machine 0, after plain shafts have gone in — and only then is made ready.
func TestMachineWaitsForASetToComeOut(t *testing.T) {
	p := two(3)
	s := shafts(3)
	p.Tools = s.Tools
	p.Tools.People, p.Tools.Loose = nil, []int{0, 0}
	p.Tools.Units = append(p.Tools.Units, Unit{Machine: 1, GuideMove: 7, GuideAt: 50})
	p.Tools.Stations = append(p.Tools.Stations, Station{Machine: 1, Unit: 1, Swap: 20, Access: 5})
	p.Tools.Sets = []Set{{Pattern: 1, Station: 0}, {Pattern: 0, Station: 1}, {Pattern: 0, Station: -1}}
	for j := range p.Jobs {
		w := wantAt(1, 40, 60)
		if j == 2 {
			w = wantAt(0, 0, 100)
		}
		p.Tools.Wants[j] = []Want{w, w}
	}
	plan := hold(t, p, Order{{0, 2}, {1}})
	if diff := cmp.Diff([]times{{0, 10, 110}, {110, 140, 240}}, timesOf(plan.Tasks[0])); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]times{{140, 170, 270}}, timesOf(plan.Tasks[1])); diff != "" {
		t.Error(diff)
	}
}
