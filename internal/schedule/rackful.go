package schedule

import (
	"math/rand/v2"
	"slices"
)

// rackful is the ground of one machine with a rack where sets brought and set-ups count. A step turns a stretch around, or
// moves one, or lets two jobs change places.
type rackful struct {
	*model
	gaps       *gaps
	setupPrice int64
	loadPrice  int64

	row   []int
	price int64
	saved []int
	was   int64
	rows  Order
}

func newRackful(m *model) *rackful {
	g := &rackful{model: m, gaps: newGaps(m.Racks[0].Needs, m.Racks[0].Places), row: make([]int, m.jobs), saved: make([]int, m.jobs), rows: make(Order, 1)}
	g.setupPrice = m.Weights.Setup + m.Weights.Makespan
	g.loadPrice = g.setupPrice * m.Racks[0].Load
	return g
}

func (g *rackful) total() int64 { return g.price }

func (g *rackful) order() Order {
	g.rows[0] = g.row
	return g.rows
}

func (g *rackful) set(order Order) {
	copy(g.row, order[0])
	g.price = g.reckon()
}

// reckon is the price of the row: its set-ups, and what is brought once the rack is full.
func (g *rackful) reckon() int64 {
	g.gaps.reset()
	last, loads, setups := g.jobs, -g.Racks[0].Places, Time(0)
	for _, j := range g.row {
		loads += len(g.gaps.bring(g.Racks[0].Needs[j]))
		setups += g.Setup[0][last][j]
		last = j
	}
	price := g.setupPrice*setups + g.loadPrice*int64(max(0, loads))
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
	copy(g.saved, g.row)
	g.was = g.price
	a, b := rng.IntN(g.jobs), rng.IntN(g.jobs)
	if a > b {
		a, b = b, a
	}
	switch rng.IntN(3) {
	case 0:
		slices.Reverse(g.row[a : b+1])
	case 1:
		g.row[a], g.row[b] = g.row[b], g.row[a]
	default:
		g.shift(rng, a, b+1)
	}
	g.price = g.reckon()
	if g.price-g.was > slip(rng, heat) {
		g.undo()
		return false
	}
	return true
}

// shift brings up to three jobs from one end of the places from a to before c to the other.
func (g *rackful) shift(rng *rand.Rand, a, c int) {
	if c-a < 2 {
		return
	}
	n := 1 + rng.IntN(min(3, c-a-1))
	if rng.IntN(2) == 0 {
		rotate(g.row, a, a+n, c)
	} else {
		rotate(g.row, a, c-n, c)
	}
}

func (g *rackful) undo() {
	copy(g.row, g.saved)
	g.price = g.was
}
