package schedule

import (
	"math/bits"
	"slices"
)

// Construct makes a good first order: it dispatches the jobs by several rules and takes the cheapest result.
func Construct(p *Problem) Order {
	m := newModel(p)
	return dispatched(m, newArcs(m))[0].order
}

// priced is an order with its cost.
type priced struct {
	order Order
	cost  Cost
}

// dispatched is an order by every rule, the cheapest first; of equals the one whose rule stands first.
func dispatched(m *model, a *arcs) []priced {
	d := newDecoder(m)
	var all []priced
	for _, r := range rules {
		order := newDispatcher(m, a, r).run()
		all = append(all, priced{order, d.decode(order, nil)})
	}
	slices.SortStableFunc(all, func(a, b priced) int { return a.cost.Compare(b.cost) })
	return all
}

// rule weighs what speaks for the next job, after the apparent-tardiness-cost rule with set-ups (Lee, Bhaskaran and
// Pinedo 1997, from memory): weight over run time, less slack over Ahead mean runs, less set-up over Near mean set-ups.
// The original multiplies exponentials; here their logarithms are added, so whole numbers suffice and give the same
// ranking on every processor.
type rule struct {
	ahead, near int64 // in quarters
	longFirst   bool  // the long runs first, for an even load, instead of the short ones
}

// rules are those that Construct tries.
var rules = []rule{
	{ahead: 4, near: 1},
	{ahead: 4, near: 4},
	{ahead: 4, near: 16},
	{ahead: 12, near: 1},
	{ahead: 12, near: 4},
	{ahead: 12, near: 16},
	{ahead: 40, near: 1},
	{ahead: 40, near: 4},
	{ahead: 40, near: 16},
	{ahead: 12, near: 1, longFirst: true},
	{ahead: 40, near: 4, longFirst: true},
	{ahead: 40, near: 16, longFirst: true},
}

// one is the fixed-point unit of scores.
const one = 1 << 10

// dispatcher builds an order by giving the machine that is free first its best job, again and again.
type dispatcher struct {
	*model
	arcs   *arcs
	rule   rule
	run0   Time // mean run and set-up, never zero
	setup0 Time
	order  Order
	free   []Time
	last   []int
	end    []Time // of each job, -1 while open
	open   int
}

func newDispatcher(m *model, a *arcs, r rule) *dispatcher {
	d := &dispatcher{
		model: m, arcs: a, rule: r, open: m.jobs,
		order: make(Order, len(m.Machines)), free: make([]Time, len(m.Machines)), last: make([]int, len(m.Machines)), end: make([]Time, m.jobs),
	}
	for j := range d.end {
		d.end[j] = -1
	}
	for i := range d.last {
		d.last[i] = m.jobs
	}
	d.means()
	return d
}

// means measures runs on each job's best machine and a sample of its arcs.
func (d *dispatcher) means() {
	var run, setup, arcs Time
	for j := range d.jobs {
		run += d.bestRun(j)
		for i := range d.Machines {
			for from := j % 7; from < d.jobs; from += 7 {
				if from != j && d.Jobs[j].Run[i] >= 0 && d.Jobs[from].Run[i] >= 0 {
					setup += d.arcs.at(i, from, j)
					arcs++
				}
			}
		}
	}
	d.run0, d.setup0 = max(1, run/max(1, Time(d.jobs))), max(1, setup/max(1, arcs))
}

func (d *dispatcher) bestRun(j int) Time {
	best := Forever
	for _, run := range d.Jobs[j].Run {
		if run >= 0 {
			best = min(best, run)
		}
	}
	return best
}

func (d *dispatcher) run() Order {
	for i := range d.Machines {
		for _, j := range d.Machines[i].Fixed {
			d.put(i, j)
		}
	}
	for d.open > 0 {
		i, j := d.pick()
		d.put(i, j)
	}
	return d.order
}

// put appends a job to a machine. Its end is an estimate: the least set-up, no wait for tools.
func (d *dispatcher) put(i, j int) {
	s := &d.shifts[i]
	start := s.next(max(d.free[i], d.arrival(j)))
	d.end[j] = min(Forever, s.finish(start, d.arcs.at(i, d.last[i], j)+d.Jobs[j].Run[i]))
	d.free[i], d.last[i] = d.end[j], j
	d.order[i] = append(d.order[i], j)
	d.open--
}

// arrival is when the job's set-up may start at the earliest; fixed jobs whose predecessors are open count those as done.
func (d *dispatcher) arrival(j int) Time {
	t := d.Jobs[j].Release
	for _, b := range d.before[j] {
		t = max(t, d.end[b])
	}
	return t
}

// pick is the machine that is free first among those that can run an open job, and its best one.
func (d *dispatcher) pick() (machine, job int) {
	machine, job = -1, -1
	for i := range d.Machines {
		if machine >= 0 && d.free[i] >= d.free[machine] {
			continue
		}
		if j := d.best(i); j >= 0 {
			machine, job = i, j
		}
	}
	return machine, job
}

func (d *dispatcher) best(i int) int {
	best, most := -1, int64(0)
	for j := range d.jobs {
		if d.end[j] >= 0 || d.Jobs[j].Run[i] < 0 || d.waits(j) {
			continue
		}
		if score := d.score(i, j); best < 0 || score > most {
			best, most = j, score
		}
	}
	return best
}

func (d *dispatcher) waits(j int) bool {
	for _, b := range d.before[j] {
		if d.end[b] < 0 {
			return true
		}
	}
	return false
}

func (d *dispatcher) score(i, j int) int64 {
	job := &d.Jobs[j]
	setup, run := d.arcs.at(i, d.last[i], j), job.Run[i]
	begin := max(d.free[i], d.arrival(j))
	slack := min(max(0, job.Due-begin-setup-run), 64*d.run0)
	idle := min(begin-d.free[i], 64*d.run0)
	score := log2(job.Weight+1) - log2(run+1)
	if d.rule.longFirst {
		score = log2(run + 1)
	}
	score -= slack * 4 * one / (d.run0 * d.rule.ahead)
	score -= setup * 4 * one / (d.setup0 * d.rule.near)
	score -= (idle + run - d.bestRun(j)) * 2 * one / d.run0
	return score
}

// log2 is the logarithm in units of one, exact at powers of two and straight in between.
func log2(x int64) int64 {
	n := bits.Len64(uint64(x)) - 1
	part := x - 1<<n
	if n > 10 {
		return int64(n)*one + part>>(n-10)
	}
	return int64(n)*one + part<<(10-n)
}
