package desk_test

import (
	"context"

	"foldwright/internal/desk"
	"foldwright/internal/ledger"
	"foldwright/internal/store"
)

// shelf is a store as far as the shop goes.
type shelf struct {
	desk.Books
	s *store.Store
}

func (b shelf) Snapshot(ctx context.Context) (*ledger.Snapshot, error) { return b.s.Snapshot(ctx) }
func (b shelf) Update(ctx context.Context, by ledger.By, f func(*ledger.Snapshot) ([]ledger.Edit, error)) (*ledger.Snapshot, error) {
	return b.s.Update(ctx, by, f)
}
