package desk

import (
	"context"

	"foldwright/internal/plan"
)

// chanceDays is how many days are simulated: the error of a share is then at most 3 in 100.
const chanceDays = 300

// Chances answers how likely a draft holds when minutes scatter as the shop says they do. The same draft of the same shop
// always gets the same answer.
func (d *Desk) Chances(ctx context.Context, draft string) (*plan.Chances, error) {
	of, p, err := d.worked(ctx, draft)
	if err != nil {
		return nil, err
	}
	return p.Chances(of.Plan, chanceDays, 1), nil
}
