package storetest

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/store"
)

func editsOneByOne(b *bench) {
	s, _ := b.filled()
	want := slices.Clone(b.shop.Jobs)
	first, second := want[0].Name, want[1].Name

	fresh := b.aJob(1)
	fresh.Name, fresh.After = "fresh", nil
	now := b.change(s, "ada", ledger.Add(ledger.OfJob, fresh))
	want = append(want, fresh)
	b.same(want, now.Shop.Jobs)

	id := b.tag(now, ledger.OfJob, "fresh").ID
	fresh.Name, fresh.Sheets = "fresher", 777
	now = b.change(s, "ada", ledger.Put(b.tag(now, ledger.OfJob, "fresh"), fresh))
	want[len(want)-1] = fresh
	b.same(want, now.Shop.Jobs)
	if got := b.tag(now, ledger.OfJob, "fresher").ID; got != id {
		b.Errorf("with its name a thing changed its id from %s to %s", id, got)
	}

	now = b.change(s, "ada", ledger.Move(b.tag(now, ledger.OfJob, "fresher"), b.tag(now, ledger.OfJob, second)))
	want = slices.Insert(want[:len(want)-1], 1, fresh)
	b.same(want, now.Shop.Jobs)
	now = b.change(s, "ada", ledger.Move(b.tag(now, ledger.OfJob, first), ledger.Tag{}))
	want = append(want[1:], want[0])
	b.same(want, now.Shop.Jobs)

	now = b.change(s, "ada", ledger.Remove(b.tag(now, ledger.OfJob, "fresher")))
	want = want[1:]
	b.same(want, now.Shop.Jobs)
	again, err := b.open().Shop(b.ctx)
	if err != nil {
		b.Fatal(err)
	}
	b.same(want, again.Jobs)
}

func staleEdit(b *bench) {
	s, seen := b.filled()
	tag := b.tag(seen, ledger.OfFolder, b.shop.Folders[0].Name)
	mine, theirs := b.aFolder(0), b.aFolder(0)
	theirs.Units[0].Gap += 5_000_000
	theirs.Model = "repainted"
	b.change(s, "ben", ledger.Put(tag, theirs))
	mine.Serial = "unread"
	f := b.refused(s, ledger.CodeStale, ledger.Put(tag, mine))
	for _, part := range []string{"changed by ben on 2026-03-02 12:00", "model", "units[0].gap"} {
		if !strings.Contains(f.Wrong, part) {
			b.Errorf("the conflict does not say %q: %s", part, f.Error())
		}
	}
	if f.Kind != fault.Conflict {
		b.Errorf("the fault is of kind %d", f.Kind)
	}
	// Looked at anew, the same edit is welcome.
	mine = theirs
	mine.Serial = "read"
	now := b.change(s, "ada", ledger.Put(b.tag(b.snapshot(s), ledger.OfFolder, mine.Name), mine))
	b.same(mine, now.Shop.Folders[0])
}

func editOfGone(b *bench) {
	s, seen := b.filled()
	name := b.shop.Jobs[len(b.shop.Jobs)-1].Name
	tag := b.tag(seen, ledger.OfJob, name)
	b.change(s, "ben", ledger.Remove(tag))
	for _, e := range []ledger.Edit{ledger.Put(tag, b.aJob(len(b.shop.Jobs)-1)), ledger.Remove(tag), ledger.Move(tag, ledger.Tag{})} {
		if f := b.refused(s, ledger.CodeStale, e); !strings.Contains(f.Wrong, "removed by ben") {
			b.Errorf("the conflict does not say who removed it: %s", f.Error())
		}
	}
	b.refused(s, ledger.CodeStale, ledger.Move(b.tag(seen, ledger.OfJob, b.shop.Jobs[0].Name), tag))
	b.refused(s, ledger.CodeStale, ledger.Remove(ledger.Tag{Kind: ledger.OfJob, ID: "no-such-id", Name: "x"}))
	b.refused(s, ledger.CodeStale, ledger.Remove(ledger.Tag{Kind: ledger.OfJob}))
}

func nameTaken(b *bench) {
	s, now := b.filled()
	twin := b.aJob(0)
	if f := b.refused(s, ledger.CodeTwice, ledger.Add(ledger.OfJob, twin)); f.Kind != fault.Conflict {
		b.Errorf("the fault is of kind %d", f.Kind)
	}
	twin.Name = b.shop.Jobs[1].Name
	b.refused(s, ledger.CodeTwice, ledger.Put(b.tag(now, ledger.OfJob, b.shop.Jobs[0].Name), twin))
	b.refused(s, ledger.CodeTwice, ledger.Add(ledger.OfWeights, b.shop.Weights))
}

func refusesBrokenShop(b *bench) {
	s, now := b.filled()
	f := b.refused(s, "unknown-name", ledger.Remove(b.tag(now, ledger.OfCalendar, b.shop.Folders[0].Calendar)))
	if !strings.HasPrefix(f.Field, "folders[") {
		b.Errorf("the fault stands at %q", f.Field)
	}
	for _, k := range ledger.Kinds() {
		if k.Alone() {
			b.refused(s, ledger.CodeAlone, ledger.Remove(now.Tags(k)[0]))
		}
	}
	b.refused(s, store.CodeKeep, ledger.Add(ledger.OfJob, job.Job{Name: "caf\xe9"}))
	if _, err := s.Replace(b.ctx, ledger.By{Who: "eve"}, b.shop); err != nil {
		b.Error(err)
	}
}

func allOrNone(b *bench) {
	s, seen := b.filled()
	one, two := b.tag(seen, ledger.OfJob, b.shop.Jobs[0].Name), b.tag(seen, ledger.OfJob, b.shop.Jobs[1].Name)
	other := b.aJob(1)
	other.Title = "other"
	b.change(s, "ben", ledger.Put(two, other))
	mine := b.aJob(0)
	mine.Title = "mine"
	b.refused(s, ledger.CodeStale, ledger.Put(one, mine), ledger.Put(two, mine))
	wanted := errors.New("changed my mind")
	if _, err := s.Update(b.ctx, ledger.By{Who: "ada"}, func(*ledger.Snapshot) ([]ledger.Edit, error) { return nil, wanted }); !errors.Is(err, wanted) {
		b.Errorf("got %v", err)
	}
	// Steps of one change may build on one another: a job is finished.
	last := len(b.shop.Jobs) - 1
	done := b.tag(seen, ledger.OfJob, b.shop.Jobs[last].Name)
	now := b.change(s, "ada", ledger.Remove(done), ledger.Add(ledger.OfDone, b.aJob(last)))
	if _, ok := now.Tag(ledger.OfDone, done.Name); !ok || len(now.Shop.Jobs) != last {
		b.Error("the job is not done")
	}
}

func brokenOff(b *bench) {
	s, now := b.filled()
	ctx, cancel := context.WithCancel(b.ctx)
	_, err := s.Update(ctx, ledger.By{Who: "ada"}, func(*ledger.Snapshot) ([]ledger.Edit, error) {
		cancel()
		return []ledger.Edit{ledger.Remove(b.tag(now, ledger.OfJob, b.shop.Jobs[0].Name))}, nil
	})
	if err == nil {
		b.Error("a change went through after its asker had gone")
	}
	b.same(now.Shop, b.snapshot(s).Shop)
	if _, err := s.Change(ctx, ledger.By{Who: "ada"}); err == nil {
		b.Error("somebody who had gone was let in")
	}
	fresh := b.aJob(0)
	fresh.Title = "after it"
	b.change(s, "ben", ledger.Put(b.tag(now, ledger.OfJob, fresh.Name), fresh)) // and the next one is not held up
}

func twoPrograms(b *bench) {
	here, now := b.filled()
	there := b.open()
	j := b.aJob(0)
	for i := range 6 {
		writer, other := here, there
		if i%2 == 1 {
			writer, other = there, here
		}
		j.Sheets = 1000 + i
		now = b.change(writer, "ada", ledger.Put(b.tag(now, ledger.OfJob, j.Name), j))
		got := b.snapshot(other)
		b.same(now.Shop, got.Shop)
		b.same(now.Tags(ledger.OfJob), got.Tags(ledger.OfJob))
	}
	// One that has not looked since the other wrote builds on what the other wrote.
	for i, s := range []*store.Store{here, there, here, there, there} {
		fresh := b.aJob(1)
		fresh.Name, fresh.After = fmt.Sprintf("fresh %d", i), nil
		now = b.change(s, "ben", ledger.Add(ledger.OfJob, fresh))
	}
	if n := len(now.Shop.Jobs) - len(b.shop.Jobs); n != 5 {
		b.Errorf("5 jobs were added, %d are there", n)
	}
	last := b.shop.Jobs[len(b.shop.Jobs)-1].Name
	now = b.change(here, "ada", ledger.Remove(b.tag(now, ledger.OfJob, last)), ledger.Move(b.tag(now, ledger.OfJob, j.Name), ledger.Tag{}))
	b.same(now.Shop, b.snapshot(there).Shop)
}

// manyHands lets several write at once through two programs, each adding to the same count: what is added again and
// again after a conflict is never lost.
func manyHands(b *bench) {
	const hands, times = 4, 6
	name := b.shop.Jobs[0].Name
	start := b.shop.Jobs[0].Sheets
	one, _ := b.filled()
	stores := []*store.Store{one, b.open()}
	b.Run("at once", func(t *testing.T) {
		for h := range hands {
			t.Run(fmt.Sprint(h), func(t *testing.T) {
				t.Parallel()
				for range times {
					if err := addOne(t.Context(), stores[h%2], name); err != nil {
						t.Fatal(err)
					}
				}
			})
		}
	})
	for _, s := range stores {
		if got := b.snapshot(s).Shop.Jobs[0].Sheets; got != start+hands*times {
			b.Errorf("%d were added, want %d", got-start, hands*times)
		}
	}
}

// addOne reads, changes and writes as a person would, and begins anew when somebody was faster.
func addOne(ctx context.Context, s *store.Store, name string) (err error) {
	for range 1000 {
		now, err := s.Snapshot(ctx)
		if err != nil {
			return err
		}
		tag, _ := now.Tag(ledger.OfJob, name)
		j, _ := now.Shop.Job(name)
		more := *j
		more.Sheets++
		if _, err = s.Change(ctx, ledger.By{Who: "hand"}, ledger.Put(tag, more)); err == nil || !isConflict(err) {
			return err
		}
	}
	return err
}

// anyEdits holds a run of random edits of the jobs to what a plain list makes of them.
func anyEdits(b *bench) {
	s, _ := b.filled()
	other := b.open()
	model := slices.Clone(b.shop.Jobs)
	for i := range model {
		model[i].After, model[i].Pin = nil, job.Pin{} // so that any job may go
	}
	plain := *b.shop
	plain.Jobs = model
	now, err := s.Replace(b.ctx, ledger.By{Who: "ada"}, &plain)
	if err != nil {
		b.Fatal(err)
	}
	steps := 0
	rapid.Check(b.T, func(t *rapid.T) {
		if steps++; steps > anyEditsMost {
			return // each step is a commit; what one run leaves out another tries
		}
		var edits []ledger.Edit
		for range rapid.IntRange(1, 3).Draw(t, "edits") {
			edits, model = oneEdit(t, now, edits, model)
		}
		if now, err = s.Change(b.ctx, ledger.By{Who: "ada"}, edits...); err != nil {
			t.Fatal(err)
		}
		b.same(model, now.Shop.Jobs)
		seen, err := other.Snapshot(b.ctx)
		if err != nil {
			t.Fatal(err)
		}
		b.same(model, seen.Shop.Jobs)
	})
}

const anyEditsMost = 60

// oneEdit draws an edit of a job that this change has not touched yet, and does the same to the list.
func oneEdit(t *rapid.T, now *ledger.Snapshot, edits []ledger.Edit, model []job.Job) ([]ledger.Edit, []job.Job) {
	i := rapid.IntRange(0, len(model)-1).Draw(t, "job")
	tag, known := now.Tag(ledger.OfJob, model[i].Name)
	one := model[i]
	rest := slices.Delete(slices.Clone(model), i, i+1)
	switch what := rapid.SampledFrom([]string{"add", "put", "move", "end", "remove"}).Draw(t, "what"); {
	case what == "add" || !known:
		one.Name = fmt.Sprintf("new %d", rapid.Uint64().Draw(t, "name"))
		if slices.ContainsFunc(model, func(j job.Job) bool { return j.Name == one.Name }) {
			return edits, model
		}
		return append(edits, ledger.Add(ledger.OfJob, one)), append(slices.Clone(model), one)
	case what == "put":
		one.Sheets = rapid.IntRange(1, 50_000).Draw(t, "sheets")
		model = slices.Clone(model)
		model[i] = one
		return append(edits, ledger.Put(tag, one)), model
	case what == "remove" && len(rest) > 3:
		return append(edits, ledger.Remove(tag)), rest
	case what == "move":
		at := rapid.IntRange(0, len(rest)-1).Draw(t, "ahead of")
		if ahead, ok := now.Tag(ledger.OfJob, rest[at].Name); ok {
			return append(edits, ledger.Move(tag, ahead)), slices.Insert(rest, at, one)
		}
	}
	return append(edits, ledger.Move(tag, ledger.Tag{})), append(rest, one)
}

func hostileTexts(b *bench) {
	s, now := b.filled()
	j := b.aJob(0)
	for _, text := range []string{
		"'; DROP TABLE thing; --", `"; DELETE FROM thing WHERE "1"="1`, "$1 $2 ? :a @b", "<script>alert(1)</script>", "../../etc/passwd",
		"a\x00b", "\u202eabc", "\ufffd", `\ufffd \u0000`, strings.Repeat("long ", 20_000), "\r\n\t", "😀",
	} {
		j.Title = text
		now = b.change(s, text, ledger.Put(b.tag(now, ledger.OfJob, j.Name), j))
		b.same(j, b.snapshot(b.open()).Shop.Jobs[0])
	}
	if got := b.history(s, ledger.Page{Limit: 1})[0].Who; got != "😀" {
		b.Errorf("the trail says %q", got)
	}
	b.change(s, "\xff\x00", ledger.Remove(b.tag(now, ledger.OfJob, b.shop.Jobs[len(b.shop.Jobs)-1].Name)))
}
