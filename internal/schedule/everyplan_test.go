package schedule

import (
	"math"
	"slices"
	"testing"
)

// planner goes through all plans of a very small problem, not only those that the decoder's rules make of orders: every
// sequence of set-ups and builds, every way for every station, every guide position that can matter, each as early as what
// came before in the sequence allows.
//
// That is enough. No part of the cost falls when something begins later, so among the best plans is one that can be listed
// by starting times with everything as early as the list allows. Of guide positions only the lower ends of the fitting
// ranges matter: ranges that have anything in common have the highest of their lower ends in common.
//
// It takes nothing from the decoder. What it says is judged by Evaluate each time it finds something better.
type planner struct {
	*Problem
	t      *testing.T
	limit  int64 // only plans that cost less are looked for
	best   *Plan
	left   []int // jobs that get no place
	least  []Time
	tasks  [][]Task
	builds []Build
}

// small is the largest number of anything that the planner takes.
const small = 6

// world is how things stand after a sequence of set-ups and builds; copied for every further one.
type world struct {
	now     Time // the latest start so far; nothing in the list starts earlier
	end     [small]Time
	free    [small]Time
	last    [small]int
	idle    [small]Time
	guide   [small]int64
	mounted [small]int
	at      [small]int
	since   [small]Time
	pattern [small]int
	unused  [small]int // of each set: the build that no task has made use of, -1 when there is none
	person  [small]Time
	loose   [small]int // less all draws, without returns
	back    []event
	cost    Cost
}

func (e *planner) start() world {
	var w world
	for j := range w.end {
		w.end[j], w.last[j], w.mounted[j], w.unused[j] = -1, len(e.Jobs), -1, -1
	}
	for u := range e.Tools.Units {
		w.guide[u] = e.Tools.Units[u].GuideAt
	}
	for x, s := range e.Tools.Sets {
		w.at[x], w.pattern[x] = s.Station, s.Pattern
		if s.Station >= 0 {
			w.mounted[s.Station] = x
		}
	}
	copy(w.loose[:], e.Tools.Loose)
	return w
}

// bestPlan is the best plan of all that leave out no more jobs than the given cost and do not cost more; nil when there
// is none.
func bestPlan(t *testing.T, p *Problem, atMost Cost) *Plan {
	e := &planner{Problem: p, t: t, tasks: make([][]Task, len(p.Machines))}
	for j := range p.Jobs {
		least := Forever
		for i, run := range p.Jobs[j].Run {
			for last := range p.Setup[i] {
				if run >= 0 && last != j {
					least = min(least, p.Setup[i][last][j])
				}
			}
		}
		e.least = append(e.least, least)
	}
	for without := 0; without <= atMost.Unplaced && e.best == nil; without++ {
		e.limit = math.MaxInt64
		if without == atMost.Unplaced {
			e.limit = atMost.Total + 1
		}
		e.leave(0, without)
	}
	return e.best
}

// leave leaves out every choice of so many jobs from j on, and looks at all plans of the others.
func (e *planner) leave(j, n int) {
	if n > len(e.Jobs)-j {
		return
	}
	if n == 0 {
		e.next(e.start())
		return
	}
	e.left = append(e.left, j)
	e.leave(j+1, n-1)
	e.left = e.left[:len(e.left)-1]
	e.leave(j+1, n)
}

func (e *planner) open(w *world, j int) bool { return w.end[j] < 0 && !slices.Contains(e.left, j) }

// next goes on from a world with every build and every set-up that can follow.
func (e *planner) next(w world) {
	if e.atLeast(&w) >= e.limit {
		return
	}
	ended := true
	for j := range e.Jobs {
		if !e.open(&w, j) {
			continue
		}
		ended = false
		for i, run := range e.Jobs[j].Run {
			if run >= 0 {
				e.task(&w, i, j)
			}
		}
	}
	if ended {
		e.judge(&w)
		return
	}
	for x, s := range e.Tools.Sets {
		if w.at[x] < 0 && !s.Locked && !e.owed(&w, x) {
			e.build(&w, x)
		}
	}
}

// owed says whether a set was built for a task that has not come yet.
func (e *planner) owed(w *world, x int) bool {
	return w.unused[x] >= 0 && !e.Tools.Patterns[w.pattern[x]].Plain()
}

// atLeast is what no plan that goes on from here can undercut: what it costs so far, and for each open job the least set-up
// and the lateness when it came next.
func (e *planner) atLeast(w *world) int64 {
	c := w.cost
	for i := range e.Machines {
		c.Wait += w.idle[i]
		c.Makespan = max(c.Makespan, w.free[i])
	}
	for j := range e.Jobs {
		if !e.open(w, j) {
			continue
		}
		job, end := &e.Jobs[j], Forever
		for i, run := range job.Run {
			if run >= 0 {
				begin := max(w.free[i], w.now, job.Release)
				end = min(end, workUntil(e.Machines[i].Windows, begin, run+e.least[j]))
			}
		}
		if end >= Forever {
			return math.MaxInt64
		}
		c.Setup += e.least[j]
		c.Late += job.Weight * max(0, end-job.Due)
		c.Makespan = max(c.Makespan, end)
	}
	c.Total = c.Late*e.Weights.Late + c.Setup*e.Weights.Setup + c.Wait*e.Weights.Wait + c.Bench*e.Weights.Bench + c.Makespan*e.Weights.Makespan
	return c.Total
}

// judge has Evaluate say what the plan costs, which must be what was added up on the way.
func (e *planner) judge(w *world) {
	for x := range e.Tools.Sets {
		if e.owed(w, x) {
			return
		}
	}
	plan := &Plan{Tasks: e.tasks, Builds: e.builds, Cost: w.cost}
	for i := range e.Machines {
		plan.Cost.Wait += w.idle[i]
		plan.Cost.Makespan = max(plan.Cost.Makespan, w.free[i])
	}
	plan.Cost.Unplaced, plan.Cost.Total = len(e.left), e.atLeast(w)
	order := make(Order, len(e.Machines))
	for i, row := range e.tasks {
		for _, t := range row {
			order[i] = append(order[i], t.Job)
		}
	}
	for _, j := range e.left {
		plan.Unplaced = append(plan.Unplaced, Unplaced{Job: j, Why: NoTools})
		i := slices.IndexFunc(e.Jobs[j].Run, func(run Time) bool { return run >= 0 })
		order[i] = append(order[i], j)
	}
	if _, err := Evaluate(e.Problem, order, plan); err != nil {
		e.t.Fatalf("a plan of all plans breaks the rules: %v\n%+v", err, plan)
	}
	e.limit, e.best = plan.Cost.Total, plan.clone()
}

// build goes on with every build of a set that some open job could ask for, or that frees tools.
func (e *planner) build(w *world, x int) {
	from := w.pattern[x]
	for q, work := range e.Tools.OnBench[from] {
		if work < 0 || q == from || !e.wanted(w, q) && !(e.Tools.Patterns[q].Plain() && e.short(w)) {
			continue
		}
		var draws [small]int
		e.draw(&draws, from, q)
		for who := range e.Tools.People {
			windows := e.Tools.People[who].Windows
			start := nextOpen(windows, e.looseFrom(w, &draws, max(w.since[x], w.person[who])))
			end := workUntil(windows, start, work)
			if end >= Forever || start < w.now {
				continue
			}
			after := *w
			after.now, after.since[x], after.person[who], after.unused[x] = start, end, end, len(e.builds)
			after.convert(e.Problem, x, q, end)
			after.cost.Bench += work
			e.builds = append(e.builds, Build{Set: x, From: from, Pattern: q, Person: who, Start: start, End: end, Work: work})
			e.next(after)
			e.builds = e.builds[:len(e.builds)-1]
		}
	}
}

// wanted says whether the pattern is what an open job wants somewhere, or plain and what serves one.
func (e *planner) wanted(w *world, q int) bool {
	for j := range e.Jobs {
		for k, st := range e.Tools.Stations {
			want := &e.Tools.Wants[j][k]
			if !e.open(w, j) || e.Jobs[j].Run[st.Machine] < 0 || want.Any {
				continue
			}
			serves := slices.ContainsFunc(want.Fits, func(f Fit) bool { return f.Pattern == q })
			if want.Pattern == q || e.Tools.Patterns[q].Plain() && serves {
				return true
			}
		}
	}
	return false
}

// short says whether loose tools can run short: if all that open jobs want were fitted anew, each once.
func (e *planner) short(w *world) bool {
	have := w.loose
	for j := range e.Jobs {
		for k, st := range e.Tools.Stations {
			want := &e.Tools.Wants[j][k]
			if e.open(w, j) && e.Jobs[j].Run[st.Machine] >= 0 && !want.Any {
				for _, c := range e.Tools.Patterns[want.Pattern].Tools {
					have[c.Type] -= c.N
				}
			}
		}
	}
	return slices.Min(have[:]) < 0
}

// draw adds the tools of each type that making one pattern of another needs from the loose ones.
func (e *planner) draw(draws *[small]int, from, to int) {
	for kind := range e.Tools.Loose {
		draws[kind] += max(0, total(e.Tools.Patterns[to], kind)-total(e.Tools.Patterns[from], kind))
	}
}

// convert makes a set one of pattern q: draws count at once, the rest comes back at the end.
func (w *world) convert(p *Problem, x, q int, end Time) {
	w.back = slices.Clone(w.back)
	for kind := range p.Tools.Loose {
		n := total(p.Tools.Patterns[q], kind) - total(p.Tools.Patterns[w.pattern[x]], kind)
		if n > 0 {
			w.loose[kind] -= n
		} else if n < 0 {
			w.back = append(w.back, event{at: end, kind: kind, n: -n})
		}
	}
	w.pattern[x] = q
}

// looseFrom is the first instant from which the tools are loose.
func (e *planner) looseFrom(w *world, draws *[small]int, start Time) Time {
	for kind := range e.Tools.Loose {
		if draws[kind] == 0 {
			continue
		}
		have := w.loose[kind]
		returns := slices.Clone(w.back)
		slices.SortFunc(returns, func(a, b event) int { return int(a.at - b.at) })
		for _, r := range returns {
			if r.kind == kind && (r.at <= start || have < draws[kind]) {
				start, have = max(start, r.at), have+r.n
			}
		}
		if have < draws[kind] {
			return Forever
		}
	}
	return start
}

// nextOpen is the first working instant from t on.
func nextOpen(windows []Window, t Time) Time {
	for _, w := range windows {
		if t < w.To {
			return max(t, w.From)
		}
	}
	return Forever
}

// workUntil is when work that begins at t or at the next working instant is done.
func workUntil(windows []Window, t, work Time) Time {
	for _, w := range windows {
		if t = max(t, w.From); t < w.To {
			if work <= w.To-t {
				return t + work
			}
			work -= w.To - t
		}
	}
	return Forever
}
