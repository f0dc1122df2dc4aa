package desk_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

func TestRecordsOfTheFloor(t *testing.T) {
	d := kept(t)
	floor := as(t, access.Operator)
	start := shopNow(t, d).Now.Add(-3 * time.Hour)
	one, err := d.AddRecord(floor, ledger.Record{ID: "mine", Who: "somebody else", Job: "2101", Folder: "alder", Start: start})
	ok(t, err)
	if one.ID == "mine" || one.ID == "" || one.Who != "ada" || !one.At.Equal(d.Now()) || one.Version == 0 {
		t.Errorf("the record is %+v", one)
	}
	more := one
	more.Good, more.End, more.Sheets = start.Add(20*time.Minute), start.Add(2*time.Hour), 8000
	more, err = d.PutRecord(access.With(t.Context(), access.Who{Name: "ben", Role: access.Operator}), more)
	ok(t, err)
	_, err = d.PutRecord(floor, one)
	refused(t, err, fault.Conflict, ledger.CodeStale)
	got, err := d.Record(as(t, access.Viewer), one.ID)
	ok(t, err)
	if diff := cmp.Diff(more, got); diff != "" || got.Who != "ben" {
		t.Errorf("the record reads back otherwise: %s", diff)
	}
	past, err := d.RecordPast(as(t, access.Viewer), one.ID)
	ok(t, err)
	if len(past) != 2 || past[0].Who != "ben" || past[1].Who != "ada" {
		t.Errorf("its past is %+v", past)
	}
	gone, err := d.AddRecord(floor, ledger.Record{Job: "1999", Folder: "birch", Start: start.Add(time.Hour)}) // the docket is gone, the work was done
	ok(t, err)
	list, err := d.Records(as(t, access.Viewer), ledger.RecordQuery{})
	ok(t, err)
	if len(list) != 2 || list[0].ID != gone.ID || list[1].ID != one.ID {
		t.Errorf("the records are %+v", list)
	}
}

// A button that is pressed twice, on two tablets or by a finger that trembles, records one make-ready, however close the two come.
func TestAMakeReadyIsRecordedOnce(t *testing.T) {
	d := kept(t)
	begun := ledger.Record{Job: "2101", Folder: "alder", Start: shopNow(t, d).Now}
	errs := make(chan error, 4)
	for range cap(errs) {
		go func() { errs <- second(d.AddRecord(as(t, access.Operator), begun)) }()
	}
	added := 0
	for range cap(errs) {
		err := <-errs
		if err == nil {
			added++
			continue
		}
		refused(t, err, fault.Conflict, desk.CodeRecordTwice)
	}
	list, err := d.Records(as(t, access.Viewer), ledger.RecordQuery{})
	ok(t, err)
	if added != 1 || len(list) != 1 {
		t.Errorf("%d were taken, %d are kept", added, len(list))
	}
	for _, other := range []func(*ledger.Record){ // what differs is another make-ready
		func(r *ledger.Record) { r.Folder = "birch" },
		func(r *ledger.Record) { r.Job = "2102" },
		func(r *ledger.Record) { r.Start = r.Start.Add(time.Minute) },
		func(r *ledger.Record) { r.End = r.Start.Add(time.Hour) },
	} {
		r := begun
		other(&r)
		_, err := d.AddRecord(as(t, access.Operator), r)
		ok(t, err)
	}
}

func TestRecordsThatCannotBe(t *testing.T) {
	d := kept(t)
	start := shopNow(t, d).Now
	sound := ledger.Record{Job: "2101", Folder: "alder", Start: start, Good: start, End: start}
	kept, err := d.AddRecord(as(t, access.Operator), sound)
	ok(t, err)
	for what, c := range map[string]struct {
		spoil func(*ledger.Record)
		code  fault.Code
		field string
	}{
		"no job":                {func(r *ledger.Record) { r.Job = "" }, desk.CodeRecord, "job"},
		"no folder":             {func(r *ledger.Record) { r.Folder = "aldr" }, shop.CodeUnknownName, "folder"},
		"no start":              {func(r *ledger.Record) { r.Start = time.Time{} }, desk.CodeRecordTimes, "start"},
		"good before the start": {func(r *ledger.Record) { r.Good = start.Add(-time.Second) }, desk.CodeRecordTimes, "good"},
		"ended before good":     {func(r *ledger.Record) { r.Good = start.Add(time.Hour) }, desk.CodeRecordTimes, "end"},
		"ended before begun":    {func(r *ledger.Record) { r.Good, r.End = time.Time{}, start.Add(-time.Second) }, desk.CodeRecordTimes, "end"},
		"a docket with a NUL":   {func(r *ledger.Record) { r.Job = "21\x0001" }, desk.CodeRecord, "job"},
		"a docket without end":  {func(r *ledger.Record) { r.Job = strings.Repeat("1", 61) }, desk.CodeRecord, "job"},
		"a note without end":    {func(r *ledger.Record) { r.Note = strings.Repeat("no", 1001) }, desk.CodeRecord, "note"},
		"no text":               {func(r *ledger.Record) { r.Disturbed = "\xff" }, desk.CodeRecord, "disturbed"},
		"places without end":    {func(r *ledger.Record) { r.Tools = make([]ledger.AsRun, 501) }, desk.CodeRecord, "tools"},
		"a place with a bell":   {func(r *ledger.Record) { r.Plates = []ledger.AsRun{{Where: "\a"}} }, desk.CodeRecord, "plates"},
		"sheets below none":     {func(r *ledger.Record) { r.Sheets = -1 }, desk.CodeRecord, "sheets"},
	} {
		for deed, write := range map[string]func(r ledger.Record) error{
			"add": func(r ledger.Record) error { return second(d.AddRecord(as(t, access.Operator), r)) },
			"put": func(r ledger.Record) error {
				r.ID, r.Version = kept.ID, kept.Version
				return second(d.PutRecord(as(t, access.Operator), r))
			},
		} {
			r := sound
			c.spoil(&r)
			list := fault.All(write(r))
			if len(list) != 1 || list[0].Code != c.code || !strings.HasPrefix(list[0].Field, c.field) {
				t.Errorf("%s %s: got %v", deed, what, list)
			}
		}
	}
	_, err = d.AddRecord(as(t, access.Viewer), sound)
	refused(t, err, fault.Denied, access.CodeDenied)
	_, err = d.PutRecord(as(t, access.Viewer), kept)
	refused(t, err, fault.Denied, access.CodeDenied)
	_, err = d.Records(t.Context(), ledger.RecordQuery{})
	refused(t, err, fault.Denied, access.CodeDenied)
}
