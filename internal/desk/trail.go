package desk

import (
	"context"
	"fmt"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
)

// History reads the audit trail, newest change first. Changes of who can come in are for those to see who rule over that.
func (d *Desk) History(ctx context.Context, p ledger.Page) ([]ledger.Change, error) {
	if err := access.From(ctx).May(access.See); err != nil {
		return nil, err
	}
	p.Shop = p.Shop || access.From(ctx).May(access.Rule) != nil
	return d.Books.History(ctx, p)
}

// Undo takes a change back, as a new change: what it added goes, what it removed comes back, what it changed is as it was. When
// one of its things was changed again since, that is a conflict and nothing happens. Who may change a thing may take a change of
// it back; and what somebody did themselves, such as a report from the floor, they may take back as well.
func (d *Desk) Undo(ctx context.Context, revision int64) (*ledger.Snapshot, error) {
	own, err := d.didIt(ctx, revision)
	if err != nil {
		return nil, err
	}
	return d.update(ctx, access.See, fmt.Sprintf("took back change %d", revision), func(now *ledger.Snapshot) ([]ledger.Edit, error) {
		edits, err := d.Books.Undoing(ctx, now, revision)
		if err != nil {
			return nil, err
		}
		for _, e := range edits {
			if err := access.From(ctx).May(editing[e.Tag.Kind]); err != nil && !own {
				return nil, err
			}
		}
		return edits, nil
	})
}

// didIt tells whether a change was made by who asks.
func (d *Desk) didIt(ctx context.Context, revision int64) (bool, error) {
	who := access.From(ctx)
	if !who.Role.Allows(access.Record) {
		return false, nil
	}
	list, err := d.Books.History(ctx, ledger.Page{Before: revision + 1, Limit: 1})
	if err != nil || len(list) == 0 {
		return false, err
	}
	return list[0].Revision == revision && list[0].Who == who.String(), nil
}
