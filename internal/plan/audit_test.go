package plan_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/exchange"
	"foldwright/internal/plan"
)

// spoiled is a way to break a good plan.
type spoiled struct {
	name string
	do   func(d *exchange.PlanDocument) bool // false: the plan has nothing of the kind
}

// tasks lists the tasks of the plan, by folder and in order.
func tasks(d *exchange.PlanDocument) []*exchange.PlanTask {
	var out []*exchange.PlanTask
	for f := range d.Folders {
		for n := range d.Folders[f].Tasks {
			out = append(out, &d.Folders[f].Tasks[n])
		}
	}
	return out
}

// station finds the first station that some task tools in a way.
func station(d *exchange.PlanDocument, mode changeover.Mode) *exchange.PlanStation {
	for _, task := range tasks(d) {
		for i := range task.Stations {
			if task.Stations[i].Mode == string(mode) {
				return &task.Stations[i]
			}
		}
	}
	return nil
}

// later moves a whole task.
func later(t *exchange.PlanTask, by time.Duration) {
	t.MakereadyStart, t.RunStart, t.RunEnd = t.MakereadyStart.Add(by), t.RunStart.Add(by), t.RunEnd.Add(by)
}

// onTask spoils the first task with a make-ready of several lines.
func onTask(do func(*exchange.PlanTask)) func(*exchange.PlanDocument) bool {
	return func(d *exchange.PlanDocument) bool {
		for _, t := range tasks(d) {
			if len(t.Lines) > 1 {
				do(t)
				return true
			}
		}
		return false
	}
}

func onBuild(do func(*exchange.PlanBuild)) func(*exchange.PlanDocument) bool {
	return func(d *exchange.PlanDocument) bool {
		if len(d.Bench) == 0 {
			return false
		}
		do(&d.Bench[0])
		return true
	}
}

func onStation(mode changeover.Mode, do func(*exchange.PlanStation)) func(*exchange.PlanDocument) bool {
	return func(d *exchange.PlanDocument) bool {
		st := station(d, mode)
		if st == nil {
			return false
		}
		do(st)
		return true
	}
}

func onFigures(do func(*exchange.PlanFigures)) func(*exchange.PlanDocument) bool {
	return func(d *exchange.PlanDocument) bool {
		do(&d.PlanFigures)
		return true
	}
}

// onMove spoils the first move with gains.
func onMove(do func(*exchange.PlanMove)) func(*exchange.PlanDocument) bool {
	return func(d *exchange.PlanDocument) bool {
		for i := range d.Moves {
			if len(d.Moves[i].Gains) > 0 {
				do(&d.Moves[i])
				return true
			}
		}
		return false
	}
}

// spoils are one way to break every thing the audit looks at.
var spoils = []spoiled{
	{"a task a minute earlier", onTask(func(t *exchange.PlanTask) { later(t, -time.Minute) })},
	{"a task three hours later", onTask(func(t *exchange.PlanTask) { later(t, 3*time.Hour) })},
	{"a run that ends a second early", onTask(func(t *exchange.PlanTask) { t.RunEnd = t.RunEnd.Add(-time.Second) })},
	{"make-ready shortened", onTask(func(t *exchange.PlanTask) { t.MakereadyMin-- })},
	{"make-ready shortened, its start too", onTask(func(t *exchange.PlanTask) {
		t.MakereadyMin--
		t.Lines[0].Min--
		t.MakereadyStart = t.MakereadyStart.Add(time.Minute)
	})},
	{"a line left out", onTask(func(t *exchange.PlanTask) { t.Lines = t.Lines[1:] })},
	{"a line moved to another", onTask(func(t *exchange.PlanTask) { t.Lines[0].Min++; t.Lines[len(t.Lines)-1].Min-- })},
	{"a faster rate", onTask(func(t *exchange.PlanTask) { t.RatePerHour++ })},
	{"fewer sheets", onTask(func(t *exchange.PlanTask) { t.Sheets-- })},
	{"a run too short", onTask(func(t *exchange.PlanTask) { t.RunMin /= 2 })},
	{"lateness made up", onTask(func(t *exchange.PlanTask) { t.LateMin++ })},
	{"a weight of its own", onTask(func(t *exchange.PlanTask) { t.Weight++ })},
	{"a guide moved", onTask(func(t *exchange.PlanTask) { t.Guides[0].AtMM += 1 })},
	{"a guide not told", onTask(func(t *exchange.PlanTask) { t.Guides = t.Guides[1:] })},
	{"a station not told", onTask(func(t *exchange.PlanTask) { t.Stations = t.Stations[1:] })},
	{"a station that does not exist", onTask(func(t *exchange.PlanTask) { t.Stations[0].Station = "9Z" })},
	{"a set that does not exist", onTask(func(t *exchange.PlanTask) { t.Stations[0].Set = "nothing" })},
	{"a mode that does not exist", onTask(func(t *exchange.PlanTask) { t.Stations[0].Mode = "wish" })},
	{"two jobs changed over", func(d *exchange.PlanDocument) bool {
		lane := d.Folders[0].Tasks
		lane[1].Job, lane[2].Job = lane[2].Job, lane[1].Job
		return true
	}},
	{"a job on another folder", func(d *exchange.PlanDocument) bool {
		f := d.Folders
		f[1].Tasks = append(f[1].Tasks, f[0].Tasks[len(f[0].Tasks)-1])
		f[0].Tasks = f[0].Tasks[:len(f[0].Tasks)-1]
		return true
	}},
	{"a job left out", func(d *exchange.PlanDocument) bool {
		d.Folders[1].Tasks = d.Folders[1].Tasks[:len(d.Folders[1].Tasks)-1]
		return true
	}},
	{"a job put aside", func(d *exchange.PlanDocument) bool {
		last := len(d.Folders[1].Tasks) - 1
		d.Unplaced = append(d.Unplaced, exchange.PlanUnplaced{Job: d.Folders[1].Tasks[last].Job})
		d.Folders[1].Tasks = d.Folders[1].Tasks[:last]
		return true
	}},
	{"an unplaced job not told", func(d *exchange.PlanDocument) bool { d.Unplaced = d.Unplaced[1:]; return true }},
	{"folders changed over", func(d *exchange.PlanDocument) bool {
		slices.Reverse(d.Folders)
		return true
	}},

	{"keep said where a set goes in", onStation(changeover.Swap, func(s *exchange.PlanStation) { s.Mode = "keep" })},
	{"plain said where tools go in", onStation(changeover.Swap, func(s *exchange.PlanStation) { s.Mode = "plain" })},
	{"built said where nothing was", onStation(changeover.Swap, func(s *exchange.PlanStation) { s.Mode = "built" })},
	{"keep said where the guide moves", onStation(changeover.Shift, func(s *exchange.PlanStation) { s.Mode = "keep" })},
	{"shift said where nothing moves", onStation(changeover.Keep, func(s *exchange.PlanStation) { s.Mode = "shift" })},
	{"swap said where nothing is done", onStation(changeover.Keep, func(s *exchange.PlanStation) { s.Mode = "swap" })},
	{"another set stays", onStation(changeover.Keep, func(s *exchange.PlanStation) { s.Set = "W6" })},
	{"tooled in the folder instead of a swap", onStation(changeover.Built, func(s *exchange.PlanStation) { s.Mode = "in_folder" })},

	{"a build left out", func(d *exchange.PlanDocument) bool { d.Bench = d.Bench[1:]; return true }},
	{"a build nobody uses", func(d *exchange.PlanDocument) bool { d.Bench = append(d.Bench, d.Bench[0]); return true }},
	{"a build before working hours", onBuild(func(b *exchange.PlanBuild) { b.Start, b.End = b.Start.Add(-2*time.Hour), b.End.Add(-2*time.Hour) })},
	{"a build after its swap", onBuild(func(b *exchange.PlanBuild) {
		b.Start, b.End = b.Start.Add(100*24*time.Hour), b.End.Add(100*24*time.Hour)
	})},
	{"a build too quick", onBuild(func(b *exchange.PlanBuild) { b.WorkMin--; b.End = b.End.Add(-time.Minute) })},
	{"a build of another set", onBuild(func(b *exchange.PlanBuild) { b.Set = "N3" })},
	{"a build from other tools", onBuild(func(b *exchange.PlanBuild) { b.From = append(b.From, exchange.PlanTool{Kind: "slit", AtMM: 5}) })},
	{"a build to other tools", onBuild(func(b *exchange.PlanBuild) { b.To = nil })},
	{"tools off and on not told right", onBuild(func(b *exchange.PlanBuild) { b.Remove++ })},
	{"a build that only frees tools, yet is swapped in", onBuild(func(b *exchange.PlanBuild) { b.Frees = !b.Frees })},
	{"a build by nobody", onBuild(func(b *exchange.PlanBuild) { b.Person = "stranger" })},
	{"a build for another job", onBuild(func(b *exchange.PlanBuild) { b.ForJob = "104" })},

	{"cost lowered", onFigures(func(f *exchange.PlanFigures) { f.CostMin-- })},
	{"lateness lowered", onFigures(func(f *exchange.PlanFigures) { f.LateMin-- })},
	{"plain lateness raised", onFigures(func(f *exchange.PlanFigures) { f.LatePlainMin++ })},
	{"make-ready lowered", onFigures(func(f *exchange.PlanFigures) { f.MakereadyMin-- })},
	{"waiting raised", onFigures(func(f *exchange.PlanFigures) { f.WaitingMin++ })},
	{"bench lowered", onFigures(func(f *exchange.PlanFigures) { f.BenchMin-- })},
	{"late jobs miscounted", onFigures(func(f *exchange.PlanFigures) { f.LateCount++ })},
	{"another end", onFigures(func(f *exchange.PlanFigures) { f.End = f.End.Add(time.Second) })},
	{"a late job made up", func(d *exchange.PlanDocument) bool {
		d.LateJobs = append(d.LateJobs, exchange.PlanLate{Job: "107", LateMin: 1})
		d.LateCount++
		return true
	}},
	{"another weight", func(d *exchange.PlanDocument) bool { d.Weights.Bench++; return true }},
	{"a bound that is none", func(d *exchange.PlanDocument) bool { d.MakereadyBoundMin = d.MakereadyMin + 1; return true }},
	{"another gap", func(d *exchange.PlanDocument) bool { d.MakereadyGapMin++; return true }},
	{"a gain made greater", onMove(func(m *exchange.PlanMove) { m.Gains[0].GivenMin++ })},
	{"a gain left out", onMove(func(m *exchange.PlanMove) { m.Gains = m.Gains[1:] })},
	{"a gain told twice", onMove(func(m *exchange.PlanMove) { m.Gains = append(m.Gains, m.Gains[0]) })},
	{"a move without a reason", onMove(func(m *exchange.PlanMove) { m.Why = "" })},
	{"a move from another place", onMove(func(m *exchange.PlanMove) { m.FromPlace++ })},
	{"a move that cannot be undone, yet pays", onMove(func(m *exchange.PlanMove) { m.Alone, m.PaysMin = false, 1 })},
	{"a move not told", func(d *exchange.PlanDocument) bool { d.Moves = d.Moves[1:]; return true }},
	{"a gain of nobody", func(d *exchange.PlanDocument) bool {
		d.Elsewhere = append(d.Elsewhere, exchange.PlanGain{What: "plates", GivenMin: 1})
		return true
	}},
	{"the order given made dearer", func(d *exchange.PlanDocument) bool { d.GivenOrder.CostMin++; return true }},
	{"the order given made cheaper than the plan", func(d *exchange.PlanDocument) bool { d.GivenOrder.CostMin = 1; return true }},
}

// Goal: the audit is worth something. Whatever is spoiled in a good plan, it objects.
// Method: each way to spoil it is tried on a plan in which the audit finds nothing.
func TestAuditCatchesEverySpoiledPlan(t *testing.T) {
	file := read(t, "testdata/workshop.yaml")
	good := planned(t, file, plan.Options{Seed: 1, Iterations: 1500})
	if objections := audit(file, good); len(objections) > 0 {
		t.Fatal(objections)
	}
	for _, s := range spoils {
		t.Run(s.name, func(t *testing.T) {
			d, err := exchange.ReadPlan(good)
			if err != nil {
				t.Fatal(err)
			}
			if !s.do(d) {
				t.Fatal("the plan has nothing to spoil in this way")
			}
			bad, err := json.Marshal(d)
			if err != nil {
				t.Fatal(err)
			}
			if len(audit(file, bad)) == 0 {
				t.Error("the audit did not notice")
			}
		})
	}
}

// Goal: a plan is held to this very shop. Method: the plan of one shop is audited against a shop that differs in one
// thing the plan leans on.
func TestAuditHoldsThePlanToTheShop(t *testing.T) {
	file := string(read(t, "testdata/workshop.yaml"))
	good := planned(t, []byte(file), plan.Options{Seed: 1, Iterations: 1500})
	for _, other := range [][2]string{
		{"class: wide, tools: [perforate 12 tpi @ 432], slot: A1", "class: wide, tools: [perforate 12 tpi @ 431], slot: A1"},
		{"strip 6 mm, class: wide, left: 15, right: 15", "strip 6 mm, class: wide, left: 200, right: 200"},
		{"mon-fri: 06:00-09:00, 09:15-14:00", "mon-fri: 06:00-08:00, 09:15-14:00"},
		{"mon-fri: 07:00-09:00", "mon-fri: 10:00-11:00"},
		{"access: 3,", "access: 4,"},
		{"due: 2026-03-27 16:00", "due: 2026-03-27 06:30"},
		{"release: 2026-03-27 10:00", "release: 2026-03-30 10:00, weight: 3"},
		{"sheets: 7000", "sheets: 7001"},
		{"late: 2,", "late: 3,"},
		{"guides: {1: 100, 3: 80}", "guides: {1: 120, 3: 80}"},
		{"speed: 160", "speed: 80"},
	} {
		changed := strings.Replace(file, other[0], other[1], 1)
		if strings.Contains(other[1], "weight: 3") {
			changed = strings.Replace(changed, ", weight: 3}", "}", 1)
		}
		if changed == file {
			t.Errorf("the workshop has no %q", other[0])
		}
		if len(audit([]byte(changed), good)) == 0 {
			t.Errorf("the audit did not notice %q", other[1])
		}
	}
}
