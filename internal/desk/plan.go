package desk

import (
	"context"
	"time"

	"foldwright/internal/plan"
)

// Again is how a plan in force is made anew.
type Again struct {
	Follow plan.Order    // the order of the plan in force, as far as it still goes; nil = the shop's own
	Keep   time.Duration // what is made ready so long from now on is near: it moves only for [plan.Stable.Price]; 0 = nothing is near
}

// Plan answers which folder runs which job after which, how the stations get their tools and what the bench builds, and
// puts the order given beside it. The search ends with the iterations asked for, or with the context; the answer is then
// the best so far.
func (d *Desk) Plan(ctx context.Context, o plan.Options) (*plan.Plan, error) {
	return d.PlanAgain(ctx, Again{}, o)
}

// PlanAgain answers the same with a plan in force as the order given.
func (d *Desk) PlanAgain(ctx context.Context, a Again, o plan.Options) (*plan.Plan, error) {
	s, err := d.Shop(ctx)
	if err != nil {
		return nil, err
	}
	now := d.now(s)
	p, err := plan.Prepare(s, now)
	if err != nil {
		return nil, err
	}
	if a.Follow != nil {
		p = p.Follow(a.Follow)
	}
	if a.Keep > 0 {
		o.Stable.Until = now.Add(a.Keep)
	}
	return p.Search(ctx, nil, o)
}
