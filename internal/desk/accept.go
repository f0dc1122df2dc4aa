package desk

import (
	"context"
	"fmt"
	"slices"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
)

// Accept makes a draft the order given: every job on its folder, in the order in which the make-readies start. From then on
// it is what plans are measured by, and comes to what the draft came to. Jobs that the draft leaves out stay behind the others as they
// were. seen is the revision of the shop with which the draft was looked at, 0 when that does not matter; when the shop is another one by then,
// that is a conflict.
func (d *Desk) Accept(ctx context.Context, id string, seen int64) (*Draft, error) {
	if err := access.From(ctx).May(access.Arrange); err != nil {
		return nil, err
	}
	draft, err := d.Draft(ctx, id)
	if err != nil {
		return nil, err
	}
	if seen != 0 && seen != draft.Revision {
		return nil, stalePlan("the shop was changed since you looked at the plan")
	}
	now, err := d.update(ctx, access.Arrange, fmt.Sprintf("took over a plan (%s)", draft.How), func(now *ledger.Snapshot) ([]ledger.Edit, error) {
		if now.Shop != draft.shop {
			return nil, stalePlan("the shop was changed while the plan was worked out")
		}
		return taking(now, givenBy(draft.Plan, now.Shop)), nil
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

func stalePlan(wrong string) error {
	return fault.Fault{Kind: fault.Conflict, Code: ledger.CodeStale, Field: "plan", Wrong: wrong, Right: "look at the plan as it is now, and take that over"}
}

// placed is a job with the folder that a plan gives it, and what the plan has chosen for it there.
type placed struct {
	job, folder string
	choices     []job.Choice
}

// givenBy lists the jobs of a plan so that the list gives the plan again: each folder's jobs in their order, none before one
// that it waits for, and else by the start of their make-readies.
func givenBy(p *plan.Plan, s *shop.Shop) []placed {
	lanes := make([][]plan.Task, len(p.Folders))
	open := map[string]bool{} // in the plan, and not listed yet
	for i, lane := range p.Folders {
		lanes[i] = lane.Tasks
		for _, t := range lane.Tasks {
			open[t.Job] = true
		}
	}
	after := map[string][]string{}
	for _, j := range s.Jobs {
		after[j.Name] = j.After
	}
	waits := func(t plan.Task) bool {
		return slices.ContainsFunc(after[t.Job], func(name string) bool { return open[name] })
	}
	chosen := map[string][]job.Choice{}
	for _, lane := range p.Order() {
		for _, c := range lane.Choices {
			chosen[c.Job] = append(chosen[c.Job], c.Choice)
		}
	}
	var all []placed
	for len(open) > 0 {
		next := -1
		for i, lane := range lanes {
			if len(lane) > 0 && !waits(lane[0]) && (next < 0 || lane[0].MakereadyStart.Before(lanes[next][0].MakereadyStart)) {
				next = i
			}
		}
		if next < 0 {
			break // a plan in which jobs wait for one another in a circle: there is none
		}
		t := lanes[next][0]
		lanes[next] = lanes[next][1:]
		delete(open, t.Job)
		all = append(all, placed{t.Job, p.Folders[next].Name, chosen[t.Job]})
	}
	return all
}

// taking lists the edits that make an order the one given.
func taking(now *ledger.Snapshot, order []placed) []ledger.Edit {
	tags := map[string]ledger.Tag{}
	jobs := map[string]job.Job{}
	for i, t := range now.Tags(ledger.OfJob) {
		tags[t.Name], jobs[t.Name] = t, now.Shop.Jobs[i]
	}
	in := map[string]bool{}
	var edits []ledger.Edit
	wanted := make([]ledger.Tag, 0, len(tags))
	for _, p := range order {
		in[p.job] = true
		wanted = append(wanted, tags[p.job])
		if j := jobs[p.job]; j.Given != p.folder || !slices.Equal(j.Choices, p.choices) {
			j.Given, j.Choices = p.folder, p.choices
			edits = append(edits, ledger.Put(tags[p.job], j))
		}
	}
	for _, t := range now.Tags(ledger.OfJob) {
		if !in[t.Name] {
			wanted = append(wanted, t)
		}
	}
	return append(edits, ledger.Reordering(now.Tags(ledger.OfJob), wanted)...)
}
