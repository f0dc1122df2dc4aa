package desk

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/plan"
)

// Accept makes a draft the order given: every job on its folder, in the order in which the make-readies start. From then on
// it is what plans are measured by. Jobs that the draft leaves out stay behind the others as they were.
func (d *Desk) Accept(ctx context.Context, id string) (*Draft, error) {
	if err := access.From(ctx).May(access.Arrange); err != nil {
		return nil, err
	}
	draft, err := d.Draft(ctx, id)
	if err != nil {
		return nil, err
	}
	order := byStart(draft.Plan)
	now, err := d.update(ctx, access.Arrange, fmt.Sprintf("took over a plan (%s)", draft.How), func(now *ledger.Snapshot) ([]ledger.Edit, error) {
		return taking(now, order), nil
	})
	if err != nil {
		return nil, err
	}
	if id != GivenDraft {
		if err := d.Books.TakeDraft(ctx, id, now.Revision); err != nil {
			return nil, err
		}
	}
	return d.Draft(ctx, GivenDraft)
}

// placed is a job with the folder that a plan gives it.
type placed struct {
	job, folder string
	start       time.Time
}

// byStart lists the jobs of a plan by the start of their make-readies; of equals the folder that comes first in the shop.
func byStart(p *plan.Plan) []placed {
	var all []placed
	for _, lane := range p.Folders {
		for _, t := range lane.Tasks {
			all = append(all, placed{t.Job, lane.Name, t.MakereadyStart})
		}
	}
	slices.SortStableFunc(all, func(a, b placed) int { return cmp.Compare(a.start.Unix(), b.start.Unix()) })
	return all
}

// taking lists the edits that make an order the one given.
func taking(now *ledger.Snapshot, order []placed) []ledger.Edit {
	tags := map[string]ledger.Tag{}
	jobs := map[string]job.Job{}
	for i, t := range now.Tags(ledger.OfJob) {
		tags[t.Name], jobs[t.Name] = t, now.Shop.Jobs[i]
	}
	order = slices.DeleteFunc(order, func(p placed) bool { return tags[p.job].ID == "" })
	in := map[string]bool{}
	var edits []ledger.Edit
	for _, p := range order {
		in[p.job] = true
		if j := jobs[p.job]; j.Given != p.folder {
			j.Given = p.folder
			edits = append(edits, ledger.Put(tags[p.job], j))
		}
	}
	wanted := make([]ledger.Tag, 0, len(tags))
	for _, p := range order {
		wanted = append(wanted, tags[p.job])
	}
	for _, t := range now.Tags(ledger.OfJob) {
		if !in[t.Name] {
			wanted = append(wanted, t)
		}
	}
	return append(edits, reordering(now.Tags(ledger.OfJob), wanted)...)
}

// reordering lists the moves that bring things from one order into another, from the last to the first, each just ahead of
// the one behind it. What stands right already is not moved.
func reordering(have, want []ledger.Tag) []ledger.Edit {
	list := slices.Clone(have)
	var edits []ledger.Edit
	behind := ledger.Tag{}
	for i := len(want) - 1; i >= 0; i-- {
		at := slices.IndexFunc(list, func(t ledger.Tag) bool { return t.ID == want[i].ID })
		if at != i {
			edits = append(edits, ledger.Move(want[i], behind))
			list = slices.Insert(slices.Delete(list, at, at+1), i, want[i])
		}
		behind = want[i]
	}
	return edits
}
