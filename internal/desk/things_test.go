package desk_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

// refused ends the test unless an error is a fault of that code and kind.
func refused(t testing.TB, err error, kind fault.Kind, code fault.Code) {
	t.Helper()
	if list := fault.All(err); len(list) == 0 || list[0].Code != code || list[0].Kind != kind || list[0].Right == "" {
		t.Fatalf("got %v, want a fault %s of kind %d that says what would be right", err, code, kind)
	}
}

func ok(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func thing(t testing.TB, d *desk.Desk, k ledger.Kind, name string) desk.Thing {
	t.Helper()
	got, err := d.Thing(signed(t), k, name)
	ok(t, err)
	return got
}

// Goal: nobody changes what their role does not allow, whatever the deed. Method: every kind, role and deed, held to a table of
// its own.
func TestRolesAndThings(t *testing.T) {
	d := kept(t)
	least := map[ledger.Kind]access.Role{
		ledger.OfShop: access.Admin, ledger.OfCalendar: access.Admin, ledger.OfClass: access.Admin, ledger.OfFolder: access.Admin,
		ledger.OfPerson: access.Admin, ledger.OfStandards: access.Admin, ledger.OfWeights: access.Admin, ledger.OfHouse: access.Admin,
		ledger.OfTool: access.Lead, ledger.OfSet: access.Lead, ledger.OfStock: access.Lead, ledger.OfJob: access.Lead, ledger.OfDone: access.Lead,
		ledger.OfPresent: access.Operator,
	}
	denied := func(err error) bool {
		var f fault.Fault
		return errors.As(err, &f) && f.Kind == fault.Denied
	}
	for _, k := range ledger.Kinds() {
		for _, role := range append(access.Roles(), access.Nobody) {
			ctx := as(t, role)
			list, err := d.Things(ctx, k)
			if denied(err) != (role == access.Nobody) {
				t.Fatalf("%s looks at %s: %v", role, k, err)
			}
			if role == access.Nobody {
				list, err = d.Things(signed(t), k)
			}
			if err != nil || len(list) == 0 {
				t.Fatalf("the demo has no %s: %v", k, err)
			}
			one := list[0]
			stale := one.Tag
			stale.Version-- // so that nothing happens where it is allowed
			for deed, err := range map[string]error{
				"add":    second(d.Add(ctx, k, one.Value)),
				"put":    second(d.Put(ctx, stale, one.Value)),
				"move":   second(d.Move(ctx, stale, ledger.Tag{})),
				"remove": d.Remove(ctx, stale),
				"misfit": second(d.Add(ctx, k, 7)),
			} {
				if want := role == access.Nobody || role < least[k]; denied(err) != want || err == nil {
					t.Errorf("%s may not %s a %s: %v, and the answer is %v", role, deed, k, want, err)
				}
			}
		}
	}
}

func second[A any](_ A, err error) error { return err }

func TestThingsChange(t *testing.T) {
	d := kept(t)
	ctx := as(t, access.Lead)
	first := thing(t, d, ledger.OfJob, "2101")
	fresh := first.Value.(job.Job)
	fresh.Name, fresh.Pin, fresh.After = "9001", job.Pin{}, nil
	added, err := d.Add(ctx, ledger.OfJob, fresh)
	ok(t, err)
	if added.Name != "9001" || added.Value.(job.Job).Sheets != fresh.Sheets || added.Version == 0 {
		t.Errorf("added: %+v", added)
	}
	_, err = d.Add(ctx, ledger.OfJob, fresh)
	refused(t, err, fault.Conflict, ledger.CodeTwice)
	_, err = d.Add(ctx, ledger.OfSet, fresh)
	refused(t, err, fault.Input, ledger.CodeKind)

	fresh.Name, fresh.Sheets = "9002", 77
	put, err := d.Put(ctx, added.Tag, fresh)
	ok(t, err)
	if put.ID != added.ID || put.Name != "9002" || put.Value.(job.Job).Sheets != 77 {
		t.Errorf("renamed and changed: %+v", put)
	}
	_, err = d.Put(ctx, added.Tag, fresh)
	refused(t, err, fault.Conflict, ledger.CodeStale)
	fresh.Sheets = 0
	_, err = d.Put(ctx, put.Tag, fresh)
	refused(t, err, fault.Input, job.CodeQuantity)

	moved, err := d.Move(ctx, put.Tag, first.Tag)
	ok(t, err)
	names := shopNow(t, d).JobNames()
	if slices.Index(names, "9002") != slices.Index(names, "2101")-1 {
		t.Errorf("moved ahead of 2101: %v", names)
	}
	ok(t, d.Remove(ctx, moved.Tag))
	_, err = d.Thing(ctx, ledger.OfJob, "9002")
	refused(t, err, fault.Missing, shop.CodeUnknownName)
	refused(t, d.Remove(ctx, moved.Tag), fault.Conflict, ledger.CodeStale)
	refused(t, d.Remove(signed(t), thing(t, d, ledger.OfHouse, "").Tag), fault.No, ledger.CodeAlone)
}

// meddled is a store in which somebody is always a moment faster.
type meddled struct {
	desk.Books
	meddle func()
}

func (m meddled) Update(ctx context.Context, by ledger.By, decide func(*ledger.Snapshot) ([]ledger.Edit, error)) (*ledger.Snapshot, error) {
	m.meddle()
	return m.Books.Update(ctx, by, decide)
}
