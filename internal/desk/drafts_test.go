package desk_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
)

func draft(t testing.TB, d *desk.Desk, id string) *desk.Draft {
	t.Helper()
	got, err := d.Draft(as(t, access.Viewer), id)
	ok(t, err)
	return got
}

// The order given is a draft like any other: it is what a plan is compared with.
func TestTheOrderGivenIsADraft(t *testing.T) {
	d := kept(t)
	given := draft(t, d, desk.GivenDraft)
	if diff := cmp.Diff(given.Plan.Given.Figures, given.Plan.Figures); diff != "" {
		t.Errorf("the order given comes to something else than itself:\n%s", diff)
	}
	s := shopNow(t, d)
	p, err := plan.Make(t.Context(), s, s.Now, plan.Options{Iterations: 1})
	ok(t, err)
	if diff := cmp.Diff(p.Given.Figures, given.Plan.Figures); diff != "" {
		t.Errorf("plan (-) and desk (+) disagree on the order given:\n%s", diff)
	}
	if len(given.Lost) > 0 {
		t.Errorf("the shop has no more: %v", given.Lost)
	}
}

// movable finds a job, bound to no other, that may go to the end of another folder, and gives that folder and the place.
func movable(t testing.TB, d *desk.Desk, of *desk.Draft) (name, folder string, place int) {
	t.Helper()
	s := shopNow(t, d)
	awaited := map[string]bool{}
	for _, j := range s.Jobs {
		for _, name := range j.After {
			awaited[name] = true
		}
	}
	for _, lane := range of.Order {
		for _, name := range lane.Jobs {
			if j, _ := s.Job(name); len(j.After) > 0 || awaited[name] || j.Pin != (job.Pin{}) {
				continue
			}
			for _, to := range of.Order {
				if to.Folder == lane.Folder {
					continue
				}
				if answers, err := d.Settings(signed(t), name, to.Folder); err == nil && answers[0].Miss == nil {
					return name, to.Folder, len(to.Jobs) + 1
				}
			}
		}
	}
	t.Fatal("no job of the demo fits two folders")
	return "", "", 0
}

func TestArrangeMakesANewDraft(t *testing.T) {
	d := kept(t)
	before := draft(t, d, desk.GivenDraft)
	name, folder, place := movable(t, d, before)
	one, err := d.Arrange(as(t, access.Lead), desk.GivenDraft, name, folder, place)
	ok(t, err)
	if got, at := one.Order.Find(name); got != folder || at != place || one.Parent != "" || one.Who != "ada" || one.How != "move" {
		t.Errorf("%s stands on %s at %d in %+v", name, got, at, one.Draft)
	}
	if !strings.Contains(one.Note, name) || !strings.Contains(one.Note, folder) {
		t.Errorf("the note says %q", one.Note)
	}
	two, err := d.Arrange(as(t, access.Lead), one.ID, name, folder, place-1)
	ok(t, err)
	if two.Parent != one.ID {
		t.Errorf("the second move comes from %q, not %q", two.Parent, one.ID)
	}
	for _, want := range []*desk.Draft{one, two} { // what was answered is what is kept
		got := draft(t, d, want.ID)
		if diff := cmp.Diff(want.Order, got.Order); diff != "" || got.Plan.Figures != want.Plan.Figures {
			t.Errorf("draft %s reads back otherwise: %s", want.ID, diff)
		}
	}
	if diff := cmp.Diff(before.Order, draft(t, d, desk.GivenDraft).Order); diff != "" {
		t.Errorf("a move changed the order given:\n%s", diff)
	}
	list, err := d.Drafts(as(t, access.Viewer), 10)
	ok(t, err)
	if len(list) != 2 || list[0].ID != two.ID || list[1].ID != one.ID {
		t.Errorf("%d drafts are listed: %+v", len(list), list)
	}
}

func TestArrangeRefuses(t *testing.T) {
	d := kept(t)
	name, folder, place := movable(t, d, draft(t, d, desk.GivenDraft))
	lead := as(t, access.Lead)
	for what, c := range map[string]struct {
		err  error
		kind fault.Kind
		code fault.Code
	}{
		"an operator": {second(d.Arrange(as(t, access.Operator), desk.GivenDraft, name, folder, place)), fault.Denied, access.CodeDenied},
		"no draft":    {second(d.Arrange(lead, "none", name, folder, place)), fault.Missing, ledger.CodeNoDraft},
		"no folder":   {second(d.Arrange(lead, desk.GivenDraft, name, "none", 1)), fault.Missing, plan.CodeOrderName},
		"no place":    {second(d.Arrange(lead, desk.GivenDraft, name, folder, place+1)), fault.Input, plan.CodeOrderPlace},
	} {
		list := fault.All(c.err)
		if len(list) == 0 || list[0].Kind != c.kind || list[0].Code != c.code {
			t.Errorf("%s: got %v", what, c.err)
		}
	}
	if _, err := d.Arrange(lead, desk.GivenDraft, "none", folder, 1); len(fault.All(err)) == 0 {
		t.Errorf("a job that is not there was arranged: %v", err)
	}
	list, err := d.Drafts(lead, 10)
	ok(t, err)
	if len(list) > 0 {
		t.Errorf("what was refused left drafts: %+v", list)
	}
}

// A draft outlives what it speaks of.
func TestADraftOfWhatIsGone(t *testing.T) {
	d := kept(t)
	lead := as(t, access.Lead)
	name, folder, place := movable(t, d, draft(t, d, desk.GivenDraft))
	one, err := d.Arrange(lead, desk.GivenDraft, name, folder, place)
	ok(t, err)
	ok(t, d.Remove(lead, thing(t, d, ledger.OfJob, name).Tag))
	got := draft(t, d, one.ID)
	if _, at := got.Order.Find(name); !slices.Contains(got.Lost, name) || at != 0 {
		t.Errorf("%s is gone; the draft has lost %v", name, got.Lost)
	}
	fresh := thing(t, d, ledger.OfJob, shopNow(t, d).Jobs[0].Name).Value.(job.Job)
	fresh.Name, fresh.After, fresh.Pin = "fresh", nil, job.Pin{}
	_, err = d.Add(lead, ledger.OfJob, fresh)
	ok(t, err)
	unplaced := draft(t, d, one.ID).Plan.Unplaced
	if !slices.ContainsFunc(unplaced, func(u plan.Unplaced) bool { return u.Job == "fresh" }) {
		t.Errorf("a job that came later is none of %+v", unplaced)
	}
}

// Goal: what was taken over is the order given, in all its figures, and taking that back brings the old one back. Method: drafts
// of searches by several seeds, and one by hand, one after the other.
func TestAcceptedIsGiven(t *testing.T) {
	d := kept(t)
	lead := as(t, access.Lead)
	var ids []string
	for seed := range uint64(4) {
		ids = append(ids, searched(t, d, desk.SearchAsk{Iterations: 400, Options: plan.Options{Seed: seed}}))
	}
	name, folder, place := movable(t, d, draft(t, d, desk.GivenDraft))
	one, err := d.Arrange(lead, desk.GivenDraft, name, folder, place)
	ok(t, err)
	for _, id := range append(ids, one.ID) {
		was := draft(t, d, desk.GivenDraft)
		want := draft(t, d, id)
		got, err := d.Accept(lead, id, 0)
		ok(t, err)
		if diff := cmp.Diff(want.Plan.Figures, got.Plan.Figures); diff != "" {
			t.Errorf("draft %s (-) and the order given once it was taken over (+):\n%s", id, diff)
		}
		if diff := cmp.Diff(want.Order, got.Order); diff != "" {
			t.Errorf("the order of draft %s (-), and given (+):\n%s", id, diff)
		}
		if now := draft(t, d, id); now.Taken != got.Revision {
			t.Errorf("draft %s was taken over by change %d; it says %d", id, got.Revision, now.Taken)
		}
		back, err := d.Undo(lead, got.Revision)
		ok(t, err)
		if now := draft(t, d, desk.GivenDraft); now.Plan.Figures != was.Plan.Figures || now.Revision != back.Revision {
			t.Errorf("taken back, the order given comes to %+v, not %+v", now.Plan.Figures, was.Plan.Figures)
		}
		_, err = d.Undo(lead, back.Revision) // and over to the next from there
		ok(t, err)
	}
}

// A plan that was taken over lists no job before one that it waits for, so that the shop file reads in the order of work.
func TestAcceptedListsWhatComesFirstFirst(t *testing.T) {
	d := kept(t)
	_, err := d.Accept(as(t, access.Lead), searched(t, d, desk.SearchAsk{Iterations: 200}), 0)
	ok(t, err)
	seen := map[string]bool{}
	s := shopNow(t, d)
	unplaced := map[string]bool{}
	for _, u := range draft(t, d, desk.GivenDraft).Plan.Unplaced {
		unplaced[u.Job] = true
	}
	for _, j := range s.Jobs {
		for _, name := range j.After {
			if _, open := s.Job(name); open && !seen[name] && !unplaced[name] {
				t.Errorf("%s stands before %s, which it waits for", j.Name, name)
			}
		}
		seen[j.Name] = true
	}
}

func TestAcceptRefuses(t *testing.T) {
	d := kept(t)
	id := searched(t, d, desk.SearchAsk{Iterations: 50})
	_, err := d.Accept(as(t, access.Operator), id, 0)
	refused(t, err, fault.Denied, access.CodeDenied)
	_, err = d.Accept(as(t, access.Lead), "none", 0)
	refused(t, err, fault.Missing, ledger.CodeNoDraft)

	books := d.Books
	d.Books = meddled{books, func() {
		d.Books = books // once
		one := thing(t, d, ledger.OfJob, "2101")
		j := one.Value.(job.Job)
		j.Sheets++
		_, err := d.Put(as(t, access.Lead), one.Tag, j)
		ok(t, err)
	}}
	before := shopNow(t, d)
	_, err = d.Accept(as(t, access.Lead), id, 0)
	refused(t, err, fault.Conflict, ledger.CodeStale)
	if diff := cmp.Diff(givens(before), givens(shopNow(t, d))); diff != "" {
		t.Errorf("half of the plan was taken over:\n%s", diff)
	}
	_, err = d.Accept(as(t, access.Lead), id, 1) // looked at before others changed the shop
	refused(t, err, fault.Conflict, ledger.CodeStale)
	_, err = d.Accept(as(t, access.Lead), id, 0) // looked at anew
	ok(t, err)
}

// givens lists the jobs with their folders, in their order.
func givens(s *shop.Shop) (list []string) {
	for _, j := range s.Jobs {
		list = append(list, j.Name+" "+j.Given)
	}
	return list
}
