package desk

import (
	"context"

	"foldwright/internal/plan"
)

// Rescues answers what would bring a late job of a draft in on time, all else of it being as it is; nothing for a job that
// is not late.
func (d *Desk) Rescues(ctx context.Context, draft, job string) ([]plan.Rescue, error) {
	of, p, err := d.worked(ctx, draft)
	if err != nil {
		return nil, err
	}
	if _, err := jobNamed(of.shop, job); err != nil {
		return nil, err
	}
	return p.Rescues(of.Plan, job), nil
}
