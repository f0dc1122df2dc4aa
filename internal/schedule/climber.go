package schedule

import (
	"context"
	"math/rand/v2"
	"slices"
)

// climber is one search by annealing: a changed order that costs more stays with a chance that falls with what it costs
// more, and over a cycle of steps the climber cools until it goes uphill no longer. The next cycle is twice as long and
// begins at the best order so far, warm again. So there is a good order early and a better one for whoever waits, and
// nobody needs to say beforehand for how long.
type climber struct {
	*decoder
	draft
	arcs   *arcs
	rng    *rand.Rand
	near   [][]int // of each job: the jobs it follows cheaply
	floors []int   // of each machine: places that are fixed

	now, leastCost       Cost
	least                Order
	iterations, restarts int
	limit                int     // of iterations, -1 = none
	heat                 int64   // times one
	rises                []int64 // scratch
}

const (
	firstCycle = 8192 // steps, when there is no limit to fit a single cycle to
	coolings   = 64   // of a cycle; each leaves 93.06 % of the heat, all of them 1 %
	hottest    = 1 << 36
)

func newClimber(m *model, a *arcs, rng *rand.Rand, start Order) *climber {
	c := &climber{decoder: newDecoder(m), arcs: a, rng: rng, near: nearest(m, a)}
	for i := range m.Machines {
		c.floors = append(c.floors, len(m.Machines[i].Fixed))
	}
	c.draft.set(start, m.jobs)
	c.now = c.decode(c.rows, nil)
	c.least, c.leastCost = start.Clone(), c.now
	return c
}

// climb runs until the iterations are used up (-1 = never) or the context is done, and tells now and then.
func (c *climber) climb(ctx context.Context, iterations int, tell func()) {
	c.limit = iterations
	length := firstCycle
	if iterations >= 0 {
		length = max(1, iterations/3) // and twice that
	}
	for c.jobs > 1 && c.cycle(ctx, c.fit(length), tell) && c.iterations != c.limit {
		c.restarts++
		c.draft.set(c.least, c.jobs)
		c.now = c.leastCost
		length *= 2
	}
	tell()
}

// fit lengthens a cycle to the limit when too little would be left for the next.
func (c *climber) fit(length int) int {
	if left := c.limit - c.iterations; c.limit >= 0 && left < 2*length {
		return left
	}
	return length
}

// cycle warms up and cools down once, and reports whether there is time for more.
func (c *climber) cycle(ctx context.Context, length int, tell func()) bool {
	end := c.iterations + length
	if length == 0 || !c.warm(ctx, length, tell) {
		return false
	}
	begin := c.iterations
	for n := range coolings {
		for c.iterations < begin+(end-begin)*(n+1)/coolings {
			if !c.more(ctx, tell) {
				return false
			}
			c.step()
		}
		c.heat = c.heat * 9306 / 10_000
	}
	return true
}

// more counts an iteration if there is one left.
func (c *climber) more(ctx context.Context, tell func()) bool {
	if c.iterations == c.limit || c.iterations%64 == 0 && ctx.Err() != nil {
		return false
	}
	if c.iterations%1024 == 0 {
		tell()
	}
	c.iterations++
	return true
}

// warm sets the heat to a small rise, the lower quartile of a sample of changes that cost more. It takes at most a tenth
// of the cycle.
func (c *climber) warm(ctx context.Context, length int, tell func()) bool {
	const enough = 100
	c.rises = c.rises[:0]
	for range length / 10 {
		if len(c.rises) == enough {
			break
		}
		if !c.more(ctx, tell) {
			return false
		}
		if cost, ok := c.change(); ok {
			if cost.Unplaced == c.now.Unplaced && cost.Total > c.now.Total {
				c.rises = append(c.rises, cost.Total-c.now.Total)
			}
			c.undo()
		}
	}
	c.heat = 0
	if n := len(c.rises); n > 0 {
		slices.Sort(c.rises)
		c.heat = min(c.rises[n/4], hottest) * one
	}
	return true
}

// change draws a move and carries it out; false when it came to nothing.
func (c *climber) change() (Cost, bool) {
	c.begin()
	if !c.anyMove().try(c) {
		return Cost{}, false
	}
	return c.decode(c.rows, nil), true
}

// step tries one change and lets it stay or not.
func (c *climber) step() {
	cost, ok := c.change()
	if !ok {
		return
	}
	bar := c.now
	bar.Total += c.slip()
	if bar.Less(cost) {
		c.undo()
		return
	}
	c.now = cost
	if cost.Less(c.leastCost) {
		c.leastCost = cost
		c.least = copyOrder(c.least, c.rows)
	}
}

// slip is how much more a change may cost this time: exponentially distributed with the heat as its mean, in whole
// numbers (one × ln 2 = 710).
func (c *climber) slip() int64 {
	const width = 20
	bits := width*one - log2(1+c.rng.Int64N(1<<width))
	return c.heat * bits / one * 710 / one / one
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
