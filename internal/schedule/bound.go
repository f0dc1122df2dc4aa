package schedule

import "slices"

// Bound is a number of set-up seconds that no plan with all jobs placed can undercut.
//
// In such a plan every job comes directly after something: another job, or the present state of a machine, and each of
// these is followed at most once. The set-up between the two is at least the arc's: the table, a change at each station
// where nothing that serves the one serves the other, a guide move where their ranges do not meet. Nor does a job come
// after one that must wait for it. Two relaxations are lower bounds, and the larger one is returned:
//
//   - the cheapest assignment of jobs to what comes before them, which may go in circles;
//   - the cheapest forest, which has no circles but may follow one thing by several. Whatever is followed by several is
//     made dearer and what by none cheaper, step by step, and the price of that is taken off the result (Held and Karp's
//     bound for tours, here for paths on several machines). It holds for whatever prices.
//
// O(jobs³) and some hundred forests of O(jobs²).
func Bound(p *Problem) Time {
	m := newModel(p)
	b := &bound{model: m, arcs: newArcs(m), later: latecomers(m), prior: make([]int, m.jobs), follow: make([]int, m.jobs+len(m.Machines))}
	b.fix()
	sum := assign(m.jobs, m.jobs+len(m.Machines), b.price)
	if sum >= impossible || m.jobs == 0 {
		return 0 // no such plan exists
	}
	return max(sum, b.forests())
}

// finer is the parts of a second in which things are made dearer.
const finer = 16

// forests is the best bound by forests that a fixed number of steps finds.
func (b *bound) forests() Time {
	const steps = 150
	sources := len(b.follow)
	plain, price, dearer := b.table(), make([]Time, b.jobs*sources), make([]Time, sources)
	var best, stride Time
	for step := range steps {
		for i, p := range plain {
			if price[i] = p; p < impossible {
				price[i] += dearer[i%sources]
			}
		}
		before, sum := grow(b.jobs, sources, price)
		if sum >= impossible {
			return 0
		}
		for _, d := range dearer {
			sum -= d
		}
		best = max(best, sum)
		if step == 0 {
			stride = max(finer, sum/Time(b.jobs))
		}
		adjust(dearer, before, stride)
		stride = max(1, stride*24/25)
	}
	return (best + finer - 1) / finer
}

// table is the prices by job and by what comes before it, in finer parts.
func (b *bound) table() []Time {
	var table []Time
	for to := range b.jobs {
		for from := range b.follow {
			price := b.price(to, from)
			if price < impossible {
				price *= finer
			}
			table = append(table, price)
		}
	}
	return table
}

// adjust makes dearer what is followed more than once, and cheaper, down to its own price, what is not followed.
func adjust(dearer []Time, before []int, stride Time) {
	followed := make([]Time, len(dearer))
	for _, from := range before {
		followed[from]++
	}
	for i := range dearer {
		dearer[i] = max(0, dearer[i]+stride*(followed[i]-1))
	}
}

// bound numbers what can come before a job: the jobs, then the machines' present states.
type bound struct {
	*model
	arcs   *arcs
	prior  []int // of each job: what must come directly before it, -1 when anything may
	follow []int // of each of those: the job that must come directly after it, -1 when any may
	later  [][]bool
}

// latecomers tells for each job which others wait for it, directly or by way of others. A job that is already running
// waits for none.
func latecomers(m *model) [][]bool {
	after := make([][]int, m.jobs)
	for _, x := range m.Precedences {
		if !slices.Contains(m.started, x.After) {
			after[x.Before] = append(after[x.Before], x.After)
		}
	}
	later := make([][]bool, m.jobs)
	for j := range later {
		later[j] = make([]bool, m.jobs)
		for open := []int{j}; len(open) > 0; {
			last := len(open) - 1
			i := open[last]
			open = open[:last]
			for _, k := range after[i] {
				if !later[j][k] {
					later[j][k] = true
					open = append(open, k)
				}
			}
		}
	}
	return later
}

// fix notes what the fixed jobs leave no choice in.
func (b *bound) fix() {
	for i := range b.prior {
		b.prior[i] = -1
	}
	for i := range b.follow {
		b.follow[i] = -1
	}
	for i := range b.Machines {
		last := b.jobs + i
		for _, j := range b.Machines[i].Fixed {
			b.prior[j], b.follow[last] = last, j
			last = j
		}
	}
}

// price is the least set-up of job to directly after what comes before it, on the machine where it is least.
func (b *bound) price(to, from int) Time {
	if from == to || b.prior[to] >= 0 && b.prior[to] != from || b.follow[from] >= 0 && b.follow[from] != to {
		return impossible
	}
	if from >= b.jobs {
		if i := from - b.jobs; b.Jobs[to].Run[i] >= 0 {
			return b.arcs.at(i, b.jobs, to)
		}
		return impossible
	}
	if b.later[to][from] {
		return impossible
	}
	least := impossible
	for i := range b.Machines {
		if b.Jobs[from].Run[i] >= 0 && b.Jobs[to].Run[i] >= 0 {
			least = min(least, b.arcs.at(i, from, to))
		}
	}
	return least
}
