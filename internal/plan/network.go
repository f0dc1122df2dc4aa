package plan

import (
	"cmp"
	"slices"
	"sort"

	"foldwright/internal/schedule"
)

// what scatters: each kind has factors of its own.
const (
	makeready = iota
	run
	benchwork
	kinds
)

// activity is a make-ready, a run or a piece of bench work of a plan, with what it waits for.
type activity struct {
	kind, job  int
	hours      *hours
	work       schedule.Time // in the middle
	earliest   schedule.Time
	after      []wait
	start, end schedule.Time // in the plan, then on the day at hand
}

// wait is for the end of another activity, or for its start.
type wait struct {
	on    int
	start bool
}

// network is a plan as activities that wait for one another: who comes after whom on a folder and at the bench, what jobs
// wait for, where every set comes from, which loose tools. What the plan decided stays decided; only the times move.
type network struct {
	activities []activity
	order      []int // so that each comes after what it waits for
	runs       []int
	runOf      []int // by job: its run, -1 without
	setups     []int // by job: its make-ready
	builds     []int // by build
}

// newNetwork makes a network of a plan that was made with the problem of one translation, with the minutes of another: the
// first may plan with a reserve, the second not.
func newNetwork(plan *schedule.Plan, made, nominal *translation) *network {
	n := &network{runOf: make([]int, len(made.jobs)), setups: make([]int, len(made.jobs))}
	for j := range n.runOf {
		n.runOf[j], n.setups[j] = -1, -1
	}
	w := networker{network: n, plan: plan, made: made.problem, nominal: nominal.problem}
	w.people()
	for m := range plan.Tasks {
		w.lane(m)
	}
	w.precedences()
	w.sets()
	w.looseTools()
	n.sort()
	return n
}

// pass works out when everything starts and ends on a day; factors are thousandths by job and kind.
func (n *network) pass(factors [][kinds]int64) {
	for _, i := range n.order {
		a := &n.activities[i]
		from := a.earliest
		for _, w := range a.after {
			if b := &n.activities[w.on]; w.start {
				from = max(from, b.start)
			} else {
				from = max(from, b.end)
			}
		}
		a.start = a.hours.next(from)
		a.end = a.hours.finish(a.start, (a.work*factors[a.job][a.kind]+500)/1000)
	}
}

// sort brings the activities into an order in which each comes after what it waits for. What takes no time at all may wait
// for one another in the plan; it is left out here and keeps the times of the plan.
func (n *network) sort() {
	waits, waiting := make([]int, len(n.activities)), make([][]int, len(n.activities))
	for i := range n.activities {
		for _, w := range n.activities[i].after {
			waits[i]++
			waiting[w.on] = append(waiting[w.on], i)
		}
	}
	for i := range n.activities {
		if waits[i] == 0 {
			n.order = append(n.order, i)
		}
	}
	for at := 0; at < len(n.order); at++ {
		for _, i := range waiting[n.order[at]] {
			if waits[i]--; waits[i] == 0 {
				n.order = append(n.order, i)
			}
		}
	}
}

// hours is working time for asking, as the search has it.
type hours struct {
	windows []schedule.Window
	before  []schedule.Time // working time before each window
}

func newHours(windows []schedule.Window) *hours {
	h := &hours{windows: windows, before: make([]schedule.Time, len(windows)+1)}
	for i, w := range windows {
		h.before[i+1] = h.before[i] + w.To - w.From
	}
	return h
}

// at is the first window that ends after t.
func (h *hours) at(t schedule.Time) int {
	return sort.Search(len(h.windows), func(i int) bool { return h.windows[i].To > t })
}

// next is the first working instant from t on.
func (h *hours) next(t schedule.Time) schedule.Time {
	if i := h.at(t); i < len(h.windows) {
		return max(t, h.windows[i].From)
	}
	return schedule.Forever
}

// finish is when work is done that begins at a working instant: at the end of a window rather than at the start of the next.
func (h *hours) finish(from, work schedule.Time) schedule.Time {
	i := h.at(from)
	if i == len(h.windows) {
		return schedule.Forever
	}
	done := h.before[i] + from - h.windows[i].From + work
	k := i + sort.Search(len(h.windows)-i, func(k int) bool { return h.before[i+k+1] >= done })
	if work == 0 {
		return from
	}
	if k == len(h.windows) {
		return schedule.Forever
	}
	return h.windows[k].From + done - h.before[k]
}

// byStart orders by a time, then by what comes first otherwise.
func byStart[T any](list []T, start func(T) schedule.Time) {
	slices.SortStableFunc(list, func(a, b T) int { return cmp.Compare(start(a), start(b)) })
}
