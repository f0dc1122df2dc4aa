package schedule

import "math/rand/v2"

// tardiness is the ground of one machine where lateness counts, beside set-ups perhaps.
//
// A step kicks the order by a few short moves and then improves it by swaps of stretches until none pays. A change leaves
// most jobs in their sequence and only shifts them, and what a shift costs is known for every tail of the order
// ([tailCosts]): a change is priced in O(log jobs), after an O(jobs²) lay-out of each order that is kept.
type tardiness struct {
	*model
	setupPrice, latePrice int64
	width                 int    // of a row of the table
	setup                 []Time // by from and to; row len(Jobs) is the start, column len(Jobs) the end, which takes nothing

	row   []int  // the jobs, and then len(Jobs) for the end
	links []Time // by place: the set-up before it; the end's is 0
	ends  []Time // by place: when the job ends
	tails tailCosts
	rates []int64 // by place, of all jobs before it: the price of a second by which the late ones end later
	price int64

	look   []bool // by place: moves that begin here may pay
	saved  []int  // as it was before the last step
	filter filter
	rows   Order
}

func newTardiness(m *model) *tardiness {
	n := m.jobs
	t := &tardiness{
		model: m, setupPrice: m.Weights.Setup + m.Weights.Makespan, latePrice: m.Weights.Late, width: n + 1,
		ends: make([]Time, n), saved: make([]int, n+1), row: make([]int, n+1), look: make([]bool, n), rates: make([]int64, n+1), links: make([]Time, n+1), rows: make(Order, 1),
	}
	for _, row := range m.Setup[0] {
		t.setup = append(append(t.setup, row...), 0)
	}
	t.tails, t.filter = newTailCosts(n), newFilter()
	return t
}

func (t *tardiness) total() int64 { return t.price }

func (t *tardiness) order() Order {
	t.rows[0] = t.row[:t.jobs]
	return t.rows
}

func (t *tardiness) set(order Order) {
	copy(t.row, order[0])
	t.row[t.jobs] = t.jobs
	t.lay()
}

// lay works out ends, price and tails of the row.
func (t *tardiness) lay() {
	last, at, setups := t.jobs, Time(0), Time(0)
	for p, j := range t.row[:t.jobs] {
		s := t.between(last, j)
		t.links[p] = s
		setups += s
		at += s + t.Jobs[j].Run[0]
		t.ends[p] = at
		t.rates[p+1] = t.rates[p]
		if at > t.Jobs[j].Due {
			t.rates[p+1] += t.latePrice * t.Jobs[j].Weight
		}
		last = j
	}
	t.tails.lay(t.Jobs, t.row[:t.jobs], t.ends)
	t.price = t.setupPrice*setups + t.latePrice*t.tails.cost(0, 0)
}

func (t *tardiness) heats() (first, last int64) {
	mean := t.price * one / int64(t.jobs)
	return mean / 2, mean / 40
}

// step improves first near what the kick has changed; the whole row is looked at only where that was not in vain.
func (t *tardiness) step(rng *rand.Rand, heat int64) bool {
	copy(t.saved, t.row)
	bar := t.price + slip(rng, heat)
	clear(t.look)
	t.kick(rng)
	t.lay()
	t.improve(rng)
	if t.price <= bar {
		for p := range t.look {
			t.look[p] = true
		}
		t.improve(rng)
		return true
	}
	t.undo()
	return false
}

// lookNear has the places looked at where moves may begin that touch those from a to before d.
func (t *tardiness) lookNear(a, d int) {
	const reach = 4
	for p := max(0, a-reach); p < min(d+1, t.jobs); p++ {
		t.look[p] = true
	}
}

func (t *tardiness) undo() {
	copy(t.row, t.saved)
	t.lay()
}

// kick makes one to three short moves wherever.
func (t *tardiness) kick(rng *rand.Rand) {
	for range 1 + rng.IntN(3) {
		const longest = 3
		a := rng.IntN(t.jobs)
		c := a + 2 + rng.IntN(20)
		if c > t.jobs {
			continue
		}
		b := a + 1 + rng.IntN(min(longest, c-a-1))
		if rng.IntN(2) == 0 {
			b = c - (b - a)
		}
		rotate(t.row, a, b, c)
		t.lookNear(a, c)
	}
}

// improve makes moves that pay until none begins at any place to be looked at. Places are taken in turn from a random one
// on.
func (t *tardiness) improve(rng *rand.Rand) {
	at := rng.IntN(t.jobs)
	for idle := 0; idle < t.jobs; idle++ {
		if t.look[at] {
			t.look[at] = false
			if best := t.bestFrom(at); best.delta < 0 {
				t.filter.note(best.setups)
				t.carryOut(&best)
				t.lookNear(best.a, best.d)
				t.lay()
				idle = -1
			}
		}
		if at++; at == t.jobs {
			at = 0
		}
	}
}
