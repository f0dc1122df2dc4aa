package plan

import (
	"context"
	"time"

	"foldwright/internal/schedule"
	"foldwright/internal/shop"
)

// Options say how long to search and from which seed. Without a number of iterations the search goes on until the context
// ends.
type Options struct {
	Seed       uint64
	Iterations int            // orders to look at; 0 = until the context is done
	Used       func() int     // thousandths of the allowed time that have passed, so that the search ends in time; may be nil
	Progress   func(Progress) // may be nil; called from one goroutine at a time
}

// Progress is how far the search is.
type Progress struct {
	Iterations int
	Best, From Figures // of the best plan so far and of the order given
}

// Make plans the shop's jobs from a moment on. The shop must have passed its own check; a fault from here is a fault of
// the program. The plan is never worse than the order given; a cancelled context returns the best so far.
func Make(ctx context.Context, s *shop.Shop, now time.Time, o Options) (*Plan, error) {
	t := translate(s, now.Truncate(time.Second))
	if err := t.problem.Check(); err != nil {
		return nil, err
	}
	given := t.givenOrder()
	before := schedule.Decode(t.problem, given)
	found := schedule.Search(ctx, t.problem, given, schedule.Options{
		Seed:       o.Seed,
		Iterations: o.Iterations,
		Used:       o.Used,
		Progress:   t.progress(o.Progress, before),
	})
	p := t.result(outcome{found.Order, found.Plan}, outcome{given, before})
	if found.Plan.Cost.Unplaced+before.Cost.Unplaced == 0 { // the bound counts on every job being run
		p.Bound = duration(schedule.Bound(t.problem))
	}
	p.Search = Search{Seed: o.Seed, Iterations: found.Iterations, Restarts: found.Restarts}
	return p, nil
}

// progress passes the search's own progress on, in the terms of a plan.
func (t *translation) progress(to func(Progress), before *schedule.Plan) func(schedule.Progress) {
	if to == nil {
		return nil
	}
	from := t.figures(before)
	return func(p schedule.Progress) {
		to(Progress{Iterations: p.Iterations, Best: parts(p.Best), From: from})
	}
}
