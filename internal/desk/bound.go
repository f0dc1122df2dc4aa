package desk

import (
	"context"
	"time"
)

// Bound answers how much make-ready no order of the jobs can undercut, and how much a draft needs; the bound is 0 when the draft
// leaves out a job that could run.
func (d *Desk) Bound(ctx context.Context, draft string) (bound, makeready time.Duration, err error) {
	of, p, err := d.worked(ctx, draft)
	if err != nil {
		return 0, 0, err
	}
	return p.Bound(of.Plan), of.Plan.Figures.Makeready, nil
}
