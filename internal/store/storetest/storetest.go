// Package storetest is the contract of a store as code: [Run] holds any database to it, so that SQLite and PostgreSQL
// are the same to everyone who asks. [Server] starts a PostgreSQL server for the time of a test.
package storetest

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/machine"
	"foldwright/internal/shop"
	"foldwright/internal/store"
)

// Place gives where a new, empty database can be opened, any number of times.
type Place func(t *testing.T) (where string)

// Run holds the databases at places to the contract. The shop must be sound and have jobs and folders to work on.
func Run(t *testing.T, place Place, example func() (*shop.Shop, error)) {
	s, err := example()
	if err != nil || len(s.Jobs) < 6 || len(s.Folders) < 2 {
		t.Fatalf("not enough of a shop to work on: %v", err)
	}
	for _, c := range []struct {
		name string
		test func(*bench)
	}{
		{"an empty store says so", emptyStore},
		{"what is filled in reads back", fillsAndReadsBack},
		{"a shop is never filled over", neverFillsOver},
		{"replacing touches what differs", replacesWhatDiffers},
		{"things are added, changed, renamed, moved, removed", editsOneByOne},
		{"a stale edit is told who was first", staleEdit},
		{"an edit on what is gone is told who took it", editOfGone},
		{"a name is given once", nameTaken},
		{"a change that breaks the shop is refused", refusesBrokenShop},
		{"all edits or none", allOrNone},
		{"a broken-off change leaves nothing", brokenOff},
		{"the trail tells who, when, what", trail},
		{"changes are taken back", undoes},
		{"any change is taken back, and that too", undoesAny},
		{"an import is taken back", undoesImport},
		{"what was changed again is not taken back", undoNoMore},
		{"what the trail does not hold is not taken back", undoNever},
		{"a database of before is brought up to date", upgrades},
		{"two programs see one shop", twoPrograms},
		{"hands that write at once lose nothing", manyHands},
		{"any edits, as in memory", anyEdits},
		{"hostile texts are only texts", hostileTexts},
		{"drafts are kept, listed, taken, forgotten", drafts},
		{"records have versions that all stay", records},
		{"records are found by what is asked", anyRecords},
		{"accounts come, change and end", accounts},
		{"one admin stays", lastAdmin},
		{"tokens let programs in", tokens},
		{"an invitation serves once", invitations},
		{"sessions are kept under digests", sessions},
		{"what was done is not done again", keys},
		{"a backup is the whole of it", backupAndRestore},
		{"a backup holds people and papers", backupOfDesk},
		{"a backup that knows nobody shuts nobody out", backupWithoutPeople},
		{"a bad backup changes nothing", badBackup},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.test(&bench{T: t, ctx: t.Context(), where: place(t), shop: clone(t, example)})
		})
	}
}

func clone(t *testing.T, example func() (*shop.Shop, error)) *shop.Shop {
	s, err := example()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// bench is what a test of the contract works on: a place and a shop of its own.
type bench struct {
	*testing.T
	ctx   context.Context
	where string
	shop  *shop.Shop
}

// noon is when all changes of the tests are made.
var noon = time.Date(2026, 3, 2, 11, 0, 0, 0, time.UTC)

// open opens the store once more, as another program would. What it leaves must be sound.
func (b *bench) open() *store.Store {
	b.Helper()
	return b.openAt(func() time.Time { return noon })
}

// openAt is open with another clock.
func (b *bench) openAt(now func() time.Time) *store.Store {
	b.Helper()
	s, err := store.Open(b.ctx, b.where, store.Options{Now: now})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() {
		if err := s.Verify(context.Background()); err != nil {
			b.Errorf("what is left is not sound: %v", err)
		}
		if err := s.Close(); err != nil {
			b.Error(err)
		}
	})
	return s
}

// filled is a store that holds the shop already.
func (b *bench) filled() (*store.Store, *ledger.Snapshot) {
	b.Helper()
	s := b.open()
	now, err := s.Fill(b.ctx, ledger.By{Who: "ada", What: "taken in"}, b.shop)
	if err != nil {
		b.Fatal(err)
	}
	return s, now
}

// change makes a change that must go well.
func (b *bench) change(s *store.Store, who string, edits ...ledger.Edit) *ledger.Snapshot {
	b.Helper()
	now, err := s.Change(b.ctx, ledger.By{Who: who}, edits...)
	if err != nil {
		b.Fatal(err)
	}
	return now
}

// refused makes a change that must not go well, and must leave the shop as it is.
func (b *bench) refused(s *store.Store, want fault.Code, edits ...ledger.Edit) fault.Fault {
	b.Helper()
	before := b.snapshot(s)
	_, err := s.Change(b.ctx, ledger.By{Who: "eve"}, edits...)
	b.same(before.Shop, b.snapshot(s).Shop)
	if after := b.snapshot(s); after.Revision != before.Revision {
		b.Errorf("a refused change moved the revision from %d to %d", before.Revision, after.Revision)
	}
	return b.faultOf(err, want)
}

func (b *bench) faultOf(err error, want fault.Code) fault.Fault {
	b.Helper()
	all := fault.All(err)
	if len(all) == 0 || all[0].Code != want || all[0].Right == "" {
		b.Fatalf("got %v, want a fault %s that says what would be right", err, want)
	}
	return all[0]
}

func (b *bench) snapshot(s *store.Store) *ledger.Snapshot {
	b.Helper()
	now, err := s.Snapshot(b.ctx)
	if err != nil {
		b.Fatal(err)
	}
	return now
}

// tag finds a thing, which must be there.
func (b *bench) tag(s *ledger.Snapshot, k ledger.Kind, name string) ledger.Tag {
	b.Helper()
	t, ok := s.Tag(k, name)
	if !ok {
		b.Fatalf("there is no %s %q", k, name)
	}
	return t
}

func (b *bench) history(s *store.Store, p ledger.Page) []ledger.Change {
	b.Helper()
	list, err := s.History(b.ctx, p)
	if err != nil {
		b.Fatal(err)
	}
	return list
}

func (b *bench) same(want, got any) {
	b.Helper()
	if diff := cmp.Diff(want, got, Same); diff != "" {
		b.Fatal(diff)
	}
}

// Same compares shops: no list is an empty list, a zone is its name.
var Same = cmp.Options{
	cmpopts.EquateEmpty(),
	cmp.Comparer(func(a, b *time.Location) bool { return a.String() == b.String() }),
}

// aJob gives a copy of a job of the shop for changing; aFolder likewise, its units too.
func (b *bench) aJob(i int) job.Job { return b.shop.Jobs[i] }

func (b *bench) aFolder(i int) machine.Folder {
	f := b.shop.Folders[i]
	f.Units = slices.Clone(f.Units)
	return f
}

func emptyStore(b *bench) {
	s := b.open()
	_, err := s.Shop(b.ctx)
	f := b.faultOf(err, ledger.CodeNoShop)
	if f.Kind != fault.Missing {
		b.Errorf("the fault is of kind %d", f.Kind)
	}
	_, err = s.Change(b.ctx, ledger.By{Who: "ada"}, ledger.Add(ledger.OfJob, b.aJob(0)))
	b.faultOf(err, ledger.CodeNoShop)
	if list := b.history(s, ledger.Page{}); len(list) > 0 {
		b.Errorf("an empty store has a history: %+v", list)
	}
}

func fillsAndReadsBack(b *bench) {
	s, now := b.filled()
	b.same(b.shop, now.Shop)
	got, err := s.Shop(b.ctx)
	if err != nil {
		b.Fatal(err)
	}
	b.same(b.shop, got)
	again, err := b.open().Shop(b.ctx)
	if err != nil {
		b.Fatal(err)
	}
	b.same(b.shop, again)
}

func neverFillsOver(b *bench) {
	s, now := b.filled()
	_, err := s.Fill(b.ctx, ledger.By{Who: "eve"}, &shop.Shop{Name: "other"})
	if f := b.faultOf(err, "shop-exists"); f.Kind != fault.Conflict {
		b.Errorf("the fault is of kind %d", f.Kind)
	}
	b.same(now.Shop, b.snapshot(s).Shop)
}

func replacesWhatDiffers(b *bench) {
	s, was := b.filled()
	other := *b.shop
	other.Jobs = slices.Clone(b.shop.Jobs)
	other.Jobs[1].Title = "another title"
	other.Jobs = slices.Delete(other.Jobs, 2, 3)
	other.Jobs[0], other.Jobs[3] = other.Jobs[3], other.Jobs[0]
	now, err := s.Replace(b.ctx, ledger.By{Who: "ben"}, &other)
	if err != nil {
		b.Fatal(err)
	}
	b.same(&other, now.Shop)
	again, err := b.open().Shop(b.ctx)
	if err != nil {
		b.Fatal(err)
	}
	b.same(&other, again)

	last := b.history(s, ledger.Page{Limit: 1})[0]
	var deeds []string
	for _, t := range last.Things {
		deeds = append(deeds, string(t.Deed)+" "+t.Name)
	}
	was0, was1, was2, was4 := b.shop.Jobs[0].Name, b.shop.Jobs[1].Name, b.shop.Jobs[2].Name, b.shop.Jobs[4].Name
	b.same([]string{"removed " + was2, "moved " + was4, "changed " + was1, "moved " + was0}, deeds)
	for _, f := range b.shop.Folders {
		b.same(b.tag(was, ledger.OfFolder, f.Name), b.tag(now, ledger.OfFolder, f.Name))
	}
	same, err := s.Replace(b.ctx, ledger.By{Who: "ben"}, &other)
	if err != nil || same.Revision != now.Revision {
		b.Errorf("replacing a shop by itself is a change: %v", err)
	}
}

// isConflict is a fault that a door answers as a conflict.
func isConflict(err error) bool {
	var f fault.Fault
	return errors.As(err, &f) && f.Kind == fault.Conflict
}
