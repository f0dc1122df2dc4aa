package storetest

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/plan"
	"foldwright/internal/store"
)

// aDraft is a draft of the shop's jobs on its first folder, made at noon.
func (b *bench) aDraft(id string) ledger.Draft {
	order := plan.Order{{Folder: b.shop.Folders[0].Name}, {Folder: b.shop.Folders[1].Name}}
	for _, j := range b.shop.Jobs {
		order[0].Jobs = append(order[0].Jobs, j.Name)
	}
	order[0].Choices = []plan.Choice{
		{Job: b.shop.Jobs[0].Name, Choice: job.Choice{Station: "1A", Way: job.Built, Set: b.shop.Sets[0].Label}},
		{Job: b.shop.Jobs[0].Name, Choice: job.Choice{Unit: 1, Guide: 123456789}},
	}
	return ledger.Draft{ID: id, Who: "ada", At: noon, How: "search", Note: "10 s", Order: order}
}

func (b *bench) addDraft(s *store.Store, d ledger.Draft) {
	b.Helper()
	if err := s.AddDraft(b.ctx, d); err != nil {
		b.Fatal(err)
	}
}

func (b *bench) drafts(s *store.Store, most int) []ledger.Draft {
	b.Helper()
	list, err := s.Drafts(b.ctx, most)
	if err != nil {
		b.Fatal(err)
	}
	return list
}

func drafts(b *bench) {
	clock := noon
	s := b.openAt(func() time.Time { return clock })
	now, err := s.Fill(b.ctx, ledger.By{Who: "ada"}, b.shop)
	if err != nil {
		b.Fatal(err)
	}
	var want []ledger.Draft
	for i := range 4 {
		d := b.aDraft(fmt.Sprintf("%c%d", 'z'-i, i)) // ids are no order
		d.Order[0].Jobs = slices.Clone(d.Order[0].Jobs[i:])
		if i > 0 {
			d.Parent, d.How = want[0].ID, "move"
		}
		b.addDraft(s, d)
		want = slices.Insert(want, 0, d)
	}
	other := b.open()
	b.same(want, b.drafts(other, 0))
	b.same(want[:2], b.drafts(other, 2))
	got, err := other.Draft(b.ctx, want[3].ID)
	if err != nil {
		b.Fatal(err)
	}
	b.same(want[3], got)
	if got.At.Location().String() != b.shop.Zone.String() {
		b.Errorf("a draft was made at %v", got.At)
	}
	if err := s.TakeDraft(b.ctx, want[3].ID, now.Revision); err != nil {
		b.Fatal(err)
	}
	want[3].Taken = now.Revision
	b.same(want, b.drafts(other, 0))
	if again := b.snapshot(s); again.Revision != now.Revision {
		b.Error("drafts change the shop")
	}

	// A month later the next one sweeps away those that were not taken.
	clock = noon.Add(30*24*time.Hour + time.Millisecond)
	late := b.aDraft("late")
	late.At = clock
	b.addDraft(s, late)
	b.same([]ledger.Draft{late, want[3]}, b.drafts(s, 0))
	badDrafts(b, s, late)
}

func badDrafts(b *bench, s *store.Store, there ledger.Draft) {
	b.faultOf(s.AddDraft(b.ctx, there), ledger.CodeTwice)
	for _, id := range []string{"none", "", "\x00", "caf\xe9", "' OR 1=1 --", strings.Repeat("x", 10_000)} {
		_, err := s.Draft(b.ctx, id)
		if f := b.faultOf(err, ledger.CodeNoDraft); f.Kind != fault.Missing {
			b.Errorf("the fault is of kind %d", f.Kind)
		}
		b.faultOf(s.TakeDraft(b.ctx, id, 1), ledger.CodeNoDraft)
	}
	bad := b.aDraft("bad")
	bad.Order[0].Jobs[0] = "caf\xe9"
	b.faultOf(s.AddDraft(b.ctx, bad), store.CodeKeep)
}
