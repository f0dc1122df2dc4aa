package schedule

import (
	"context"
	"slices"
	"sync"
)

// Options say how long to search and with what luck.
type Options struct {
	Seed       uint64
	Wishes     []Wish         // with the order given
	Iterations int            // orders to decode over all searches; 0 = until the context is done
	Used       func() int     // thousandths of the time that have passed, asked when there is no iteration count; may be nil
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

// unlimited is the iterations of a search that nothing else would end.
const unlimited = 100_000

// Search looks for a better order than the given one until the iterations are used up, the time is, or the context is
// done, and returns the plan, by [Refine], of the best it has. That is never worse than the given order with
// its wishes, nor than [Construct]'s; given may be nil.
// With an iteration count and a context that stays open, the result depends on the problem, the given order and the
// options only. Knowing how long it has — by Iterations or Used — it does better than when the context ends it unawares.
func Search(ctx context.Context, p *Problem, given Order, o Options) Result {
	if o.Iterations <= 0 && o.Used == nil && ctx.Done() == nil {
		o.Iterations = unlimited
	}
	t := newTeam(p, given, o)
	for round := 0; t.model.jobs > 1 && ctx.Err() == nil && t.left(round); round++ {
		t.round(ctx, round)
	}
	return t.result(p)
}

// team is the searches, which meet after every round and go on from the cheapest orders.
type team struct {
	*model
	options Options
	given   Order
	seekers []seeker
	pool    []priced // the orders that the searches go on from in turn, the cheapest first
	rounds  int

	lock sync.Mutex // holds what follows, for Progress
	told []told
}

type told struct {
	iterations int
	best       Cost
}

func newTeam(p *Problem, given Order, o Options) *team {
	t := &team{model: newModel(p), options: o, given: given}
	t.seekers = newSeekers(t.model, given, o.Seed)
	for _, s := range t.seekers {
		_, cost := s.best()
		t.told = append(t.told, told{best: cost})
	}
	t.gather(len(t.seekers))
	return t
}

// round lets all searches run side by side for a round, each from an order of the pool but in the first, and waits.
func (t *team) round(ctx context.Context, round int) {
	families := len(t.seekers)
	if round > 0 {
		families = len(t.pool)
		for i, s := range t.seekers {
			s.from(t.pool[i%families].order, t.pool[i%families].cost)
		}
	}
	t.rounds++
	var wait sync.WaitGroup
	for i, s := range t.seekers {
		spent := t.spent(i, round)
		search := s.climb
		if t.endKnown() && s.meetings().settling(round) {
			search = s.settle
		}
		wait.Go(func() { search(ctx, spent, func() { t.tell(i, s) }) })
	}
	wait.Wait()
	t.gather(families)
}

// gather makes the pool anew. Searches whose numbers leave the same rest have gone on from the same order; the cheapest order of each
// such family joins, as long as no other costs the same.
func (t *team) gather(families int) {
	best := make([]priced, families)
	for i, s := range t.seekers {
		order, cost := s.best()
		if f := &best[i%families]; f.order == nil || cost.Less(f.cost) {
			*f = priced{order, cost}
		}
	}
	slices.SortStableFunc(best, func(a, b priced) int { return a.cost.Compare(b.cost) })
	best = slices.CompactFunc(best, func(a, b priced) bool { return a.cost == b.cost })
	most := t.seekers[0].meetings().keep
	if !t.endKnown() {
		most = 1
	}
	t.pool = t.pool[:0]
	for _, p := range best[:min(most, len(best))] {
		t.pool = append(t.pool, priced{p.order.Clone(), p.cost}) // a search would write what others read
	}
}

// left says whether there is another round: until the end where that is known, otherwise always.
func (t *team) left(round int) bool {
	return round < t.seekers[0].meetings().rounds() || !t.endKnown()
}

func (t *team) endKnown() bool { return t.options.Iterations > 0 || t.options.Used != nil }

// spent tells how much is spent of a climb, or of the time to settle, and when the round is over.
func (t *team) spent(i, round int) spent {
	if !t.endKnown() {
		// 8192 steps, then twice as many each time: a good order early, a better one for whoever waits.
		return until(part(8192*(1<<round-1), 8192*(1<<(round+1)-1)), one)
	}
	over, from, to := t.seekers[i].meetings().round(round)
	end := int64(over-from) * one / int64(to-from)
	if t.options.Iterations > 0 {
		// The first searches take the iterations that do not divide.
		n := len(t.seekers)
		all := (t.options.Iterations + n - 1 - i) / n
		return until(part(all*from/24, all*to/24), end)
	}
	share := part(1000*from/24, 1000*to/24)
	now := share(t.options.Used())
	return until(func(iterations int) int64 {
		if iterations%16 == 0 { // the clock may be dear
			now = share(t.options.Used())
		}
		return now
	}, end)
}

// until ends a round when so much is spent.
func until(share func(at int) int64, end int64) spent {
	return func(iterations int) (int64, bool) {
		now := share(iterations)
		return now, now >= end
	}
}

// part measures the way from one number to another.
func part(from, to int) func(at int) int64 {
	return func(at int) int64 {
		if at >= to {
			return one
		}
		return int64(max(0, at-from)) * one / int64(to-from)
	}
}

// tell reports how far all searches are.
func (t *team) tell(i int, s seeker) {
	if t.options.Progress == nil {
		return
	}
	t.lock.Lock()
	defer t.lock.Unlock()
	t.told[i].iterations = s.steps()
	if _, best := s.best(); best.Less(t.told[i].best) {
		t.told[i].best = best
	}
	now := Progress{Restarts: t.rounds - 1, Best: t.told[0].best}
	for _, x := range t.told {
		now.Iterations += x.iterations
		if x.best.Less(now.Best) {
			now.Best = x.best
		}
	}
	t.options.Progress(now)
}

// result is the best plan of the orders that were found.
func (t *team) result(p *Problem) Result {
	r := Result{Restarts: max(0, t.rounds-1)}
	for _, s := range t.seekers {
		r.Iterations += s.steps()
		if _, cost := s.best(); cost.Less(t.pool[0].cost) {
			panic("schedule: the first of the pool is not the best")
		}
	}
	r.Order, r.Plan = t.refined(p)
	if t.options.Progress != nil {
		t.options.Progress(Progress{Iterations: r.Iterations, Restarts: r.Restarts, Best: r.Plan.Cost})
	}
	return r
}
