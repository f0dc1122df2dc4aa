package store

import (
	"context"
	"fmt"
	"slices"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// undoMost is how many things a change may have touched to be taken back: what touched more put a whole shop in the place
// of another, and a backup of before is the better way back.
const undoMost = 500

// Undoing lists the edits that take a change back in the shop as it is now: what it added goes, what it removed is there
// again, what it changed has its old value, what it moved stands where it stood. Nothing of it may have been changed again.
// It may be called while an update decides what to do.
func (s *Store) Undoing(ctx context.Context, now *ledger.Snapshot, revision int64) ([]ledger.Edit, error) {
	list, err := listed(ctx, s.db, readDone, `SELECT t.thing, t.kind, t.name, t.deed, t.stood,
			COALESCE((SELECT o.body FROM change_thing o WHERE o.thing = t.thing AND o.revision < t.revision ORDER BY o.revision DESC LIMIT 1), ''),
			COALESCE((SELECT o.format FROM change_thing o WHERE o.thing = t.thing AND o.revision < t.revision ORDER BY o.revision DESC LIMIT 1), 0),
			(SELECT MAX(n.revision) FROM change_thing n WHERE n.thing = t.thing)
		FROM change_thing t WHERE t.revision = $1 AND t.kind NOT IN ('account', 'token', 'invitation') ORDER BY t.place LIMIT $2`, revision, undoMost+1)
	if err != nil {
		return nil, err
	}
	if err := s.undoable(ctx, revision, list); err != nil {
		return nil, err
	}
	u := undoing{store: s, now: now, revision: revision, in: map[string]bool{}}
	for _, d := range list {
		u.in[d.tag.ID] = d.stood != ""
	}
	for _, d := range list {
		if err := u.add(ctx, d); err != nil {
			return nil, err
		}
	}
	return slices.Concat(u.removals, u.inTurn(), u.placed()), nil
}

// done is what a change did to a thing, with the body it had before.
type done struct {
	tag    ledger.Tag // as the change left it
	deed   ledger.Deed
	stood  string
	before row
	last   int64 // the revision that touched the thing last
}

func readDone(from scanner) (d done, err error) {
	err = from.Scan(&d.tag.ID, &d.tag.Kind, &d.tag.Name, &d.deed, &d.stood, &d.before.body, &d.before.format, &d.last)
	d.before.kind, d.before.name = d.tag.Kind, d.tag.Name
	return d, err
}

// undoable says no to what cannot be taken back at all.
func (s *Store) undoable(ctx context.Context, revision int64, list []done) error {
	var changes int
	if err := s.db.QueryRowContext(ctx, `SELECT COUNT(*) FROM change WHERE revision = $1`, revision).Scan(&changes); err != nil {
		return err
	}
	first := slices.ContainsFunc(list, func(d done) bool { return d.tag.Kind == ledger.OfShop && d.deed == ledger.Added })
	switch {
	case changes == 0:
		return fault.Fault{Kind: fault.Missing, Code: ledger.CodeNoChange, Field: "revision", Wrong: fmt.Sprintf("there is no change %d", revision), Right: "the number of a change in the audit trail"}
	case len(list) == 0:
		return notUndoable(revision, "changed no single things of the shop", "change people by hand; after a restore, restore another backup")
	case first:
		return notUndoable(revision, "began the shop", "replace the shop by another")
	case len(list) > undoMost:
		return notUndoable(revision, fmt.Sprintf("touched more than %d things", undoMost), "restore a backup of before it")
	}
	return nil
}

func notUndoable(revision int64, why, right string) fault.Fault {
	return fault.Fault{Kind: fault.No, Code: ledger.CodeNotUndoable, Field: "revision", Wrong: fmt.Sprintf("change %d cannot be taken back: it %s", revision, why), Right: right}
}

// undoing collects the edits that take a change back.
type undoing struct {
	store    *Store
	now      *ledger.Snapshot
	revision int64
	in       map[string]bool // the things that the change took from their places

	removals []ledger.Edit
	puts     []renaming
	places   []ledger.Edit // returns and moves
}

// renaming is an edit that gives a thing its old value, and maybe its old name.
type renaming struct {
	edit ledger.Edit
	name string
}

func (u *undoing) add(ctx context.Context, d done) error {
	if d.last > u.revision {
		return u.changedSince(ctx, d)
	}
	if d.deed != ledger.Removed {
		i := slices.IndexFunc(u.now.Tags(d.tag.Kind), func(t ledger.Tag) bool { return t.ID == d.tag.ID })
		if i < 0 {
			return stale{d.tag}
		}
		d.tag = u.now.Tags(d.tag.Kind)[i]
	}
	var err error
	if d.deed == ledger.Removed || d.deed == ledger.Altered {
		if d.before.value, err = u.store.valueOf(d.before); err != nil {
			return err
		}
	}
	switch d.deed {
	case ledger.Added:
		u.removals = append(u.removals, ledger.Remove(d.tag))
	case ledger.Removed:
		ahead, _, err := u.ahead(ctx, d)
		u.places = append(u.places, ledger.Return(d.tag, d.before.value, ahead))
		return err
	case ledger.Altered:
		name, err := ledger.NameOf(d.tag.Kind, d.before.value)
		if err != nil {
			return err
		}
		u.puts = append(u.puts, renaming{ledger.Put(d.tag, d.before.value), name})
		if d.stood != "" {
			return u.moveBack(ctx, d)
		}
	case ledger.Moved:
		return u.moveBack(ctx, d)
	}
	return nil
}

func (u *undoing) changedSince(ctx context.Context, d done) error {
	d.tag.Version = u.revision
	since, err := u.store.changesSince(ctx, u.store.db, d.tag)
	if err != nil {
		return err
	}
	return fault.Fault{
		Kind: fault.Conflict, Code: ledger.CodeStale, Field: called(d.tag.Kind, d.tag.Name),
		Wrong: fmt.Sprintf("after change %d it was %s", u.revision, inWords(since)), Right: "take that back first, or change it by hand",
	}
}

func (u *undoing) moveBack(ctx context.Context, d done) error {
	ahead, known, err := u.ahead(ctx, d)
	if err == nil && !known {
		f := notUndoable(u.revision, "moved a thing, and where that stood is not told any more", "move it by hand")
		f.Field = called(d.tag.Kind, d.tag.Name)
		return f
	}
	u.places = append(u.places, ledger.Move(d.tag, ahead))
	return err
}

// ahead finds what a thing stood ahead of; the zero tag is the end. When that was removed since, what it stood ahead of
// itself takes its place, and so on.
func (u *undoing) ahead(ctx context.Context, d done) (tag ledger.Tag, known bool, err error) {
	id := d.stood
	for hops := 0; ; hops++ {
		switch {
		case id == atEnd:
			return ledger.Tag{}, true, nil
		case id == "" || hops > 0 && u.in[id] || hops > undoMost: // what the change moved itself stands elsewhere now
			return ledger.Tag{}, false, nil
		case u.in[id]:
			return ledger.Tag{Kind: d.tag.Kind, ID: id}, true, nil
		}
		for _, t := range u.now.Tags(d.tag.Kind) {
			if t.ID == id {
				return t, true, nil
			}
		}
		if id, err = u.stoodLast(ctx, id); err != nil {
			return ledger.Tag{}, false, err
		}
	}
}

// stoodLast is where a thing stood that is gone.
func (u *undoing) stoodLast(ctx context.Context, id string) (stood string, err error) {
	err = u.store.db.QueryRowContext(ctx, `SELECT COALESCE((SELECT stood FROM change_thing WHERE thing = $1 AND deed = $2 ORDER BY revision DESC LIMIT 1), '')`,
		id, string(ledger.Removed)).Scan(&stood)
	return stood, err
}

// inTurn orders changes of names so that each name is free when it is given back.
func (u *undoing) inTurn() []ledger.Edit {
	var edits []ledger.Edit
	waits := func(r renaming) bool {
		return slices.ContainsFunc(u.puts, func(o renaming) bool {
			return o.edit.Tag.ID != r.edit.Tag.ID && o.edit.Tag.Kind == r.edit.Tag.Kind && o.edit.Tag.Name == r.name
		})
	}
	for len(u.puts) > 0 {
		i := max(0, slices.IndexFunc(u.puts, func(r renaming) bool { return !waits(r) }))
		edits = append(edits, u.puts[i].edit)
		u.puts = slices.Delete(u.puts, i, i+1)
	}
	return edits
}

// placed orders returns and moves so that what a thing stood ahead of is in its place first: then the old order comes
// about whatever the change did to it.
func (u *undoing) placed() []ledger.Edit {
	var edits []ledger.Edit
	waits := func(e ledger.Edit) bool {
		return slices.ContainsFunc(u.places, func(o ledger.Edit) bool { return o.Tag.ID == e.Ahead.ID })
	}
	for len(u.places) > 0 {
		i := max(0, slices.IndexFunc(u.places, func(e ledger.Edit) bool { return !waits(e) }))
		edits = append(edits, u.places[i])
		u.places = slices.Delete(u.places, i, i+1)
	}
	return edits
}
