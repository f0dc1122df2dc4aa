package schedule

import (
	"context"
	"math/rand/v2"
	"slices"
	"sync"
)

// Options say how long to search and with what luck.
type Options struct {
	Seed       uint64
	Iterations int            // orders to decode over all searches; 0 = until the context is done
	Progress   func(Progress) // called now and then, never twice at once; may be nil
}

// Progress is how far a search has come.
type Progress struct {
	Iterations int
	Restarts   int
	Best       Cost
}

// Result is the best that was found.
type Result struct {
	Order      Order
	Plan       *Plan
	Iterations int
	Restarts   int
}

// searches run side by side, each with luck of its own. Their number is fixed so that the cores change the wait and not
// the answer.
const searches = 4

// unlimited is the iterations of a search that nothing else would end.
const unlimited = 100_000

// Search looks for a better order than the given one until the iterations are used up or the context is done, and
// returns the best it has. It is never worse than the given order, nor than [Construct]'s; given may be nil. With an
// iteration count and a context that stays open, the result depends on the problem, the given order and the options
// only.
func Search(ctx context.Context, p *Problem, given Order, o Options) Result {
	if o.Iterations <= 0 && ctx.Done() == nil {
		o.Iterations = unlimited
	}
	b := &board{progress: o.Progress, counts: make([]int, searches), restarts: make([]int, searches)}
	starts := starts(p, given)
	m := newModel(p)
	arcs := newArcs(m)
	climbers := make([]*climber, searches)
	var wait sync.WaitGroup
	for i := range climbers {
		c := newClimber(m, arcs, rand.New(rand.NewPCG(o.Seed, uint64(i))), starts[i%len(starts)])
		climbers[i] = c
		wait.Go(func() { c.climb(ctx, share(o.Iterations, i), func() { b.tell(i, c) }) })
	}
	wait.Wait()
	return b.result(p, climbers)
}

// share divides the iterations among the searches; -1 = no limit.
func share(iterations, i int) int {
	if iterations <= 0 {
		return -1
	}
	return (iterations + searches - 1 - i) / searches
}

// starts is where searches begin, the best first.
func starts(p *Problem, given Order) []Order {
	orders := []Order{Construct(p)}
	if given != nil {
		orders = append(orders, given)
		d := newDecoder(newModel(p))
		if d.decode(given, nil).Less(d.decode(orders[0], nil)) {
			slices.Reverse(orders)
		}
	}
	return orders
}

// board gathers what the searches report. Only the progress passes through it while they run; the result is merged by
// number when all are done.
type board struct {
	lock     sync.Mutex
	progress func(Progress)
	counts   []int
	restarts []int
	best     Cost
	any      bool
}

func (b *board) tell(i int, c *climber) {
	if b.progress == nil {
		return
	}
	b.lock.Lock()
	defer b.lock.Unlock()
	b.counts[i], b.restarts[i] = c.iterations, c.restarts
	if !b.any || c.leastCost.Less(b.best) {
		b.best, b.any = c.leastCost, true
	}
	now := Progress{Best: b.best}
	for n := range b.counts {
		now.Iterations += b.counts[n]
		now.Restarts += b.restarts[n]
	}
	b.progress(now)
}

// result is the best order of all searches, by number where they draw.
func (b *board) result(p *Problem, climbers []*climber) Result {
	r := Result{}
	best := climbers[0]
	for _, c := range climbers {
		r.Iterations += c.iterations
		r.Restarts += c.restarts
		if c.leastCost.Less(best.leastCost) {
			best = c
		}
	}
	r.Order = best.least.Clone()
	r.Plan = Decode(p, r.Order)
	return r
}
