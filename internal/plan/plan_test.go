package plan_test

import (
	"context"
	"encoding/json"
	"os"
	"runtime"
	"strings"
	"testing"
	"time"

	"foldwright/internal/calendar"
	"foldwright/internal/demo"
	"foldwright/internal/exchange"
	"foldwright/internal/plan"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
)

// planned plans a shop file and returns the JSON.
func planned(t testing.TB, file []byte, o plan.Options) []byte {
	t.Helper()
	s, err := exchange.ReadShop("shop.yaml", file)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), s, s.Now, o)
	if err != nil {
		t.Fatal(err)
	}
	out, err := json.MarshalIndent(exchange.Plan(p), "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func read(t testing.TB, name string) []byte {
	t.Helper()
	file, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// shops are the shop files that the tests plan.
func shops(t testing.TB) map[string][]byte {
	return map[string][]byte{
		"workshop": read(t, "testdata/workshop.yaml"),
		"example":  read(t, "../exchange/testdata/example.yaml"),
		"demo":     demo.File(),
	}
}

// Goal: every figure of a plan and of the order given follows from the shop file, by a reckoning that shares nothing with
// the planner.
func TestAuditFindsNothing(t *testing.T) {
	for name, file := range shops(t) {
		for seed, iterations := range []int{1, 20, 1500} {
			t.Run(name, func(t *testing.T) {
				for _, objection := range audit(file, planned(t, file, plan.Options{Seed: uint64(seed), Iterations: iterations})) {
					t.Errorf("seed %d, %d iterations: %s", seed, iterations, objection)
				}
			})
		}
	}
}

// Goal: the same seed and iterations give the same plan, however many cores there are.
func TestSameSeedSamePlan(t *testing.T) {
	file := read(t, "testdata/workshop.yaml")
	o := plan.Options{Seed: 7, Iterations: 400}
	first := string(planned(t, file, o))
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if again := string(planned(t, file, o)); again != first {
		t.Error("one core gives another plan than several")
	}
}

// Goal: on the demo shop the plan takes less make-ready and is late by less than the order given.
func TestDemoBeatsTheOrderGiven(t *testing.T) {
	s, err := demo.Shop()
	if err != nil {
		t.Skip("the demo shop does not read yet:", err)
	}
	p, err := plan.Make(context.Background(), s, s.Now, plan.Options{Seed: 1, Iterations: 60000})
	if err != nil {
		t.Fatal(err)
	}
	is, was := p.Figures, p.Given.Figures
	if is.Makeready >= was.Makeready {
		t.Errorf("make-ready %v, in the order given %v", is.Makeready, was.Makeready)
	}
	if is.Late >= was.Late {
		t.Errorf("late %v, in the order given %v", is.Late, was.Late)
	}
	if p.Bound > is.Makeready || p.Bound <= 0 {
		t.Errorf("the bound is %v for a make-ready of %v", p.Bound, is.Makeready)
	}
}

// Goal: a search that is stopped before it begins still gives a whole plan, no worse than the order given.
func TestCancelledSearchGivesAWholePlan(t *testing.T) {
	file := read(t, "testdata/workshop.yaml")
	s, err := exchange.ReadShop("workshop.yaml", file)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	p, err := plan.Make(ctx, s, s.Now, plan.Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	out, err := json.Marshal(exchange.Plan(p))
	if err != nil {
		t.Fatal(err)
	}
	for _, objection := range audit(file, out) {
		t.Error(objection)
	}
}

// Goal: progress tells of a plan that gets no worse, and of the order given.
func TestProgressTellsTheBest(t *testing.T) {
	s, err := exchange.ReadShop("workshop.yaml", read(t, "testdata/workshop.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	var told []plan.Progress
	p, err := plan.Make(context.Background(), s, s.Now, plan.Options{
		Seed: 1, Iterations: 2000,
		Progress: func(at plan.Progress) { told = append(told, at) },
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(told) == 0 {
		t.Fatal("nothing was told")
	}
	for i, at := range told {
		if at.From.Cost != p.Given.Figures.Cost || i > 0 && at.Best.Cost > told[i-1].Best.Cost {
			t.Errorf("report %d: best %v, given %v", i, at.Best.Cost, at.From.Cost)
		}
	}
	if last := told[len(told)-1].Best.Cost; last < p.Figures.Cost {
		t.Errorf("the last report was better than the plan: %v, %v", last, p.Figures.Cost)
	}
}

// Goal: what stands in the workshop's file about pins, waiting jobs and jobs that cannot be folded is kept and told.
func TestWorkshopWishesAreKept(t *testing.T) {
	s, err := exchange.ReadShop("workshop.yaml", read(t, "testdata/workshop.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), s, s.Now, plan.Options{Seed: 3, Iterations: 1000})
	if err != nil {
		t.Fatal(err)
	}
	first := p.Folders[0].Tasks[0]
	if first.Job != "101" || first.Makeready != 0 || !first.RunStart.Equal(s.Now) {
		t.Errorf("the run that has begun is %s, make-ready %v, from %v", first.Job, first.Makeready, first.RunStart)
	}
	if night := p.Folders[1].Tasks[0].Job; night != "108" {
		t.Errorf("job 108 is pinned to the front of larch, %s is there", night)
	}
	var why []string
	for _, u := range p.Unplaced {
		for _, w := range u.Whys {
			why = append(why, u.Job+" "+w.Folder+": "+w.Text.String())
		}
	}
	told := strings.Join(why, "\n")
	for _, part := range []string{"110 elder: ", "250 g/m²", "110 larch: ", "200 g/m²", "111 : it waits for 110, which no folder can run"} {
		if !strings.Contains(told, part) {
			t.Errorf("missing %q in\n%s", part, told)
		}
	}
}

// Goal: a wheel that the shop does not have is told with those it has.
func TestMissingWheelIsTold(t *testing.T) {
	file := strings.Replace(string(read(t, "testdata/workshop.yaml")), "perforate at t 100 with 12 tpi", "perforate at t 100 with 72 tpi", 1)
	s, err := exchange.ReadShop("workshop.yaml", []byte(file))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), s, s.Now, plan.Options{Seed: 1, Iterations: 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range p.Unplaced {
		if u.Job == "109" {
			const want = "station 1A needs 1 × perforate 72 tpi, and the shop has 0 for shafts of class wide, loose and on sets together; " +
				"there is perforate 12 tpi: say so on the docket if it will do"
			if got := u.Whys[0].Text.String(); got != want {
				t.Errorf("%q\nshould be\n%q", got, want)
			}
			return
		}
	}
	t.Error("a job that wants a wheel nobody has is planned")
}

// Goal: the order given is the file's: every job on the folder that its docket names, in the order of the dockets.
func TestOrderGivenIsTheFile(t *testing.T) {
	s, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), s, s.Now, plan.Options{Seed: 1, Iterations: 1})
	if err != nil {
		t.Fatal(err)
	}
	number := map[string]int{}
	for i, j := range s.Jobs {
		number[j.Name] = i
	}
	for _, lane := range p.Given.Folders {
		last := -1
		for _, task := range lane.Tasks {
			j := s.Jobs[number[task.Job]]
			if len(j.After) > 0 || j.Pin.Position > 0 || j.Pin.Started {
				continue
			}
			if number[j.Name] < last {
				t.Errorf("%s: job %s comes after %s", lane.Name, j.Name, s.Jobs[last].Name)
			}
			last = number[j.Name]
			if j.Given != lane.Name && j.Given != "" && canRun(t, s, j.Name, j.Given) {
				t.Errorf("job %s is given to %s, not to %s", j.Name, j.Given, lane.Name)
			}
		}
	}
}

// canRun asks settings, not the plan.
func canRun(t *testing.T, s *shop.Shop, name, folder string) bool {
	t.Helper()
	c := &checker{shop: s, house: s.SettingsHouse(), ways: map[wayKey]*settings.Settings{}}
	return c.way(name, folder) != nil
}

// Goal: a job whose docket names no folder stands, in the order given, where it ends first. Method: the last docket is
// given to each folder in turn; no folder ends it sooner than the one it had by itself.
func TestJobGivenToNobodyEndsFirst(t *testing.T) {
	file := read(t, "testdata/workshop.yaml")
	end := func(given string) time.Time {
		s, err := exchange.ReadShop("workshop.yaml", file)
		if err != nil {
			t.Fatal(err)
		}
		last := &s.Jobs[len(s.Jobs)-1]
		last.Given = given
		p, err := plan.Make(context.Background(), s, s.Now, plan.Options{Seed: 1, Iterations: 1})
		if err != nil {
			t.Fatal(err)
		}
		for _, lane := range p.Given.Folders {
			for _, task := range lane.Tasks {
				if task.Job == last.Name && (given == "" || lane.Name == given) {
					return task.RunEnd
				}
			}
		}
		t.Fatalf("job %s is not on %q in the order given", last.Name, given)
		return time.Time{}
	}
	alone, elder, larch := end(""), end("elder"), end("larch")
	if alone.After(elder) || alone.After(larch) || elder.Equal(larch) {
		t.Errorf("by itself it ends at %v, on elder at %v, on larch at %v", alone, elder, larch)
	}
}

// Goal: a shop with little in it has a small plan, not a fault.
func TestSmallShops(t *testing.T) {
	for name, shrink := range map[string]func(*shop.Shop){
		"no jobs":         func(s *shop.Shop) { s.Jobs = nil },
		"only a hopeless": func(s *shop.Shop) { s.Jobs = s.Jobs[9:10] },
		"no sets":         func(s *shop.Shop) { s.Sets = nil },
		"no loose tools":  func(s *shop.Shop) { s.Tools = nil },
		"no bench":        func(s *shop.Shop) { s.Bench = nil },
		"no folders":      func(s *shop.Shop) { s.Folders, s.States, s.Jobs = nil, nil, s.Jobs[6:7] },
		"one folder":      func(s *shop.Shop) { s.Folders = s.Folders[1:] },
		"nobody works":    func(s *shop.Shop) { s.Calendars[1].Week = [7][]calendar.Span{} },
	} {
		t.Run(name, func(t *testing.T) {
			s, err := exchange.ReadShop("workshop.yaml", read(t, "testdata/workshop.yaml"))
			if err != nil {
				t.Fatal(err)
			}
			shrink(s)
			p, err := plan.Make(context.Background(), s, s.Now, plan.Options{Seed: 1, Iterations: 100})
			if err != nil {
				t.Fatal(err)
			}
			jobs := len(p.Unplaced)
			for _, lane := range p.Folders {
				jobs += len(lane.Tasks)
			}
			if jobs != len(s.Jobs) || len(p.Folders) != len(s.Folders) {
				t.Errorf("%d jobs of %d, %d folders of %d", jobs, len(s.Jobs), len(p.Folders), len(s.Folders))
			}
		})
	}
}

// Goal: night shifts pass through the change to summer time without losing or gaining an hour of work.
func TestSummerTimeMovesTheNight(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Skip(err)
	}
	file := strings.NewReplacer(
		"now: 2026-03-27 06:00", "now: 2026-03-28 22:30", // the Saturday night that loses an hour
		"release: 2026-03-27 10:00, ", "", ", pin: {folder: larch, position: 1}", "",
		`, pin: {folder: elder, started: yes}`, "",
	).Replace(string(read(t, "testdata/workshop.yaml")))
	out := planned(t, []byte(file), plan.Options{Seed: 1, Iterations: 2000})
	for _, objection := range audit([]byte(file), out) {
		t.Error(objection)
	}
	doc, err := exchange.ReadPlan(out)
	if err != nil {
		t.Fatal(err)
	}
	change := time.Date(2026, 3, 29, 3, 0, 0, 0, berlin) // 02:00 becomes 03:00
	across := false
	for _, task := range doc.Folders[1].Tasks {
		across = across || task.MakereadyStart.Before(change) && task.RunEnd.After(change)
	}
	if !across {
		t.Error("no task of the night spans the change; the test shows nothing")
	}
}
