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
	"foldwright/internal/store"
)

func editsOneByOne(b *bench) {
	s, _ := b.filled()
	want := slices.Clone(b.shop.Jobs)
	first, second := want[0].Name, want[1].Name

	fresh := b.aJob(1)
	fresh.Name, fresh.After = "fresh", nil
	now := b.change(s, "ada", store.Add(store.OfJob, fresh))
	want = append(want, fresh)
	b.same(want, now.Shop.Jobs)

	id := b.tag(now, store.OfJob, "fresh").ID
	fresh.Name, fresh.Sheets = "fresher", 777
	now = b.change(s, "ada", store.Put(b.tag(now, store.OfJob, "fresh"), fresh))
	want[len(want)-1] = fresh
	b.same(want, now.Shop.Jobs)
	if got := b.tag(now, store.OfJob, "fresher").ID; got != id {
		b.Errorf("with its name a thing changed its id from %s to %s", id, got)
	}

	now = b.change(s, "ada", store.Move(b.tag(now, store.OfJob, "fresher"), b.tag(now, store.OfJob, second)))
	want = slices.Insert(want[:len(want)-1], 1, fresh)
	b.same(want, now.Shop.Jobs)
	now = b.change(s, "ada", store.Move(b.tag(now, store.OfJob, first), store.Tag{}))
	want = append(want[1:], want[0])
	b.same(want, now.Shop.Jobs)

	now = b.change(s, "ada", store.Remove(b.tag(now, store.OfJob, "fresher")))
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
	tag := b.tag(seen, store.OfFolder, b.shop.Folders[0].Name)
	mine, theirs := b.aFolder(0), b.aFolder(0)
	theirs.Units[0].Gap += 5_000_000
	theirs.Model = "repainted"
	b.change(s, "ben", store.Put(tag, theirs))
	mine.Serial = "unread"
	f := b.refused(s, store.CodeStale, store.Put(tag, mine))
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
	now := b.change(s, "ada", store.Put(b.tag(b.snapshot(s), store.OfFolder, mine.Name), mine))
	b.same(mine, now.Shop.Folders[0])
}

func editOfGone(b *bench) {
	s, seen := b.filled()
	name := b.shop.Jobs[len(b.shop.Jobs)-1].Name
	tag := b.tag(seen, store.OfJob, name)
	b.change(s, "ben", store.Remove(tag))
	for _, e := range []store.Edit{store.Put(tag, b.aJob(len(b.shop.Jobs)-1)), store.Remove(tag), store.Move(tag, store.Tag{})} {
		if f := b.refused(s, store.CodeStale, e); !strings.Contains(f.Wrong, "removed by ben") {
			b.Errorf("the conflict does not say who removed it: %s", f.Error())
		}
	}
	b.refused(s, store.CodeStale, store.Move(b.tag(seen, store.OfJob, b.shop.Jobs[0].Name), tag))
	b.refused(s, store.CodeStale, store.Remove(store.Tag{Kind: store.OfJob, ID: "no-such-id", Name: "x"}))
	b.refused(s, store.CodeStale, store.Remove(store.Tag{Kind: store.OfJob}))
}

func nameTaken(b *bench) {
	s, now := b.filled()
	twin := b.aJob(0)
	if f := b.refused(s, store.CodeTwice, store.Add(store.OfJob, twin)); f.Kind != fault.Conflict {
		b.Errorf("the fault is of kind %d", f.Kind)
	}
	twin.Name = b.shop.Jobs[1].Name
	b.refused(s, store.CodeTwice, store.Put(b.tag(now, store.OfJob, b.shop.Jobs[0].Name), twin))
	b.refused(s, store.CodeTwice, store.Add(store.OfWeights, b.shop.Weights))
}

func refusesBrokenShop(b *bench) {
	s, now := b.filled()
	f := b.refused(s, "unknown-name", store.Remove(b.tag(now, store.OfCalendar, b.shop.Folders[0].Calendar)))
	if !strings.HasPrefix(f.Field, "folders[") {
		b.Errorf("the fault stands at %q", f.Field)
	}
	b.refused(s, store.CodeKeep, store.Add(store.OfJob, job.Job{Name: "caf\xe9"}))
	if _, err := s.Replace(b.ctx, store.By{Who: "eve"}, b.shop); err != nil {
		b.Error(err)
	}
}

func allOrNone(b *bench) {
	s, seen := b.filled()
	one, two := b.tag(seen, store.OfJob, b.shop.Jobs[0].Name), b.tag(seen, store.OfJob, b.shop.Jobs[1].Name)
	other := b.aJob(1)
	other.Title = "other"
	b.change(s, "ben", store.Put(two, other))
	mine := b.aJob(0)
	mine.Title = "mine"
	b.refused(s, store.CodeStale, store.Put(one, mine), store.Put(two, mine))
	wanted := errors.New("changed my mind")
	if _, err := s.Update(b.ctx, store.By{Who: "ada"}, func(*store.Snapshot) ([]store.Edit, error) { return nil, wanted }); !errors.Is(err, wanted) {
		b.Errorf("got %v", err)
	}
	// Steps of one change may build on one another: a job is finished.
	last := len(b.shop.Jobs) - 1
	done := b.tag(seen, store.OfJob, b.shop.Jobs[last].Name)
	now := b.change(s, "ada", store.Remove(done), store.Add(store.OfDone, b.aJob(last)))
	if _, ok := now.Tag(store.OfDone, done.Name); !ok || len(now.Shop.Jobs) != last {
		b.Error("the job is not done")
	}
}

func brokenOff(b *bench) {
	s, now := b.filled()
	ctx, cancel := context.WithCancel(b.ctx)
	_, err := s.Update(ctx, store.By{Who: "ada"}, func(*store.Snapshot) ([]store.Edit, error) {
		cancel()
		return []store.Edit{store.Remove(b.tag(now, store.OfJob, b.shop.Jobs[0].Name))}, nil
	})
	if err == nil {
		b.Error("a change went through after its asker had gone")
	}
	b.same(now.Shop, b.snapshot(s).Shop)
	if _, err := s.Change(ctx, store.By{Who: "ada"}); err == nil {
		b.Error("somebody who had gone was let in")
	}
	fresh := b.aJob(0)
	fresh.Title = "after it"
	b.change(s, "ben", store.Put(b.tag(now, store.OfJob, fresh.Name), fresh)) // and the next one is not held up
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
		now = b.change(writer, "ada", store.Put(b.tag(now, store.OfJob, j.Name), j))
		got := b.snapshot(other)
		b.same(now.Shop, got.Shop)
		b.same(now.Tags(store.OfJob), got.Tags(store.OfJob))
	}
	// One that has not looked since the other wrote builds on what the other wrote.
	for i, s := range []*store.Store{here, there, here, there, there} {
		fresh := b.aJob(1)
		fresh.Name, fresh.After = fmt.Sprintf("fresh %d", i), nil
		now = b.change(s, "ben", store.Add(store.OfJob, fresh))
	}
	if n := len(now.Shop.Jobs) - len(b.shop.Jobs); n != 5 {
		b.Errorf("5 jobs were added, %d are there", n)
	}
	last := b.shop.Jobs[len(b.shop.Jobs)-1].Name
	now = b.change(here, "ada", store.Remove(b.tag(now, store.OfJob, last)), store.Move(b.tag(now, store.OfJob, j.Name), store.Tag{}))
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
		tag, _ := now.Tag(store.OfJob, name)
		j, _ := now.Shop.Job(name)
		more := *j
		more.Sheets++
		if _, err = s.Change(ctx, store.By{Who: "hand"}, store.Put(tag, more)); err == nil || !isConflict(err) {
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
	now, err := s.Replace(b.ctx, store.By{Who: "ada"}, &plain)
	if err != nil {
		b.Fatal(err)
	}
	steps := 0
	rapid.Check(b.T, func(t *rapid.T) {
		if steps++; steps > anyEditsMost {
			return // each step is a commit; what one run leaves out another tries
		}
		var edits []store.Edit
		for range rapid.IntRange(1, 3).Draw(t, "edits") {
			edits, model = oneEdit(t, now, edits, model)
		}
		if now, err = s.Change(b.ctx, store.By{Who: "ada"}, edits...); err != nil {
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
func oneEdit(t *rapid.T, now *store.Snapshot, edits []store.Edit, model []job.Job) ([]store.Edit, []job.Job) {
	i := rapid.IntRange(0, len(model)-1).Draw(t, "job")
	tag, known := now.Tag(store.OfJob, model[i].Name)
	one := model[i]
	rest := slices.Delete(slices.Clone(model), i, i+1)
	switch what := rapid.SampledFrom([]string{"add", "put", "move", "end", "remove"}).Draw(t, "what"); {
	case what == "add" || !known:
		one.Name = fmt.Sprintf("new %d", rapid.Uint64().Draw(t, "name"))
		if slices.ContainsFunc(model, func(j job.Job) bool { return j.Name == one.Name }) {
			return edits, model
		}
		return append(edits, store.Add(store.OfJob, one)), append(slices.Clone(model), one)
	case what == "put":
		one.Sheets = rapid.IntRange(1, 50_000).Draw(t, "sheets")
		model = slices.Clone(model)
		model[i] = one
		return append(edits, store.Put(tag, one)), model
	case what == "remove" && len(rest) > 3:
		return append(edits, store.Remove(tag)), rest
	case what == "move":
		at := rapid.IntRange(0, len(rest)-1).Draw(t, "ahead of")
		if ahead, ok := now.Tag(store.OfJob, rest[at].Name); ok {
			return append(edits, store.Move(tag, ahead)), slices.Insert(rest, at, one)
		}
	}
	return append(edits, store.Move(tag, store.Tag{})), append(rest, one)
}

func hostileTexts(b *bench) {
	s, now := b.filled()
	j := b.aJob(0)
	for _, text := range []string{
		"'; DROP TABLE thing; --", `"; DELETE FROM thing WHERE "1"="1`, "$1 $2 ? :a @b", "<script>alert(1)</script>", "../../etc/passwd",
		"a\x00b", "\u202eabc", "\ufffd", `\ufffd \u0000`, strings.Repeat("long ", 20_000), "\r\n\t", "😀",
	} {
		j.Title = text
		now = b.change(s, text, store.Put(b.tag(now, store.OfJob, j.Name), j))
		b.same(j, b.snapshot(b.open()).Shop.Jobs[0])
	}
	if got := b.history(s, store.Page{Limit: 1})[0].Who; got != "😀" {
		b.Errorf("the trail says %q", got)
	}
	b.change(s, "\xff\x00", store.Remove(b.tag(now, store.OfJob, b.shop.Jobs[len(b.shop.Jobs)-1].Name)))
}
