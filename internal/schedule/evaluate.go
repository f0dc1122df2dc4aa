package schedule

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// Evaluate works out from the definition what a plan of an order costs, and says everything by which it breaks the
// rules: times and windows, releases and precedences, one place at a time for every set, tools that serve, builds done
// before they are needed, loose tools never below none. It shares no code with [Decode] and is slow on purpose.
func Evaluate(p *Problem, order Order, plan *Plan) (Cost, error) {
	if err := p.CheckOrder(order); err != nil {
		return Cost{}, err
	}
	e := &evaluation{Problem: p, order: order, plan: plan}
	e.placed()
	if len(e.faults) > 0 {
		return Cost{}, errors.Join(e.faults...)
	}
	for i := range plan.Tasks {
		e.machine(i)
	}
	e.precedence()
	for i := range p.Racks {
		e.rack(i)
	}
	if p.Tools != nil {
		e.tools()
	} else if len(plan.Builds) > 0 {
		e.addf("there are builds but no tooling")
	}
	e.price()
	return e.cost, errors.Join(e.faults...)
}

type evaluation struct {
	*Problem
	order  Order
	plan   *Plan
	cost   Cost
	faults []error
}

func (e *evaluation) addf(format string, args ...any) {
	e.faults = append(e.faults, fmt.Errorf(format, args...))
}

// must notes a fault unless the condition holds.
func (e *evaluation) must(holds bool, format string, args ...any) {
	if !holds {
		e.addf(format, args...)
	}
}

// placed holds the tasks to the order: the same jobs in the same sequence, but for those left without a place.
func (e *evaluation) placed() {
	without := make(map[int]bool)
	for _, u := range e.plan.Unplaced {
		e.must(!without[u.Job], "job %d is named twice among those without a place", u.Job)
		without[u.Job] = true
	}
	e.cost.Unplaced = len(without)
	if len(e.plan.Tasks) != len(e.order) {
		e.addf("the plan has tasks for %d machines; there are %d", len(e.plan.Tasks), len(e.order))
		return
	}
	for i, row := range e.order {
		var want, have []int
		for _, j := range row {
			if !without[j] {
				want = append(want, j)
			}
			delete(without, j)
		}
		for _, t := range e.plan.Tasks[i] {
			have = append(have, t.Job)
		}
		e.must(slices.Equal(want, have), "machine %d runs jobs %v; its order less those without a place is %v", i, have, want)
	}
	e.must(len(without) == 0, "jobs without a place that are not in the order: %v", len(without))
}

// machine checks the times of one machine's tasks one after another.
func (e *evaluation) machine(i int) {
	windows, last, free := e.Machines[i].Windows, len(e.Jobs), Time(0)
	for n, t := range e.plan.Tasks[i] {
		job := &e.Jobs[t.Job]
		started := n == 0 && e.Machines[i].Started && t.Job == e.Machines[i].Fixed[0]
		e.must(t.SetupStart >= free, "job %d is made ready at %d, before machine %d is free at %d", t.Job, t.SetupStart, i, free)
		if started {
			e.must(t.Setup() == 0, "job %d has started but has a set-up of %d s", t.Job, t.Setup())
		} else {
			e.must(t.SetupStart >= job.Release, "job %d is made ready at %d, before its release at %d", t.Job, t.SetupStart, job.Release)
			e.must(t.Base == e.Setup[i][last][t.Job], "job %d has a base set-up of %d s; from %d it takes %d", t.Job, t.Base, last, e.Setup[i][last][t.Job])
		}
		e.must(open(windows, t.SetupStart) && open(windows, t.RunStart), "job %d is made ready at %d or starts at %d, outside working time", t.Job, t.SetupStart, t.RunStart)
		set := worked(windows, t.SetupStart, t.RunStart)
		e.must(t.RunStart >= t.SetupStart && set == t.Setup(), "job %d has %d s of working time for a set-up of %d s", t.Job, set, t.Setup())
		e.must(ends(windows, t.RunStart, t.RunEnd, job.Run[i]), "job %d runs from %d to %d, which is not %d s of work", t.Job, t.RunStart, t.RunEnd, job.Run[i])
		last, free = t.Job, t.RunEnd
		e.cost.Late += job.Weight * max(0, t.RunEnd-job.Due)
		e.cost.Setup += t.Setup()
		e.cost.Wait -= t.Setup() + job.Run[i]
		e.cost.Makespan = max(e.cost.Makespan, t.RunEnd)
	}
	if tasks := e.plan.Tasks[i]; len(tasks) > 0 {
		if e.Closing != nil {
			e.cost.Setup += e.Closing[i][last]
		}
		e.cost.Wait += worked(windows, 0, tasks[len(tasks)-1].RunEnd)
	}
}

// precedence needs every job that must be finished first to have a place and to end in time, unless the later one has
// no place or was running already.
func (e *evaluation) precedence() {
	start, end := make(map[int]Time), make(map[int]Time)
	for i, row := range e.plan.Tasks {
		for n, t := range row {
			if n > 0 || !e.Machines[i].Started {
				start[t.Job] = t.SetupStart
			}
			end[t.Job] = t.RunEnd
		}
	}
	for _, x := range e.Precedences {
		begins, counts := start[x.After]
		if !counts {
			continue
		}
		ended, has := end[x.Before]
		e.must(has && ended <= begins, "job %d is made ready at %d, but job %d before it ends at %d (0 = never)", x.After, begins, x.Before, ended)
	}
}

// price holds the cost in the plan to the one found.
func (e *evaluation) price() {
	c, w := &e.cost, e.Weights
	c.Total = c.Late*w.Late + c.Setup*w.Setup + c.Wait*w.Wait + c.Bench*w.Bench + c.Makespan*w.Makespan
	e.must(*c == e.plan.Cost, "the plan says that it costs %+v; it costs %+v", e.plan.Cost, *c)
}

// open says whether an instant lies in working time.
func open(windows []Window, t Time) bool {
	return slices.ContainsFunc(windows, func(w Window) bool { return w.From <= t && t < w.To })
}

// worked is the working time between two instants: what each window has of it.
func worked(windows []Window, from, to Time) Time {
	var sum Time
	for _, w := range windows {
		sum += max(0, min(to, w.To)-max(from, w.From))
	}
	return sum
}

// ends says whether work begun at the one instant is done exactly at the other and not earlier.
func ends(windows []Window, from, to, work Time) bool {
	if work == 0 {
		return from == to
	}
	return from <= to && worked(windows, from, to) == work && worked(windows, from, to-1) == work-1
}

// event is a change of loose tools.
type event struct {
	at      Time
	kind, n int
}

// neverBelowNone replays the loose tools; what comes back at an instant is there for what is drawn at the same one.
func (e *evaluation) neverBelowNone(events []event) {
	slices.SortStableFunc(events, func(a, b event) int {
		return cmp.Or(cmp.Compare(a.at, b.at), -cmp.Compare(a.n, b.n))
	})
	loose := slices.Clone(e.Tools.Loose)
	for _, x := range events {
		loose[x.kind] += x.n
		e.must(loose[x.kind] >= 0, "at %d there are %d loose tools of type %d", x.at, loose[x.kind], x.kind)
	}
}
