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
	Percentile int            // plan with minutes that suffice in so many of 100 cases; 0: with those in the middle
	Samples    int            // days to simulate for [Plan.Chances]; 0 = none
	Rescues    int            // tell what would rescue so many late jobs, the latest first
	Stable     Stable         // what of the order given is to be kept
}

// Progress is how far the search is.
type Progress struct {
	Iterations int
	Best, From Figures // of the best plan so far and of the order given; with [Options.Stable] the price is in the cost of the best
}

// Make plans the shop's jobs from a moment on: [Prepare] and [Prepared.Search] in one. The plan is never worse than the
// order given.
func Make(ctx context.Context, s *shop.Shop, now time.Time, o Options) (*Plan, error) {
	p, err := Prepare(s, now)
	if err != nil {
		return nil, err
	}
	return p.Search(ctx, nil, o)
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
