package schedule

import (
	"math"
	"math/rand/v2"
	"slices"
)

// rackful is the ground of one machine with a rack where sets brought and set-ups count. A step turns a stretch around, or
// moves one, or lets two jobs change places. Many orders bring equally many sets; of these the height prefers those that
// leave sets away for few long times and many short ones rather than for middling ones, because the next step may close
// the short ones (the idea: Mecler, Subramanian and Vidal 2021).
type rackful struct {
	*model
	counter    rackCounter
	bare       bool // no set-ups but the rack's
	setupPrice int64
	loadPrice  int64

	row    []int
	price  int64
	grain  int64 // heights to a unit of the price
	height int64 // the price, and a little for the times that sets are away
	trial  []int
	rows   Order

	base, low summit // where the lap began, and the lowest since
}

// summit is a row and its height.
type summit struct {
	row    []int
	height int64
}

func (s *summit) keep(row []int, height int64) {
	s.row, s.height = append(s.row[:0], row...), height
}

func newRackful(m *model) *rackful {
	g := &rackful{model: m, counter: newRackCounter(&m.Racks[0], m.jobs), row: make([]int, m.jobs), trial: make([]int, m.jobs), rows: make(Order, 1)}
	g.setupPrice = m.Weights.Setup + m.Weights.Makespan
	g.loadPrice = g.setupPrice * m.Racks[0].Load
	dearest := Time(0)
	for _, row := range slices.Concat(m.Setup[0], m.Closing) {
		dearest = max(dearest, slices.Max(row))
	}
	g.bare = dearest == 0
	g.grain = 1
	if max(g.loadPrice, dearest*g.setupPrice) < 1<<16 { // dearer ones are fine enough, and larger numbers might not fit
		g.grain = one
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
	g.counter.keep(g.row, 0)
	g.price, g.height = g.prices(g.setups(g.row))
	g.base.keep(g.row, g.height)
	g.low.keep(g.row, g.height)
}

// prices are the price and the height of what has been counted last.
func (g *rackful) prices(setups int64) (price, height int64) {
	sum := g.counter.sum()
	price = setups + g.loadPrice*int64(max(0, sum.loads-g.Racks[0].Places))
	return price, price*g.grain + g.loadPrice*g.grain*sum.open/loadWeight
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
	if g.bare {
		return g.loadPrice * one * 3 / 5, g.loadPrice * one / 8
	}
	unit := max(g.loadPrice, g.price/int64(2*g.jobs))
	return unit * one * 2, unit * one / 7
}

// laps: where loads are all that counts, a round cools again and again, and so gently that much of the row stays. A few laps
// find what a single one of as many steps does not, and many find less than a new beginning.
func (g *rackful) laps() int {
	if g.bare {
		return 3 * chain
	}
	return 1
}

// chain is the laps from one new beginning to the next.
const chain = 6

// lap goes back to the lowest row of the lap before, or to where that began when it has led to nothing as low.
func (g *rackful) lap(rng *rand.Rand, n int) {
	from := &g.base
	if g.low.height <= g.base.height {
		from = &g.low
	}
	g.rows[0] = append(g.rows[0][:0:0], from.row...)
	if n%chain == 0 {
		rng.Shuffle(g.jobs, func(i, j int) { g.rows[0][i], g.rows[0][j] = g.rows[0][j], g.rows[0][i] })
	}
	g.set(g.rows)
	g.low.height = math.MaxInt64
}

func (g *rackful) step(rng *rand.Rand, heat int64) bool {
	bar := g.height + slip(rng, heat*g.grain)
	copy(g.trial, g.row)
	a, b := g.stretch(rng)
	g.change(rng, a, b)
	setups := g.setups(g.trial)
	room := bar - setups*g.grain // for loads
	if room < 0 || !g.counter.try(g.trial, a, b, g.most(room)) {
		return false
	}
	price, height := g.prices(setups)
	if height > bar {
		return false
	}
	g.counter.keep(g.trial, a)
	g.row, g.trial, g.price, g.height = g.trial, g.row, price, height
	if height < g.low.height {
		g.low.keep(g.row, height)
	}
	return true
}

// most is what the rack may weigh, and maybe a little more.
func (g *rackful) most(room int64) int64 {
	if g.loadPrice == 0 {
		return Forever
	}
	load := g.loadPrice * g.grain
	return (int64(g.Racks[0].Places)+room/load)*loadWeight + room%load*loadWeight/load + 1
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
