package schedule

import (
	"context"
	"math/rand/v2"
	"slices"
)

// climber is one search by annealing: a changed order that costs more stays with a chance that falls with what it costs
// more, and over a round of steps the climber cools until it hardly goes uphill any more. The next round begins at the
// best order that any climber has, warm again.
type climber struct {
	*decoder
	draft
	screen screen
	rng    *rand.Rand
	near   [][]int // of each job: the jobs it follows cheaply
	floors []int   // of each machine: places that are fixed

	now, leastCost Cost
	least          Order
	iterations     int
	warmth         int     // of a hundred rises, how many stay below the first heat
	heat           int64   // times one
	rises          []int64 // scratch
	spare          []int   // scratch
}

const (
	coolings = 64 // of a round; each leaves 93.06 % of the heat, all of them 1 %
	hottest  = 1 << 36
)

func newClimber(m *model, a *arcs, rng *rand.Rand, start Order, warmth int) *climber {
	c := &climber{decoder: newDecoder(m), screen: newScreen(m, a), rng: rng, near: nearest(m, a), warmth: warmth}
	for i := range m.Machines {
		c.floors = append(c.floors, len(m.Machines[i].Fixed))
	}
	c.draft.set(start, m.jobs)
	c.screen.lay(c.rows)
	c.now = c.decode(c.rows, nil)
	c.least, c.leastCost = start.Clone(), c.now
	return c
}

func (c *climber) best() (Order, Cost) { return c.least, c.leastCost }
func (c *climber) steps() int          { return c.iterations }

// from goes on at an order of a known cost.
func (c *climber) from(order Order, cost Cost) {
	c.draft.set(order, c.jobs)
	c.screen.lay(c.rows)
	c.now = cost
	if cost.Less(c.leastCost) {
		c.leastCost, c.least = cost, copyOrder(c.least, order)
	}
}

// climb warms up, and cools down as the round is spent, until it is or the context is done. It tells now and then.
func (c *climber) climb(ctx context.Context, spent func(iterations int) int64, tell func()) {
	defer tell()
	c.heat = -1
	cooled := int64(0)
	for ; ; c.iterations++ {
		part := spent(c.iterations)
		if part >= one || c.iterations%64 == 0 && ctx.Err() != nil {
			return
		}
		if c.iterations%1024 == 0 {
			tell()
		}
		if c.heat < 0 {
			c.warm(part)
			continue
		}
		for ; cooled < part*coolings/one; cooled++ {
			c.heat = c.heat * 9306 / 10_000
		}
		c.step()
	}
}

// warm samples a change and takes it back. When enough of them cost more, or a tenth of the round is spent, the heat is
// a small rise: that which a few in a hundred stay below.
func (c *climber) warm(part int64) {
	const enough = 100
	if c.change() {
		cost := c.decode(c.rows, nil)
		if cost.Unplaced == c.now.Unplaced && cost.Total > c.now.Total {
			c.rises = append(c.rises, cost.Total-c.now.Total)
		}
		c.undo()
	}
	if n := len(c.rises); n == enough || part > one/10 {
		c.heat = 0
		if n > 0 {
			slices.Sort(c.rises)
			c.heat = min(c.rises[n*c.warmth/100], hottest) * one
		}
		c.rises = c.rises[:0]
	}
}

// change draws moves until one changes the order and may be worth it; false when it came to nothing.
func (c *climber) change() bool {
	for range 30 {
		c.begin()
		if c.anyMove().try(c) {
			if c.screen.passes(c.rows, c.dirty, c.rng.Uint64()) {
				return true
			}
			c.undo()
		}
	}
	return false
}

// step tries one change and lets it stay or not.
func (c *climber) step() {
	if !c.change() {
		return
	}
	bar := c.now
	bar.Total += slip(c.rng, c.heat)
	leaps := c.rng.IntN(10_000) < c.warmth
	if leaps {
		bar.Unplaced++ // with one job more left out there may be a way to better orders
	}
	cost, ok := c.within(c.rows, c.screen.arcs, c.screen.setups+c.screen.more, bar)
	if !ok || leaps && cost.Unplaced == c.now.Unplaced && cost.Total > c.now.Total {
		c.undo()
		return
	}
	c.screen.keep(c.dirty)
	c.now = cost
	if cost.Less(c.leastCost) {
		c.leastCost = cost
		c.least = copyOrder(c.least, c.rows)
	}
}

func (c *climber) anyMove() *move {
	n := c.rng.IntN(allShares)
	for i := range moves {
		if n -= moves[i].share; n < 0 {
			return &moves[i]
		}
	}
	panic("schedule: shares of moves do not sum up")
}

// nearest lists for each job the few that it follows at the least set-up, and of equals those due closest to it.
func nearest(m *model, a *arcs) [][]int {
	const few = 10
	near := make([][]int, m.jobs)
	for to := range near {
		near[to] = leastFew(m.jobs, few, func(from int) (Time, Time, bool) { return nearness(m, a, from, to) })
	}
	return near
}

func nearness(m *model, a *arcs, from, to int) (setup, apart Time, ok bool) {
	setup = Forever
	for i := range m.Machines {
		if from != to && m.Jobs[from].Run[i] >= 0 && m.Jobs[to].Run[i] >= 0 {
			setup = min(setup, a.at(i, from, to))
		}
	}
	apart = m.Jobs[from].Due - m.Jobs[to].Due
	return setup, max(apart, -apart), setup < Forever
}

// leastFew is the few numbers below n with the least keys, the least first.
func leastFew(n, few int, key func(int) (Time, Time, bool)) []int {
	type entry struct {
		x    int
		a, b Time
	}
	var list []entry
	for x := range n {
		a, b, ok := key(x)
		if !ok {
			continue
		}
		list = append(list, entry{x, a, b})
		for i := len(list) - 1; i > 0 && (list[i].a < list[i-1].a || list[i].a == list[i-1].a && list[i].b < list[i-1].b); i-- {
			list[i], list[i-1] = list[i-1], list[i]
		}
		list = list[:min(len(list), few)]
	}
	out := make([]int, len(list))
	for i := range list {
		out[i] = list[i].x
	}
	return out
}
