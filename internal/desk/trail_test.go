package desk_test

import (
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

// Who may change a thing may take a change of it back, and so may who made it; nobody else.
func TestUndoByRole(t *testing.T) {
	d := kept(t)
	one := thing(t, d, ledger.OfJob, "2101")
	j := one.Value.(job.Job)
	j.Title = "changed"
	put, err := d.Put(as(t, access.Lead), one.Tag, j)
	ok(t, err)
	_, err = d.Undo(access.With(t.Context(), access.Who{Name: "eve", Role: access.Operator}), put.Version)
	refused(t, err, fault.Denied, access.CodeDenied)
	_, err = d.Undo(t.Context(), put.Version)
	refused(t, err, fault.Denied, access.CodeDenied)
	_, err = d.Undo(as(t, access.Lead), put.Version)
	ok(t, err)
	if got := thing(t, d, ledger.OfJob, "2101").Value.(job.Job).Title; got != one.Value.(job.Job).Title {
		t.Errorf("the title is %q", got)
	}
	_, err = d.Undo(as(t, access.Lead), put.Version)
	refused(t, err, fault.Conflict, ledger.CodeStale)

	stands := thing(t, d, ledger.OfPresent, "alder")
	state := stands.Value.(shop.State)
	state.Job = ""
	put, err = d.Put(as(t, access.Operator), stands.Tag, state)
	ok(t, err)
	_, err = d.Undo(as(t, access.Operator), put.Version)
	ok(t, err)
	_, err = d.Undo(signed(t), 1)
	refused(t, err, fault.No, ledger.CodeNotUndoable)
	_, err = d.Undo(signed(t), 999)
	refused(t, err, fault.Missing, ledger.CodeNoChange)
	list, err := d.History(as(t, access.Viewer), ledger.Page{})
	ok(t, err)
	if len(list) != 5 || list[2].Who != "ada" || list[2].What != "took back change 2" {
		t.Errorf("the trail says %+v", list)
	}
}

// What is changed of people is for those who rule over them.
func TestTheTrailOfPeople(t *testing.T) {
	d := kept(t)
	ok(t, d.Books.AddAccount(signed(t), access.Account{Name: "zoe", Role: access.Lead}))
	for role, want := range map[access.Role]int{access.Viewer: 1, access.Lead: 1, access.Admin: 2} {
		list, err := d.History(as(t, role), ledger.Page{})
		ok(t, err)
		if len(list) != want {
			t.Errorf("%s sees %d changes, want %d", role, len(list), want)
		}
	}
	_, err := d.Undo(signed(t), 2)
	refused(t, err, fault.No, ledger.CodeNotUndoable)
}
