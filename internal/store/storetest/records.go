package storetest

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/store"
	"foldwright/internal/units"
)

// aRecord is a record with something in every field.
func (b *bench) aRecord(id string, start time.Time) ledger.Record {
	return ledger.Record{
		ID: id, Who: "ben", At: noon, Job: b.shop.Jobs[0].Name, Folder: b.shop.Folders[0].Name,
		Start: start, Good: start.Add(17 * time.Minute), End: start.Add(2 * time.Hour), Sheets: 4711,
		Plates:  []ledger.AsRun{{Where: "unit 1 plate 1", Set: 430 * units.Millimetre, Was: 430*units.Millimetre + 400_000}},
		Tools:   []ledger.AsRun{{Where: "1A perforate 12 tpi", Set: 1, Was: -1}},
		Planned: 15*time.Minute + 30*time.Second, Disturbed: "roller cleaned", Note: "50 % \"wet\"\n",
	}
}

func (b *bench) addRecord(s *store.Store, r ledger.Record) ledger.Record {
	b.Helper()
	got, err := s.AddRecord(b.ctx, r)
	if err != nil {
		b.Fatal(err)
	}
	return got
}

func (b *bench) records(s *store.Store, q ledger.RecordQuery) []ledger.Record {
	b.Helper()
	list, err := s.Records(b.ctx, q)
	if err != nil {
		b.Fatal(err)
	}
	return list
}

func records(b *bench) {
	s, now := b.filled()
	one := b.addRecord(s, b.aRecord("one", noon.Add(-3*time.Hour)))
	bare := b.addRecord(s, ledger.Record{ID: "bare", Who: "ben", At: noon, Job: "gone", Folder: "gone", Start: noon.Add(-time.Hour)})
	if one.Version == 0 || one.Version == bare.Version {
		b.Errorf("the versions are %d and %d", one.Version, bare.Version)
	}
	other := b.open()
	got, err := other.Record(b.ctx, "one")
	if err != nil {
		b.Fatal(err)
	}
	b.same(one, got)
	if got.Good.Location().String() != b.shop.Zone.String() {
		b.Errorf("the first good sheet came at %v", got.Good)
	}
	b.same([]ledger.Record{bare, one}, b.records(other, ledger.RecordQuery{}))

	more := one
	more.Sheets, more.Who, more.At = 5000, "ada", noon.Add(time.Minute)
	if more, err = other.PutRecord(b.ctx, more); err != nil {
		b.Fatal(err)
	}
	past, err := s.RecordPast(b.ctx, "one")
	if err != nil {
		b.Fatal(err)
	}
	b.same([]ledger.Record{more, one}, past)
	_, err = s.PutRecord(b.ctx, one)
	if f := b.faultOf(err, ledger.CodeStale); f.Kind != fault.Conflict || !strings.Contains(f.Wrong, "by ada on 2026-03-02 12:01") {
		b.Errorf("the conflict says %s", f.Error())
	}
	if again := b.snapshot(s); again.Revision != now.Revision {
		b.Error("records change the shop")
	}
	badRecords(b, s, more)
}

func badRecords(b *bench, s *store.Store, there ledger.Record) {
	_, err := s.AddRecord(b.ctx, there)
	b.faultOf(err, ledger.CodeTwice)
	bad := there
	bad.Note = "caf\xe9"
	_, err = s.PutRecord(b.ctx, bad)
	b.faultOf(err, store.CodeKeep)
	for _, id := range []string{"none", "", "\x00", "caf\xe9", "' OR 1=1 --"} {
		bad := there
		bad.ID = id
		_, err := s.PutRecord(b.ctx, bad)
		if f := b.faultOf(err, ledger.CodeNoRecord); f.Kind != fault.Missing {
			b.Errorf("the fault is of kind %d", f.Kind)
		}
		_, err = s.Record(b.ctx, id)
		b.faultOf(err, ledger.CodeNoRecord)
		_, err = s.RecordPast(b.ctx, id)
		b.faultOf(err, ledger.CodeNoRecord)
		if id != "" {
			_, err = s.Records(b.ctx, ledger.RecordQuery{After: id})
			b.faultOf(err, ledger.CodeNoRecord)
			if list := b.records(s, ledger.RecordQuery{Job: id}); len(list) > 0 {
				b.Errorf("job %q has records: %v", id, list)
			}
		}
	}
}

// anyRecords holds what is found to what a plain list gives, page by page.
func anyRecords(b *bench) {
	s, _ := b.filled()
	var all []ledger.Record
	for i := range 40 {
		r := b.aRecord(fmt.Sprintf("%02d", i*7%40), noon.Add(time.Duration(i%9)*time.Hour))
		r.Job, r.Folder = fmt.Sprint("job ", i%3), fmt.Sprint("folder ", i%2)
		all = append(all, b.addRecord(s, r))
	}
	slices.SortFunc(all, func(x, y ledger.Record) int {
		return cmp.Or(-x.Start.Compare(y.Start), -cmp.Compare(x.ID, y.ID))
	})
	queries := 0
	rapid.Check(b.T, func(t *rapid.T) {
		if queries++; queries > 60 {
			return
		}
		q := ledger.RecordQuery{
			Job:    rapid.SampledFrom([]string{"", "job 0", "job 2", "job 3"}).Draw(t, "job"),
			Folder: rapid.SampledFrom([]string{"", "folder 0", "folder 1"}).Draw(t, "folder"),
			Most:   rapid.IntRange(1, 12).Draw(t, "most"),
		}
		if rapid.Bool().Draw(t, "from") {
			q.From = noon.Add(time.Duration(rapid.IntRange(0, 9).Draw(t, "hour")) * time.Hour)
		}
		if rapid.Bool().Draw(t, "to") {
			q.To = noon.Add(time.Duration(rapid.IntRange(0, 9).Draw(t, "hour")) * time.Hour)
		}
		var want []ledger.Record
		for _, r := range all {
			if (q.Job == "" || q.Job == r.Job) && (q.Folder == "" || q.Folder == r.Folder) && (q.From.IsZero() || !r.Start.Before(q.From)) && (q.To.IsZero() || r.Start.Before(q.To)) {
				want = append(want, r)
			}
		}
		b.same(want, inPages(b.T, s, q))
	})
	if n := len(b.records(s, ledger.RecordQuery{Most: 1000})); n != len(all) {
		b.Errorf("%d of %d were found", n, len(all))
	}
	for i := range 480 {
		b.addRecord(s, b.aRecord(fmt.Sprint("more ", i), noon))
	}
	// A page of 500, and one more that tells whether there is another.
	for most, want := range map[int]int{0: 100, 500: 500, 501: 501, 10_000: 501} {
		if n := len(b.records(s, ledger.RecordQuery{Most: most})); n != want {
			b.Errorf("asked for %d, there are %d records; want %d", most, n, want)
		}
	}
}

// inPages asks for page after page until there is none.
func inPages(t *testing.T, s *store.Store, q ledger.RecordQuery) (all []ledger.Record) {
	for {
		page, err := s.Records(t.Context(), q)
		if err != nil || len(page) > q.Most {
			t.Fatalf("a page of %d records for at most %d: %v", len(page), q.Most, err)
		}
		if len(page) == 0 {
			return all
		}
		all = append(all, page...)
		q.After = page[len(page)-1].ID
	}
}
