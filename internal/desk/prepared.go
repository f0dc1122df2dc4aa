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
	mu    sync.Mutex
	shop  *shop.Shop // the very one, which does not change
	from  time.Time
	plan  *plan.Prepared
	given func() (*plan.Plan, error) // what the order given comes to
}

// planning is the shop ready to be planned. When the shop goes by the clock, its plan starts at the full minute. Who waits
// while it is made ready then looks at the shop anew, so that of many who ask after a change one does the work.
func (d *Desk) planning(ctx context.Context) (*plan.Prepared, *ledger.Snapshot, error) {
	p := &d.prepared
	p.mu.Lock()
	defer p.mu.Unlock()
	now, err := d.Snapshot(ctx)
	if err != nil {
		return nil, nil, err
	}
	if len(now.Faults) > 0 {
		return nil, nil, now.Faults
	}
	from := d.now(now.Shop).Truncate(time.Minute)
	if p.plan == nil || p.shop != now.Shop || !p.from.Equal(from) {
		prepare := plan.Prepare
		if p.plan != nil {
			prepare = p.plan.Again
		}
		ready, err := prepare(now.Shop, from)
		if err != nil {
			return nil, nil, err
		}
		p.plan, p.shop, p.from = ready, now.Shop, from
		p.given = sync.OnceValues(func() (*plan.Plan, error) { return ready.Evaluate(ready.Given()) })
	}
	return p.plan, now, nil
}

// givenPlan is what the order given comes to. Everybody looks at it, so it is worked out once.
func (d *Desk) givenPlan(ready *plan.Prepared) (*plan.Plan, error) {
	d.prepared.mu.Lock()
	given := d.prepared.given
	if d.prepared.plan != ready { // the shop was changed since
		given = func() (*plan.Plan, error) { return ready.Evaluate(ready.Given()) }
	}
	d.prepared.mu.Unlock()
	return given()
}
