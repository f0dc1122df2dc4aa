package desk

import (
	"context"

	"foldwright/internal/plan"
)

// Plan answers which folder runs which job after which, how the stations get their tools and what the bench builds, and
// puts the order given beside it. The search ends with the iterations asked for, or with the context; the answer is then
// the best so far.
func (d *Desk) Plan(ctx context.Context, o plan.Options) (*plan.Plan, error) {
	s, err := d.Shop(ctx)
	if err != nil {
		return nil, err
	}
	return plan.Make(ctx, s, d.now(s), o)
}
