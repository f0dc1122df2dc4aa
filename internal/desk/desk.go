// Package desk holds the use cases: one method a question, asked alike by the command line and by whatever door comes next.
//
// A desk asks its [Store] for the shop and the rooms below for the answer; it keeps nothing between two questions, so
// one desk may serve many askers at once. It neither parses nor draws: what it takes and returns are values of the trade.
// Names that do not exist come back as faults that tell the nearest known one.
package desk

import (
	"context"
	"time"

	"foldwright/internal/shop"
)

// Store is what the desk needs of the place that keeps the shop.
type Store interface {
	// Shop returns the whole shop, checked, or the list of its faults. The desk does not change what it gets.
	Shop(ctx context.Context) (*shop.Shop, error)
}

// Desk answers the questions of a folding department.
type Desk struct {
	Store Store
	Now   func() time.Time // asked only when the shop does not say itself what time it is
}

// Shop returns the shop itself.
func (d *Desk) Shop(ctx context.Context) (*shop.Shop, error) { return d.Store.Shop(ctx) }

// now is the moment the shop stands at.
func (d *Desk) now(s *shop.Shop) time.Time {
	if !s.Now.IsZero() {
		return s.Now
	}
	return d.Now().In(s.Zone)
}
