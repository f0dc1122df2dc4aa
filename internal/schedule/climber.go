package schedule

import (
	"context"
	"math/rand/v2"
)

// climber is one search: an iterated local search that accepts late (Burke and Bykov 2017, from memory). A changed order
// stays when it is no worse than the present one, or no worse than the present one was some steps ago; when nothing
// better has come for long, the climber starts afresh from its best order, shaken, or from a dispatched one. It needs no
// temperature and no knowledge of how much time there is.
type climber struct {
	*decoder
	draft
	arcs   *arcs
	rng    *rand.Rand
	near   [][]int // of each job: the jobs it follows cheaply
	floors []int   // of each machine: places that are fixed
	length int     // how many steps ago counts; the searches differ in it

	past                 []Cost
	now, leastCost       Cost
	least                Order
	iterations, restarts int
	fruitless            int
	patience             int
}

// memories are the lengths of the searches: short ones are quick, long ones go deep.
var memories = [searches]int{20, 200, 1, 1000}

func newClimber(m *model, a *arcs, rng *rand.Rand, start Order) *climber {
	c := &climber{decoder: newDecoder(m), arcs: a, rng: rng, near: nearest(m, a)}
	for i := range m.Machines {
		c.floors = append(c.floors, len(m.Machines[i].Fixed))
	}
	c.draft.set(start, m.jobs)
	c.now = c.decode(c.rows, nil)
	c.least, c.leastCost = start.Clone(), c.now
	c.patience = 500 + 40*m.jobs
	return c
}

// climb runs until the iterations are used up (-1 = never) or the context is done, and tells now and then.
func (c *climber) climb(ctx context.Context, iterations int, tell func()) {
	c.forget()
	for c.iterations != iterations {
		if c.iterations%64 == 0 && ctx.Err() != nil {
			break
		}
		if c.iterations%1024 == 0 {
			tell()
		}
		c.iterations++
		if c.jobs < 2 {
			continue
		}
		c.step()
	}
	tell()
}

// step tries one change.
func (c *climber) step() {
	if c.fruitless++; c.fruitless > c.patience+4*c.length {
		c.restart()
		return
	}
	c.begin()
	if !moves[c.pickMove()].try(c) {
		return
	}
	cost := c.decode(c.rows, nil)
	slot := &c.past[c.iterations%len(c.past)]
	if c.now.Less(cost) && slot.Less(cost) {
		c.undo()
	} else {
		c.accept(cost)
	}
	if c.now.Less(*slot) {
		*slot = c.now
	}
}

func (c *climber) accept(cost Cost) {
	c.now = cost
	if cost.Less(c.leastCost) {
		c.leastCost = cost
		c.least = copyOrder(c.least, c.rows)
		c.fruitless = 0
	}
}

func (c *climber) pickMove() int {
	n := c.rng.IntN(allShares)
	for i := range moves {
		if n -= moves[i].share; n < 0 {
			return i
		}
	}
	panic("schedule: shares of moves do not sum up")
}

// forget lets the past be the present.
func (c *climber) forget() {
	c.past = c.past[:0]
	for range c.length {
		c.past = append(c.past, c.now)
	}
	c.fruitless = 0
}

// restart goes back to the best order and shakes it; every eighth time it dispatches a new one by a rule with noise.
func (c *climber) restart() {
	c.restarts++
	if c.restarts%8 == 0 {
		rule := rules[c.rng.IntN(len(rules))]
		c.draft.set(newDispatcher(c.model, c.arcs, rule, c.rng).run(), c.jobs)
	} else {
		c.draft.set(c.least, c.jobs)
		for range 2 + c.rng.IntN(5) {
			c.begin()
			moves[c.pickMove()].try(c)
		}
	}
	c.accept(c.decode(c.rows, nil))
	c.forget()
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
