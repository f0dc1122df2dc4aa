package desk

import (
	"context"
	"fmt"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/tooling"
)

// MoveSet says that a set is now in another place: a slot, a station, the bench. A set that stood in that station goes to the
// slot that this one leaves, or onto the bench when it leaves none.
func (d *Desk) MoveSet(ctx context.Context, label string, to tooling.Place) (Thing, error) {
	return d.workOn(ctx, access.Record, label, fmt.Sprintf("%s to %s", label, placeText(to)), func(h *hands, i int) error {
		h.move(i, to)
		return nil
	})
}

// BuildSet says that a set was made into what a job wants, at the station that [Desk.Build] finds. It stays where it is.
func (d *Desk) BuildSet(ctx context.Context, label, job, folder, station string) (Thing, error) {
	if err := access.From(ctx).May(access.Record); err != nil {
		return Thing{}, err
	}
	seen, err := d.Snapshot(ctx) // before the build is worked out, so that a set changed meanwhile is noticed
	if err != nil {
		return Thing{}, err
	}
	b, err := d.Build(ctx, label, job, folder, station)
	if err != nil {
		return Thing{}, err
	}
	tag, _ := seen.Tag(ledger.OfSet, label)
	return d.workOn(ctx, access.Record, label, fmt.Sprintf("%s built for %s (%s %s)", label, b.Job, b.Folder, b.Station), func(h *hands, i int) error {
		if now := h.now.Tags(ledger.OfSet)[i]; now.ID != tag.ID || now.Version != tag.Version {
			return fault.Fault{Kind: fault.Conflict, Code: ledger.CodeStale, Field: "set " + label, Wrong: "somebody changed it at the same moment", Right: "look at it as it is now"}
		}
		return h.refit(i, b.Want)
	})
}

// StripSet says that all tools were taken off a set and lie loose now.
func (d *Desk) StripSet(ctx context.Context, label string) (Thing, error) {
	return d.workOn(ctx, access.Record, label, label+" stripped", func(h *hands, i int) error { return h.refit(i, nil) })
}

// RetireSet takes a set out of the shop. Its tools lie loose from then on; one that stands in a folder stays.
func (d *Desk) RetireSet(ctx context.Context, label string) error {
	_, err := d.update(ctx, access.Arrange, label+" retired", func(now *ledger.Snapshot) ([]ledger.Edit, error) {
		h := newHands(now)
		i, err := h.set(label)
		if err != nil {
			return nil, err
		}
		if at := h.sets[i].Place; at.Folder != "" {
			return nil, fault.Fault{Kind: fault.No, Code: CodeSetMounted, Field: "set " + label, Wrong: fmt.Sprintf("it stands in %s of %s", at.Station, at.Folder), Right: "put another set there first"}
		}
		if err := h.refit(i, nil); err != nil {
			return nil, err
		}
		return append(h.edits(), ledger.Remove(now.Tags(ledger.OfSet)[i])), nil
	})
	return err
}

// workOn lets hands work on a set and keeps what came of it.
func (d *Desk) workOn(ctx context.Context, need access.Deed, label, what string, work func(h *hands, i int) error) (Thing, error) {
	now, err := d.update(ctx, need, what, func(now *ledger.Snapshot) ([]ledger.Edit, error) {
		h := newHands(now)
		i, err := h.set(label)
		if err != nil {
			return nil, err
		}
		if err := work(h, i); err != nil {
			return nil, err
		}
		return h.edits(), nil
	})
	return thingIn(now, ledger.OfSet, label), err
}

// placeText is a place as the audit trail tells it.
func placeText(p tooling.Place) string {
	switch {
	case p.Slot != "":
		return "slot " + p.Slot
	case p.Folder != "":
		return fmt.Sprintf("%s of %s", p.Station, p.Folder)
	}
	return "the bench"
}
