package plan

import (
	"math"
	"sort"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/job"
	"foldwright/internal/schedule"
	"foldwright/internal/settings"
)

// machines lists the folders with the jobs pinned to the front; their windows come last, when the work is known.
func (t *translation) machines() []schedule.Machine {
	out := make([]schedule.Machine, len(t.shop.Folders))
	for m := range out {
		out[m].Fixed = t.fixedOn(m)
		out[m].Started = len(out[m].Fixed) > 0 && t.jobs[out[m].Fixed[0]].Pin.Started
	}
	return out
}

// fixedOn returns the jobs a person has put first on a folder: what has started, then the pinned places in order.
func (t *translation) fixedOn(m int) []int {
	var fixed []int
	for j, job := range t.jobs {
		if job.Pin.Folder == t.folder(m).Name && (job.Pin.Started || job.Pin.Position > 0) {
			fixed = append(fixed, j)
		}
	}
	rank := func(j int) int {
		if t.jobs[j].Pin.Started {
			return 0
		}
		return t.jobs[j].Pin.Position
	}
	sort.SliceStable(fixed, func(a, b int) bool { return rank(fixed[a]) < rank(fixed[b]) })
	return fixed
}

// jobList lists the jobs in seconds.
func (t *translation) jobList() []schedule.Job {
	out := make([]schedule.Job, len(t.jobs))
	for j, job := range t.jobs {
		out[j] = schedule.Job{Due: schedule.Forever, Weight: int64(max(job.Weight, 1)), Run: make([]schedule.Time, len(t.ways[j]))}
		for m, way := range t.ways[j] {
			out[j].Run[m] = runTime(job, way)
		}
		if !job.Release.IsZero() {
			out[j].Release = max(0, t.at(job.Release))
		}
		if !job.Due.IsZero() {
			out[j].Due = t.due(job.Due)
		}
	}
	return out
}

// due is a due time in seconds, rounded towards sooner.
func (t *translation) due(moment time.Time) schedule.Time {
	s := t.at(moment)
	if t.clock(s).After(moment) {
		s--
	}
	return s
}

// runTime is the working time of a run, rounded up to a second; negative where the job cannot run.
func runTime(j *job.Job, way *settings.Settings) schedule.Time {
	if way == nil {
		return -1
	}
	rate := schedule.Time(max(way.SheetsPerHour, 1))
	return (schedule.Time(j.Sheets)*3600 + rate - 1) / rate
}

// setups is the make-ready between any two jobs on each folder, all but tooling and the guides of units with stations.
func (t *translation) setups() [][][]schedule.Time {
	out := make([][][]schedule.Time, len(t.shop.Folders))
	for m := range out {
		rows := make([][]schedule.Time, len(t.jobs)+1)
		for i := range t.jobs {
			rows[i] = t.setupRow(m, t.ways[i][m])
		}
		rows[len(t.jobs)] = t.setupRow(m, t.present[m])
		out[m] = rows
	}
	return out
}

// setupRow is the make-ready from one setting to every job on a folder.
func (t *translation) setupRow(m int, from *settings.Settings) []schedule.Time {
	row := make([]schedule.Time, len(t.jobs))
	for j := range t.jobs {
		if to := t.ways[j][m]; to != nil {
			std := &t.shop.Standards
			row[j] = wholeSeconds(changeover.Compare(from, to).Time(std))
			row[j] += wholeSeconds(std.GuideMove()) * schedule.Time(len(t.plainGuides(m, from, to)))
		}
	}
	return row
}

// plainGuides lists the units without stations whose side guide has to move from one setting to another. Nothing there
// ever moves a guide away from where the job alone wants it, so the two settings tell; what a unit was set to before it
// was out of use is forgotten.
func (t *translation) plainGuides(m int, from, to *settings.Settings) []int {
	var moved []int
	for u := range to.Units {
		if len(t.folder(m).Units[u].Stations) > 0 || !passes(to, u) {
			continue
		}
		if from == nil || !passes(from, u) || from.Units[u].Guide.At != to.Units[u].Guide.At {
			moved = append(moved, u+1)
		}
	}
	return moved
}

// passes tells whether the stack comes through a unit, folded there or straight on to a later one.
func passes(s *settings.Settings, u int) bool { return s.Units[u].Engaged || s.Units[u].Passes }

// weights are the shop's weights in thousandths.
func (t *translation) weights() schedule.Weights {
	w := t.shop.Weights
	return schedule.Weights{Late: mille(w.Late), Setup: mille(w.Makeready), Wait: mille(w.Waiting), Bench: mille(w.Bench)}
}

func mille(x float64) int64 { return int64(math.Round(x * 1000)) }

// precedences lists which job waits for which; names that are not in the plan were done before.
func (t *translation) precedences() []schedule.Precedence {
	number := map[string]int{}
	for j, job := range t.jobs {
		number[job.Name] = j
	}
	var out []schedule.Precedence
	for j, job := range t.jobs {
		for _, before := range job.After {
			if b, ok := number[before]; ok {
				out = append(out, schedule.Precedence{Before: b, After: j})
			}
		}
	}
	return out
}

// extendWindows reads the calendars far enough for the slowest way to do everything on any one folder, so that no order
// the search may try runs out of time.
func (t *translation) extendWindows() {
	need := t.mostWork()
	for m := range t.problem.Machines {
		if h, ok := t.shop.FolderHours(t.folder(m).Name); ok {
			t.problem.Machines[m].Windows = windows(h, t.from, need)
		}
	}
	for i := range t.shop.Bench {
		if h, ok := t.shop.Hours(&t.shop.Bench[i]); ok {
			t.problem.Tools.People[i].Windows = windows(h, t.from, need)
		}
	}
}

// mostWork is more working time than all jobs can take on one folder, with the time until the last of them is released.
func (t *translation) mostWork() time.Duration {
	var sum, release schedule.Time
	p := t.problem
	for j := range p.Jobs {
		var worst schedule.Time
		for m, run := range p.Jobs[j].Run {
			for i := range p.Setup[m] {
				worst = max(worst, run+p.Setup[m][i][j])
			}
		}
		sum += worst
		release = max(release, p.Jobs[j].Release)
	}
	return time.Duration(sum+release+schedule.Time(len(p.Jobs))*t.toolingMost()) * time.Second
}
