package storetest

import (
	"database/sql"
	"slices"
	"strings"

	"pgregory.net/rapid"

	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/store"
)

// undo takes a change back, as the desk does.
func (b *bench) undo(s *store.Store, revision int64) (*ledger.Snapshot, error) {
	return s.Update(b.ctx, ledger.By{Who: "ada", What: "undo"}, func(now *ledger.Snapshot) ([]ledger.Edit, error) {
		return s.Undoing(b.ctx, now, revision)
	})
}

// undone takes the last change back, which must go well, and gives the shop after it.
func (b *bench) undone(s *store.Store) *ledger.Snapshot {
	b.Helper()
	now, err := b.undo(s, b.snapshot(s).Revision)
	b.ok(err)
	return now
}

func undoes(b *bench) {
	s, was := b.filled()
	last := len(b.shop.Jobs) - 1
	first := b.tag(was, ledger.OfJob, b.shop.Jobs[last].Name)
	tag := func(i int) ledger.Tag { return b.tag(b.snapshot(s), ledger.OfJob, b.shop.Jobs[i].Name) }
	fresh, changed := b.aJob(1), b.aJob(0)
	fresh.Name, fresh.After = "fresh", nil
	changed.Title, changed.Sheets = "another", 1
	for what, edits := range map[string]func() []ledger.Edit{
		"added":      func() []ledger.Edit { return []ledger.Edit{ledger.Add(ledger.OfJob, fresh)} },
		"changed":    func() []ledger.Edit { return []ledger.Edit{ledger.Put(tag(0), changed)} },
		"moved":      func() []ledger.Edit { return []ledger.Edit{ledger.Move(tag(2), tag(0))} },
		"to the end": func() []ledger.Edit { return []ledger.Edit{ledger.Move(tag(0), ledger.Tag{})} },
		"removed":    func() []ledger.Edit { return []ledger.Edit{ledger.Remove(tag(last))} },
		"finished": func() []ledger.Edit {
			return []ledger.Edit{ledger.Remove(tag(last)), ledger.Add(ledger.OfDone, b.aJob(last))}
		},
		"turned round": func() []ledger.Edit {
			return []ledger.Edit{ledger.Move(tag(0), ledger.Tag{}), ledger.Move(tag(1), tag(0)), ledger.Move(tag(2), tag(1))}
		},
	} {
		now := b.change(s, "ben", edits()...)
		back := b.undone(s)
		if b.same(was.Shop, back.Shop); b.Failed() {
			b.Fatalf("after it was %s", what)
		}
		b.same(now.Shop, b.undone(s).Shop) // taking back is a change like any other
		b.same(was.Shop, b.undone(s).Shop)
	}
	// What comes back is the same thing: its trail goes on.
	if got := b.tag(b.snapshot(s), ledger.OfJob, first.Name); got.ID != first.ID {
		b.Errorf("job %s came back as another thing", first.Name)
	}
	// Two swap their names by way of a third.
	a, c := b.aJob(4), b.aJob(5)
	one, two := tag(4), tag(5)
	a.Name, c.Name = "for now", b.shop.Jobs[4].Name
	b.change(s, "ben", ledger.Put(one, a), ledger.Put(two, c))
	b.same(was.Shop, b.undone(s).Shop)
}

// undoesAny takes back whatever is done to the jobs, and takes that back again.
func undoesAny(b *bench) {
	s, _ := b.filled()
	model := slices.Clone(b.shop.Jobs)
	for i := range model {
		model[i].After, model[i].Pin = nil, job.Pin{} // so that any job may go
	}
	plain := *b.shop
	plain.Jobs = model
	now, err := s.Replace(b.ctx, ledger.By{Who: "ada"}, &plain)
	b.ok(err)
	steps := 0
	rapid.Check(b.T, func(t *rapid.T) {
		if steps++; steps > anyEditsMost/2 {
			return
		}
		var edits []ledger.Edit
		after := now.Shop.Jobs
		for range rapid.IntRange(1, 5).Draw(t, "edits") {
			edits, after = oneEdit(t, now, edits, after)
		}
		next := b.change(s, "ben", edits...)
		if next.Revision == now.Revision {
			return
		}
		b.same(now.Shop, b.undone(s).Shop)
		now = b.undone(s)
		b.same(next.Shop, now.Shop)
	})
}

func undoesImport(b *bench) {
	s, was := b.filled()
	other := *b.shop
	other.Jobs = slices.Clone(b.shop.Jobs)
	slices.Reverse(other.Jobs)
	other.Jobs = slices.DeleteFunc(other.Jobs, func(j job.Job) bool { return j.Name == b.shop.Jobs[2].Name })
	other.Jobs[1].Title = "another"
	fresh := b.aJob(1)
	fresh.Name, fresh.After = "fresh", nil
	other.Jobs = slices.Insert(other.Jobs, 3, fresh)
	for i := range other.Jobs {
		other.Jobs[i].After, other.Jobs[i].Pin = nil, job.Pin{}
	}
	now, err := s.Replace(b.ctx, ledger.By{Who: "ben"}, &other)
	b.ok(err)
	b.same(other.Jobs, now.Shop.Jobs)
	b.same(was.Shop, b.undone(s).Shop)
	b.same(&other, b.undone(s).Shop)
}

func undoNoMore(b *bench) {
	s, was := b.filled()
	j := b.aJob(0)
	j.Title = "first"
	mine := b.change(s, "ada", ledger.Put(b.tag(was, ledger.OfJob, j.Name), j))
	j.Title = "then"
	theirs := b.change(s, "ben", ledger.Put(b.tag(mine, ledger.OfJob, j.Name), j))
	_, err := b.undo(s, mine.Revision)
	f := b.faultOf(err, ledger.CodeStale)
	if f.Kind != fault.Conflict || !strings.Contains(f.Wrong, "changed by ben on 2026-03-02 12:00 (title)") {
		b.Errorf("the conflict says %s", f.Error())
	}
	b.same(theirs.Shop, b.snapshot(s).Shop)
	b.undone(s) // theirs, and then mine is still not the last of that job
	_, err = b.undo(s, mine.Revision)
	b.faultOf(err, ledger.CodeStale)

	// The place of a removed neighbour is known as well.
	last := len(b.shop.Jobs) - 1
	moved := b.change(s, "ada", ledger.Move(b.tag(b.snapshot(s), ledger.OfJob, b.shop.Jobs[last-2].Name), b.tag(b.snapshot(s), ledger.OfJob, b.shop.Jobs[0].Name)))
	b.change(s, "ben", ledger.Remove(b.tag(moved, ledger.OfJob, b.shop.Jobs[last-1].Name)))
	back, err := b.undo(s, moved.Revision)
	b.ok(err)
	if _, at := back.Shop.Job(b.shop.Jobs[last-2].Name); !at || back.Shop.Jobs[last-2].Name != b.shop.Jobs[last-2].Name {
		b.Errorf("the job does not stand where it stood: %v", back.Shop.JobNames())
	}
}

func undoNever(b *bench) {
	s, was := b.filled()
	_, err := b.undo(s, was.Revision)
	if f := b.faultOf(err, ledger.CodeNotUndoable); f.Kind != fault.No {
		b.Errorf("the fault is of kind %d", f.Kind)
	}
	for _, revision := range []int64{0, -1, 999, 1 << 62} {
		_, err := b.undo(s, revision)
		if f := b.faultOf(err, ledger.CodeNoChange); f.Kind != fault.Missing {
			b.Errorf("the fault is of kind %d", f.Kind)
		}
	}
	many := *b.shop
	many.Jobs = slices.Clone(b.shop.Jobs)
	for i := range 501 {
		fresh := b.aJob(1)
		fresh.Name, fresh.After, fresh.Pin = strings.Repeat("x", 1+i%50)+strings.Repeat("y", 1+i/50), nil, job.Pin{}
		many.Jobs = append(many.Jobs, fresh)
	}
	now, err := s.Replace(b.ctx, ledger.By{Who: "ben"}, &many)
	b.ok(err)
	_, err = b.undo(s, now.Revision)
	b.faultOf(err, ledger.CodeNotUndoable)

	// A move of before the trail told where things stood.
	moved := b.change(s, "ada", ledger.Move(b.tag(now, ledger.OfJob, b.shop.Jobs[2].Name), ledger.Tag{}))
	b.forget(`UPDATE change_thing SET stood = ''`)
	_, err = b.undo(s, moved.Revision)
	b.faultOf(err, ledger.CodeNotUndoable)
	gone := b.change(s, "ada", ledger.Remove(b.tag(moved, ledger.OfJob, b.shop.Jobs[2].Name)))
	b.forget(`UPDATE change_thing SET stood = ''`)
	back, err := b.undo(s, gone.Revision) // it comes back all the same, at the end
	b.ok(err)
	b.same(moved.Shop, back.Shop)
}

// forget makes the database what an earlier program would have left.
func (b *bench) forget(statement string) {
	b.Helper()
	driver := "sqlite"
	if store.IsURL(b.where) {
		driver = "pgx"
	}
	db, err := sql.Open(driver, b.where)
	b.ok(err)
	defer db.Close()
	_, err = db.ExecContext(b.ctx, statement)
	b.ok(err)
}
