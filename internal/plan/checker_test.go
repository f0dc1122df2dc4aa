package plan_test

import (
	"fmt"
	"math"
	"slices"
	"time"

	"foldwright/internal/calendar"
	"foldwright/internal/exchange"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
)

// The checker is an auditor: it has the shop file and the plan's JSON, and nothing of the planner. It asks settings and
// changeover what a job needs and what a changeover takes, replays the day with sets, tools, guides and bench, adds up
// every figure again, and writes down whatever does not agree. It must not import packages plan and schedule.
type checker struct {
	shop    *shop.Shop
	house   *settings.House
	doc     *exchange.PlanDocument
	ways    map[wayKey]*settings.Settings
	objects []string
}

type wayKey struct{ job, folder string }

// audit returns what is wrong with a plan.
func audit(shopFile, planJSON []byte) []string {
	s, err := exchange.ReadShop("shop.yaml", shopFile)
	if err != nil {
		return []string{err.Error()}
	}
	doc, err := exchange.ReadPlan(planJSON)
	if err != nil {
		return []string{err.Error()}
	}
	c := &checker{shop: s, house: s.SettingsHouse(), doc: doc, ways: map[wayKey]*settings.Settings{}}
	c.day("plan", &doc.PlanDay)
	c.day("given order", &doc.GivenOrder)
	c.plan()
	c.moves()
	return c.objects
}

func (c *checker) object(format string, args ...any) {
	c.objects = append(c.objects, fmt.Sprintf(format, args...))
}

// plan checks what the plan says beyond its two days.
func (c *checker) plan() {
	doc := c.doc
	for _, w := range []struct {
		name      string
		says, has float64
	}{
		{"late", doc.Weights.Late, c.shop.Weights.Late},
		{"makeready", doc.Weights.Makeready, c.shop.Weights.Makeready},
		{"waiting", doc.Weights.Waiting, c.shop.Weights.Waiting},
		{"bench", doc.Weights.Bench, c.shop.Weights.Bench},
	} {
		if math.Abs(w.says-w.has) > 0.0005 {
			c.object("weight of %s is %v, the shop says %v", w.name, w.says, w.has)
		}
	}
	if doc.CostMin > doc.GivenOrder.CostMin && len(doc.Unplaced) >= len(doc.GivenOrder.Unplaced) {
		c.object("the plan costs %v min, more than the order given: %v", doc.CostMin, doc.GivenOrder.CostMin)
	}
	if doc.MakereadyBoundMin > doc.MakereadyMin || doc.MakereadyBoundMin > doc.GivenOrder.MakereadyMin {
		c.object("make-ready of %v min is below its bound %v", doc.MakereadyMin, doc.MakereadyBoundMin)
	}
	if gap := seconds(doc.MakereadyMin) - seconds(doc.MakereadyBoundMin); gap != seconds(doc.MakereadyGapMin) {
		c.object("the gap to the bound is %v min, the figures give %v s", doc.MakereadyGapMin, gap)
	}
}

// day checks an order worked out in full.
func (c *checker) day(name string, d *exchange.PlanDay) {
	a := &auditDay{checker: c, name: name, day: d, ends: map[string]time.Time{}}
	a.everyJobOnce()
	for i := range d.Folders {
		a.lane(i)
	}
	a.waitsAndPins()
	a.replay()
	a.bench()
	a.figures()
	a.lateJobs()
}

// auditDay is the audit of one day.
type auditDay struct {
	*checker
	name string
	day  *exchange.PlanDay
	ends map[string]time.Time // of the jobs in tasks
}

func (a *auditDay) object(format string, args ...any) {
	a.checker.object("%s: %s", a.name, fmt.Sprintf(format, args...))
}

// everyJobOnce: each job of the shop is in one task or among the unplaced, and those for a reason.
func (a *auditDay) everyJobOnce() {
	named := map[string]int{}
	for _, f := range a.day.Folders {
		for _, task := range f.Tasks {
			named[task.Job]++
			a.ends[task.Job] = task.RunEnd
		}
	}
	unplaced := map[string]bool{}
	for _, u := range a.day.Unplaced {
		named[u.Job]++
		unplaced[u.Job] = true
	}
	for _, j := range a.shop.Jobs {
		if named[j.Name] != 1 {
			a.object("job %s is named %d times", j.Name, named[j.Name])
		}
		delete(named, j.Name)
	}
	for name := range named {
		a.object("there is no job %s", name)
	}
	for _, u := range a.day.Unplaced {
		if j, ok := a.shop.Job(u.Job); ok && !slices.ContainsFunc(j.After, func(b string) bool { return unplaced[b] }) {
			a.reasons(u)
		}
	}
}

// reasons: a job that waits for nothing without a place has none itself only where no folder can run it, which is told of
// each, or where tools were short on the folder it was put on, so that it must want some.
func (a *auditDay) reasons(u exchange.PlanUnplaced) {
	told := map[string]bool{}
	for _, why := range u.Whys {
		told[why.Folder] = true
	}
	for i := range a.shop.Folders {
		if f := a.shop.Folders[i].Name; len(u.Whys) != 1 && (a.way(u.Job, f) != nil || !told[f]) {
			a.object("job %s has no place; what is said of %s is not so", u.Job, f)
		}
	}
	if len(u.Whys) != 1 {
		return
	}
	way := a.way(u.Job, u.Whys[0].Folder)
	if way == nil {
		a.object("job %s has no place on %s, where it cannot run", u.Job, u.Whys[0].Folder)
		return
	}
	for _, unit := range way.Units {
		for _, st := range unit.Stations {
			if len(st.Tools) > 0 {
				return
			}
		}
	}
	a.object("job %s has no place on %s, which can run it and needs no tools", u.Job, u.Whys[0].Folder)
}

// toolsExist: loose and on all sets together there are as many tools of each type as a station wants.
func (c *checker) toolsExist(way *settings.Settings) bool {
	for _, u := range way.Units {
		for _, st := range u.Stations {
			for _, want := range st.Tools {
				same := func(t tooling.Tool) bool { return t.Type == want.Type }
				need := count(st.Pattern().Tools, same)
				if stock, ok := c.shop.Tool(st.Class, want.Type); ok {
					need -= stock.Loose
				}
				for _, set := range c.shop.Sets {
					if set.Class == st.Class {
						need -= count(set.Tools, same)
					}
				}
				if need > 0 {
					return false
				}
			}
		}
	}
	return true
}

func count(tools []tooling.Tool, is func(tooling.Tool) bool) int {
	n := 0
	for _, t := range tools {
		if is(t) {
			n++
		}
	}
	return n
}

// way is the best way to set a job on a folder for which the shop has the tools; nil when there is none or the job is
// pinned elsewhere.
func (c *checker) way(name, folder string) *settings.Settings {
	key := wayKey{name, folder}
	if w, ok := c.ways[key]; ok {
		return w
	}
	var best *settings.Settings
	j, ok := c.shop.Job(name)
	f, known := c.shop.Folder(folder)
	if ok && known && (j.Pin.Folder == "" || j.Pin.Folder == folder) {
		best = c.bestWay(j, f)
	}
	c.ways[key] = best
	return best
}

func (c *checker) bestWay(j *job.Job, f *machine.Folder) *settings.Settings {
	folded, err := j.Scheme.Apply(j.Sheet)
	if err != nil {
		return nil
	}
	ways, _ := settings.Ways(j, folded, f, c.house)
	for i := range ways {
		if c.toolsExist(&ways[i]) {
			return &ways[i]
		}
	}
	return nil
}

// lane checks times, calendar and sums of a folder's tasks.
func (a *auditDay) lane(i int) {
	lane := a.day.Folders[i]
	if i >= len(a.shop.Folders) || lane.Folder != a.shop.Folders[i].Name {
		a.object("folder %d of the plan is %s", i+1, lane.Folder)
		return
	}
	cal := a.hours(a.shop.Folders[i].Calendar, a.down(a.shop.Folders[i].Name))
	free := a.doc.From
	for n := range lane.Tasks {
		task := &lane.Tasks[n]
		at := fmt.Sprintf("%s, %s", lane.Folder, task.Job)
		if task.MakereadyStart.Before(free) {
			a.object("%s: make-ready starts at %s, the folder is free at %s", at, task.MakereadyStart, free)
		}
		a.taskTimes(at, cal, task)
		a.taskRun(at, lane.Folder, task)
		free = task.RunEnd
	}
}

// taskTimes: the working time between the moments is the minutes told, and each piece of work begins when there is work.
func (a *auditDay) taskTimes(at string, cal *calendar.Calendar, task *exchange.PlanTask) {
	if is := cal.Between(task.MakereadyStart, task.RunStart); is != minutesOf(task.MakereadyMin) {
		a.object("%s: %v of working time for a make-ready of %v min", at, is, task.MakereadyMin)
	}
	if is := cal.Between(task.RunStart, task.RunEnd); is != minutesOf(task.RunMin) {
		a.object("%s: %v of working time for a run of %v min", at, is, task.RunMin)
	}
	if task.MakereadyMin > 0 && cal.Between(task.MakereadyStart, task.MakereadyStart.Add(time.Second)) != time.Second {
		a.object("%s: make-ready starts at %s, outside working hours", at, task.MakereadyStart)
	}
	if cal.Between(task.RunEnd.Add(-time.Second), task.RunEnd) != time.Second {
		a.object("%s: the run ends at %s, outside working hours", at, task.RunEnd)
	}
	var lines int64
	for _, l := range task.Lines {
		lines += seconds(l.Min)
	}
	if lines != seconds(task.MakereadyMin) {
		a.object("%s: the lines come to %d s, the make-ready is %v min", at, lines, task.MakereadyMin)
	}
}

// taskRun: rate, run and lateness follow from docket and settings.
func (a *auditDay) taskRun(at, folder string, task *exchange.PlanTask) {
	j, ok := a.shop.Job(task.Job)
	way := a.way(task.Job, folder)
	if !ok || way == nil {
		a.object("%s: the folder cannot run this job", at)
		return
	}
	if way.SheetsPerHour != task.RatePerHour || j.Sheets != task.Sheets {
		a.object("%s: %d sheets at %d an hour; should be %d at %d", at, task.Sheets, task.RatePerHour, j.Sheets, way.SheetsPerHour)
	}
	if run := int64(math.Ceil(float64(j.Sheets) * 3600 / float64(way.SheetsPerHour))); run != seconds(task.RunMin) {
		a.object("%s: the run is %v min, should be %d s", at, task.RunMin, run)
	}
	if task.MakereadyStart.Before(j.Release) && !j.Pin.Started {
		a.object("%s: starts at %s, released at %s", at, task.MakereadyStart, j.Release)
	}
	var late time.Duration
	if !j.Due.IsZero() {
		late = max(0, task.RunEnd.Sub(j.Due))
	}
	if late != minutesOf(task.LateMin) {
		a.object("%s: late by %v min, should be %v", at, task.LateMin, late)
	}
	if task.Weight != int64(max(j.Weight, 1)) {
		a.object("%s: weight %d, the docket says %d", at, task.Weight, j.Weight)
	}
}

// waitsAndPins: what a person has decided is kept.
func (a *auditDay) waitsAndPins() {
	for _, lane := range a.day.Folders {
		front := 0 // jobs pinned to the front so far
		for n, task := range lane.Tasks {
			j, ok := a.shop.Job(task.Job)
			if !ok {
				continue
			}
			for _, before := range j.After {
				end, ran := a.ends[before]
				if _, planned := a.shop.Job(before); planned && (!ran || task.MakereadyStart.Before(end)) && !a.done(before) {
					a.object("job %s starts at %s, before %s has ended", j.Name, task.MakereadyStart, before)
				}
			}
			if j.Pin.Started && (n > 0 || task.MakereadyMin > 0) {
				a.object("job %s is running already, yet stands at place %d with %v min of make-ready", j.Name, n+1, task.MakereadyMin)
			}
			if j.Pin.Started || j.Pin.Position > 0 {
				if n != front {
					a.object("job %s is pinned to the front of %s but stands at place %d", j.Name, lane.Folder, n+1)
				}
				front++
			}
		}
	}
}

// done tells whether a job is among the finished ones.
func (a *auditDay) done(name string) bool {
	return slices.ContainsFunc(a.shop.Done, func(j job.Job) bool { return j.Name == name })
}

// figures: every sum is added up again.
func (a *auditDay) figures() {
	var late, plain, makeready, waiting, bench int64
	count, end := 0, a.doc.From
	for i, lane := range a.day.Folders {
		cal := a.hours(a.shop.Folders[i].Calendar, a.down(a.shop.Folders[i].Name))
		for n, task := range lane.Tasks {
			late += seconds(task.LateMin) * task.Weight
			plain += seconds(task.LateMin)
			makeready += seconds(task.MakereadyMin)
			idle := a.doc.From
			if n > 0 {
				idle = lane.Tasks[n-1].RunEnd
			}
			waiting += int64(cal.Between(idle, task.MakereadyStart) / time.Second)
			if task.LateMin > 0 {
				count++
			}
			if task.RunEnd.After(end) {
				end = task.RunEnd
			}
		}
	}
	for _, b := range a.day.Bench {
		bench += seconds(b.WorkMin)
	}
	a.figure("late_min", a.day.LateMin, late)
	a.figure("late_plain_min", a.day.LatePlainMin, plain)
	a.figure("makeready_min", a.day.MakereadyMin, makeready)
	a.figure("waiting_min", a.day.WaitingMin, waiting)
	a.figure("bench_min", a.day.BenchMin, bench)
	w := a.doc.Weights
	cost := (w.Late*float64(late) + w.Makeready*float64(makeready) + w.Waiting*float64(waiting) + w.Bench*float64(bench)) / 60
	if math.Abs(cost-a.day.CostMin) > 0.0001 {
		a.object("cost_min is %v, the parts give %v", a.day.CostMin, cost)
	}
	if a.day.LateCount != count || !a.day.End.Equal(end) {
		a.object("%d late jobs and end %s, the tasks give %d and %s", a.day.LateCount, a.day.End, count, end)
	}
}

func (a *auditDay) figure(name string, says float64, is int64) {
	if seconds(says) != is {
		a.object("%s is %v min, the tasks give %d s", name, says, is)
	}
}

// lateJobs: the list of late jobs is the late tasks.
func (a *auditDay) lateJobs() {
	listed := map[string]exchange.PlanLate{}
	for _, l := range a.day.LateJobs {
		listed[l.Job] = l
	}
	if len(listed) != len(a.day.LateJobs) || len(listed) != a.day.LateCount {
		a.object("%d late jobs listed, %d counted", len(a.day.LateJobs), a.day.LateCount)
	}
	for _, lane := range a.day.Folders {
		for _, task := range lane.Tasks {
			if l, ok := listed[task.Job]; ok != (task.LateMin > 0) || ok && (l.LateMin != task.LateMin || l.Folder != lane.Folder || l.Weight != task.Weight) {
				a.object("job %s is %v min late, the list says %+v", task.Job, task.LateMin, l)
			}
		}
	}
}

// seconds are the whole seconds that a figure of minutes stands for.
func seconds(min float64) int64 { return int64(math.Round(min * 60)) }

func minutesOf(min float64) time.Duration { return time.Duration(seconds(min)) * time.Second }
