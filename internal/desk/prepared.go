package desk

import (
	"context"
	"sync"
	"time"

	"foldwright/internal/ledger"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
)

// prepared keeps what was worked out for planning from the shop as it was last, since people ask about one shop many times.
type prepared struct {
	mu   sync.Mutex
	shop *shop.Shop // the very one, which does not change
	from time.Time
	plan *plan.Prepared
}

// planning is the shop ready to be planned. When the shop goes by the clock, its plan starts at the full minute.
func (d *Desk) planning(ctx context.Context) (*plan.Prepared, *ledger.Snapshot, error) {
	now, err := d.Snapshot(ctx)
	if err != nil {
		return nil, nil, err
	}
	if len(now.Faults) > 0 {
		return nil, nil, now.Faults
	}
	from := d.now(now.Shop).Truncate(time.Minute)
	d.prepared.mu.Lock()
	defer d.prepared.mu.Unlock()
	if d.prepared.plan == nil || d.prepared.shop != now.Shop || !d.prepared.from.Equal(from) {
		p, err := plan.Prepare(now.Shop, from)
		if err != nil {
			return nil, nil, err
		}
		d.prepared.plan, d.prepared.shop, d.prepared.from = p, now.Shop, from
	}
	return d.prepared.plan, now, nil
}
