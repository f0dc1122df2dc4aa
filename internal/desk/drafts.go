package desk

import (
	"context"
	"fmt"
	"slices"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
)

// GivenDraft is the id of the draft that is the order given: the day as the shop has taken it over.
const GivenDraft = "given"

// Draft is an order with what it comes to in the shop as it is now.
type Draft struct {
	ledger.Draft
	Plan     *plan.Plan
	Revision int64    // of the shop that it was worked out with
	Lost     []string // jobs and folders of the draft that the shop has no more, or has done
	Adapted  bool     // it could not stay as it was kept: what has started or was pinned since stands where it must now
	shop     *shop.Shop
}

// Draft works out a draft by its id.
func (d *Desk) Draft(ctx context.Context, id string) (*Draft, error) {
	draft, _, err := d.worked(ctx, id)
	return draft, err
}

// worked works out a draft, and gives what it was worked out with, for questions about its plan.
func (d *Desk) worked(ctx context.Context, id string) (*Draft, *plan.Prepared, error) {
	draft, p, err := d.ordered(ctx, id)
	if err != nil {
		return nil, nil, err
	}
	if id == GivenDraft {
		draft.Plan, err = d.givenPlan(p)
	} else {
		draft.Plan, err = p.Evaluate(draft.Order)
	}
	return draft, p, err
}

// ordered reads a draft with as much of its order as the shop still has, and what is needed to work it out.
func (d *Desk) ordered(ctx context.Context, id string) (*Draft, *plan.Prepared, error) {
	p, now, err := d.planning(ctx)
	if err != nil {
		return nil, nil, err
	}
	kept := ledger.Draft{ID: GivenDraft, How: GivenDraft, Order: p.Given(), At: d.Now()}
	if id != GivenDraft {
		if kept, err = d.Books.Draft(ctx, id); err != nil {
			return nil, nil, err
		}
	}
	draft := &Draft{Draft: kept, Revision: now.Revision, shop: now.Shop}
	draft.Order, draft.Lost = present(kept.Order, now.Shop)
	if p.Goes(draft.Order) != nil {
		draft.Order, draft.Adapted = p.Follow(draft.Order).Given(), true
	}
	return draft, p, nil
}

// Drafts lists the newest drafts, without working them out.
func (d *Desk) Drafts(ctx context.Context, most int) ([]ledger.Draft, error) {
	if err := access.From(ctx).May(access.See); err != nil {
		return nil, err
	}
	return d.Books.Drafts(ctx, most)
}

// Arrange makes a new draft of another, with one job moved to a place of a folder, from 1. The other stays as it is, so
// that going back to it undoes the move.
func (d *Desk) Arrange(ctx context.Context, from, job, folder string, place int) (*Draft, error) {
	if err := access.From(ctx).May(access.Arrange); err != nil {
		return nil, err
	}
	made, p, err := d.ordered(ctx, from)
	if err != nil {
		return nil, err
	}
	order, err := made.Order.Move(job, folder, place)
	if err != nil {
		return nil, err
	}
	if made.Plan, err = p.Evaluate(order); err != nil {
		return nil, err
	}
	made.Draft = d.newDraft(ctx, from, "move", fmt.Sprintf("%s to place %d on %s", job, place, folder), order)
	return made, d.Books.AddDraft(ctx, made.Draft)
}

func (d *Desk) newDraft(ctx context.Context, parent, how, note string, order plan.Order) ledger.Draft {
	if parent == GivenDraft {
		parent = ""
	}
	return ledger.Draft{ID: d.newID(), Parent: parent, Who: access.From(ctx).String(), At: d.Now().Truncate(time.Millisecond), How: how, Note: note, Order: order}
}

// present is an order without what the shop has no more, in the lanes of its folders as they are now.
func present(o plan.Order, s *shop.Shop) (order plan.Order, lost []string) {
	waiting := map[string]bool{}
	for _, name := range s.JobNames() {
		waiting[name] = true
	}
	for _, name := range s.FolderNames() {
		lane := plan.Lane{Folder: name}
		if i := slices.IndexFunc(o, func(l plan.Lane) bool { return l.Folder == name }); i >= 0 {
			for _, job := range o[i].Jobs {
				if waiting[job] {
					lane.Jobs = append(lane.Jobs, job)
				} else {
					lost = append(lost, job)
				}
			}
			lane.Choices = o[i].Choices
		}
		order = append(order, lane)
	}
	for _, l := range o {
		if _, ok := s.Folder(l.Folder); !ok {
			lost = append(lost, l.Folder)
		}
	}
	return order, lost
}
