package desk

import (
	"context"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

// Shelves is a store into which a whole shop can be put at once.
type Shelves interface {
	// Fill puts the first shop in; it never takes the place of one.
	Fill(ctx context.Context, by ledger.By, whole *shop.Shop) (*ledger.Snapshot, error)
	// Replace makes it the whole shop; things that stay as they are keep their versions.
	Replace(ctx context.Context, by ledger.By, whole *shop.Shop) (*ledger.Snapshot, error)
}

// Import puts a whole shop into the store: the first one, or, when it may replace, in the place of the one that is there.
func (d *Desk) Import(ctx context.Context, whole *shop.Shop, replace bool) (*ledger.Snapshot, error) {
	who := access.From(ctx)
	if err := who.May(access.Rule); err != nil {
		return nil, err
	}
	shelves, ok := d.Books.(Shelves)
	if !ok {
		return nil, fault.Fault{Kind: fault.Conflict, Code: CodeNoVault, Wrong: "the shop is kept in no database", Right: "import it into one"}
	}
	by := ledger.By{Who: who.String(), What: "imported a shop file"}
	if replace {
		return shelves.Replace(ctx, by, whole)
	}
	return shelves.Fill(ctx, by, whole)
}
