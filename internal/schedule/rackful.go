package schedule

import (
	"math/rand/v2"
	"slices"
)

// rackful is the ground of one machine with a rack where sets brought and set-ups count. A step turns a stretch around, or
// moves one, or lets two jobs change places. Many orders bring equally many sets; of these the height prefers those that
// leave sets away for few long times and many short ones rather than for middling ones, because the next step may close
// the short ones (the idea: Mecler, Subramanian and Vidal 2021).
type rackful struct {
	*model
	counter    *rackCount
	bare       bool // no set-ups but the rack's
	setupPrice int64
	loadPrice  int64

	row    []int
	price  int64
	height int64 // the price, and a little for the times that sets are away
	trial  []int
	rows   Order
}

func newRackful(m *model) *rackful {
	g := &rackful{model: m, counter: newRackCount(&m.Racks[0], m.jobs), row: make([]int, m.jobs), trial: make([]int, m.jobs), rows: make(Order, 1)}
	g.setupPrice = m.Weights.Setup + m.Weights.Makespan
	g.loadPrice = g.setupPrice * m.Racks[0].Load
	g.bare = m.Closing == nil
	for _, row := range m.Setup[0] {
		g.bare = g.bare && !slices.ContainsFunc(row, func(s Time) bool { return s != 0 })
	}
	return g
}

func (g *rackful) total() int64 { return g.price }

func (g *rackful) order() Order {
	g.rows[0] = g.row
	return g.rows
}

func (g *rackful) set(order Order) {
	copy(g.row, order[0])
	g.counter.count(g.row, 0, int(Forever), true)
	g.price, g.height = g.prices(g.setups(g.row))
}

// prices are the price and the height of what has been counted last.
func (g *rackful) prices(setups int64) (price, height int64) {
	const little = 20 // gaps of length one that weigh as much as a load
	price = setups + g.loadPrice*int64(max(0, g.counter.now.loads-g.counter.places))
	return price, price + g.loadPrice*g.counter.now.open/one/little
}

// setups is the price of all set-ups of a row but the rack's.
func (g *rackful) setups(row []int) int64 {
	if g.bare {
		return 0
	}
	last, sum := g.jobs, Time(0)
	for _, j := range row {
		sum += g.Setup[0][last][j]
		last = j
	}
	price := g.setupPrice * sum
	if g.Closing != nil {
		price += g.Weights.Setup * g.Closing[0][last]
	}
	return price
}

// heats are in loads, or in mean set-ups where those weigh more.
func (g *rackful) heats() (first, last int64) {
	unit := max(g.loadPrice, g.price/int64(2*g.jobs))
	return unit * one * 2, unit * one / 7
}

func (g *rackful) step(rng *rand.Rand, heat int64) bool {
	bar := g.height + slip(rng, heat)
	copy(g.trial, g.row)
	a, b := g.stretch(rng)
	g.change(rng, a, b)
	setups := g.setups(g.trial)
	most := int(Forever)
	if g.loadPrice > 0 {
		most = g.counter.places + int(max(-1, (bar-setups)/g.loadPrice))
	}
	if setups > bar || !g.counter.count(g.trial, a, most, false) {
		return false
	}
	price, height := g.prices(setups)
	if height > bar {
		return false
	}
	g.counter.count(g.trial, a, int(Forever), true)
	g.row, g.trial, g.price, g.height = g.trial, g.row, price, height
	return true
}

// stretch draws the first and the last place of a stretch, every other time a short one.
func (g *rackful) stretch(rng *rand.Rand) (a, b int) {
	const short = 12
	a = rng.IntN(g.jobs)
	if rng.IntN(2) == 0 {
		return a, min(g.jobs-1, a+1+rng.IntN(short))
	}
	b = rng.IntN(g.jobs)
	return min(a, b), max(a, b)
}

// change draws what to do with the places from a to b of the trial.
func (g *rackful) change(rng *rand.Rand, a, b int) {
	row := g.trial
	switch rng.IntN(3) {
	case 0:
		slices.Reverse(row[a : b+1])
	case 1:
		row[a], row[b] = row[b], row[a]
	default:
		if b == a {
			return
		}
		n := 1 + rng.IntN(min(3, b-a))
		if rng.IntN(2) == 0 {
			rotate(row, a, a+n, b+1)
		} else {
			rotate(row, a, b+1-n, b+1)
		}
	}
}
