package ui

import (
	"context"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// onFloor sends the buttons of the floor as an operator would, with what the page holds of the open record.
type onFloor struct {
	t *testing.T
	h http.Handler
	d *desk.Desk
}

func (f onFloor) ctx() context.Context {
	return access.With(f.t.Context(), access.Who{Name: "ada", Role: access.Operator})
}

func (f onFloor) page(job string) string {
	f.t.Helper()
	return ask(f.t, f.h, asked{role: access.Operator, target: "/floor/jobs/" + job}).Body.String()
}

var hiddenRecord = regexp.MustCompile(`name="record" value="([^"]*)"><input type="hidden" name="version" value="(\d+)"><input type="hidden" name="folder" value="([^"]*)"`)

// press sends a button, with what a page showed and what was typed.
func (f onFloor) press(job, button, seen string, typed url.Values) *httptest.ResponseRecorder {
	f.t.Helper()
	form := url.Values{}
	if found := hiddenRecord.FindStringSubmatch(seen); found != nil {
		form = url.Values{"record": {found[1]}, "version": {found[2]}, "folder": {found[3]}}
	}
	for k, v := range typed {
		form[k] = v
	}
	return ask(f.t, f.h, asked{role: access.Operator, method: http.MethodPost, target: "/floor/jobs/" + job + "/" + button, form: form})
}

func (f onFloor) records(job string) []ledger.Record {
	f.t.Helper()
	list, err := f.d.Records(f.ctx(), ledger.RecordQuery{Job: job})
	if err != nil {
		f.t.Fatal(err)
	}
	return list
}

// Goal: three buttons make a record, the shop learns that the job runs and is done, and the times are those of the clock.
func TestFloorButtons(t *testing.T) {
	h, d := kept(t, speaking{lang: words.English})
	f := onFloor{t, h, d}
	now := d.Now()
	if w := f.press("2101", "begin", f.page("2101"), nil); w.Code != http.StatusSeeOther {
		t.Fatalf("begin gives %d\n%.400s", w.Code, w.Body)
	}
	f.press("2101", "begin", f.page("2101"), nil) // twice says nothing twice
	if all := f.records("2101"); len(all) != 1 || !all[0].Start.Equal(now) || all[0].Folder != "alder" || all[0].Planned <= 0 {
		t.Fatalf("records: %+v", all)
	}
	seen := f.page("2101")
	w := f.press("2101", "note", seen, url.Values{"was-1": {"430.4"}, "was-0": {""}, "disturbed": {" called away "}, "note": {"<b>bold</b>"}})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("note gives %d\n%.400s", w.Code, w.Body)
	}
	rec := f.records("2101")[0]
	if len(rec.Plates) != 1 || rec.Plates[0] != (ledger.AsRun{Where: "unit 1 plate 1", Set: 430 * units.Millimetre, Was: units.MM(430.4)}) || len(rec.Tools) != 0 || rec.Disturbed != "called away" {
		t.Errorf("as run: %+v", rec)
	}
	if w := f.press("2101", "good", seen, nil); w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "Somebody else told first") {
		t.Errorf("an older version gives %d", w.Code)
	}
	if w := f.press("2101", "good", seen, url.Values{"record": {"another"}}); w.Code != http.StatusConflict {
		t.Errorf("the record of another gives %d", w.Code)
	}
	if w := f.press("2101", "good", "", nil); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("no record at all gives %d", w.Code)
	}
	seen = f.page("2101")
	if strings.Contains(seen, "<b>bold") || !strings.Contains(seen, `value="430.4"`) {
		t.Error("the note or the place is not shown as it was typed")
	}
	f.press("2101", "good", seen, nil)
	running, err := d.Thing(f.ctx(), ledger.OfJob, "2101")
	if err != nil || !running.Value.(job.Job).Pin.Started {
		t.Fatalf("the job does not run: %+v, %v", running, err)
	}
	if w := f.press("2101", "end", f.page("2101"), url.Values{"sheets": {"lots"}, "all": {"yes"}}); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("lots of sheets give %d", w.Code)
	}
	f.press("2101", "end", f.page("2101"), url.Values{"sheets": {"12.950"}, "all": {"yes"}})
	if rec := f.records("2101")[0]; rec.Sheets != 12950 || !rec.End.Equal(now) || !rec.Good.Equal(now) || rec.Disturbed == "" {
		t.Errorf("at the end: %+v", rec)
	}
	if _, err := d.Thing(f.ctx(), ledger.OfDone, "2101"); err != nil {
		t.Errorf("the job is not done: %v", err)
	}
	shown(t, ask(t, h, asked{role: access.Viewer, target: "/floor/jobs/2101"}), http.StatusOK, []string{"done", "Earlier records of this job"}, []string{"/begin"})
}

// Goal: what the shop cannot take over does not cost the record. A folder runs one job at a time.
func TestFloorKeepsTheRecordWhenTheShopRefuses(t *testing.T) {
	h, d := kept(t, speaking{lang: words.English})
	f := onFloor{t, h, d}
	if _, err := d.Start(f.ctx(), "2105", "alder"); err != nil {
		t.Fatal(err)
	}
	f.press("2101", "begin", f.page("2101"), nil)
	w := f.press("2101", "good", f.page("2101"), nil)
	shown(t, w, http.StatusConflict, []string{"The record is kept, but the shop could not take it over", "job 2105 runs on alder"}, nil)
	if rec := f.records("2101")[0]; rec.Good.IsZero() {
		t.Error("the first good sheet is lost")
	}
}

// Goal: a run that goes on another day ends without the job being done.
func TestFloorEndsARunButNotTheJob(t *testing.T) {
	h, d := kept(t, speaking{lang: words.English})
	f := onFloor{t, h, d}
	f.press("2101", "begin", f.page("2101"), nil)
	f.press("2101", "good", f.page("2101"), nil)
	f.press("2101", "end", f.page("2101"), url.Values{"sheets": {"4000"}})
	if _, err := d.Thing(f.ctx(), ledger.OfJob, "2101"); err != nil {
		t.Errorf("the job is gone: %v", err)
	}
	if rec := f.records("2101")[0]; rec.Sheets != 4000 || rec.End.IsZero() {
		t.Errorf("%+v", rec)
	}
}

// Goal: in inches the places are typed in inches, and one that nobody touched is not told of.
func TestFloorInInches(t *testing.T) {
	h, d := kept(t, speaking{lang: words.German, inch: true})
	f := onFloor{t, h, d}
	f.press("2101", "begin", f.page("2101"), nil)
	form, page := url.Values{}, f.page("2101")
	for _, in := range regexp.MustCompile(`<input id="(was-\d+)" name="was-\d+" value="([^"]*)"`).FindAllStringSubmatch(page, -1) {
		form.Set(in[1], in[2])
	}
	if len(form) < 4 {
		t.Fatalf("the page asks for %d places", len(form))
	}
	form.Set("was-1", "17")
	f.press("2101", "note", page, form)
	rec := f.records("2101")[0]
	if len(rec.Plates) != 1 || len(rec.Tools) != 0 || rec.Plates[0].Was != 17*units.Inch {
		t.Errorf("told: %+v %+v", rec.Plates, rec.Tools)
	}
}

// Records are filtered, added from paper and corrected; what was not touched stays as it was.
func TestRecords(t *testing.T) {
	h, d := kept(t, speaking{lang: words.English})
	f := onFloor{t, h, d}
	zone := d.Now().Location()
	start := time.Date(2026, 3, 1, 14, 2, 3, 4e6, zone)
	rec, err := d.AddRecord(f.ctx(), ledger.Record{
		Job: "2101", Folder: "alder", Start: start, Good: start.Add(21 * time.Minute), Planned: 25 * time.Minute,
		Plates: []ledger.AsRun{{Where: "unit 1 plate 1", Set: 430 * units.Millimetre, Was: units.MM(430.44)}},
	})
	if err != nil {
		t.Fatal(err)
	}
	for target, there := range map[string]bool{
		"/records": true, "/records?folder=alder": true, "/records?folder=birch": false, "/records?job=2101": true, "/records?job=2102": false,
		"/records?from=2026-03-01&to=2026-03-01": true, "/records?from=2026-03-02": false, "/records?to=2026-02-28": false,
	} {
		w := ask(t, h, asked{role: access.Viewer, target: target})
		if has := strings.Contains(w.Body.String(), "/records/"+rec.ID); w.Code != 200 || has != there {
			t.Errorf("%s: %d, the record is there: %t, want %t", target, w.Code, has, there)
		}
	}
	shown(t, ask(t, h, asked{role: access.Viewer, target: "/records?from=soon"}), http.StatusUnprocessableEntity, []string{"is no day"}, nil)

	at := "/records/" + rec.ID
	form := fieldsOf(t, ask(t, h, asked{role: access.Operator, target: at}))
	form.Set("sheets", "900")
	if w := ask(t, h, asked{role: access.Operator, method: http.MethodPost, target: at, form: form}); w.Code != http.StatusSeeOther {
		t.Fatalf("correcting gives %d\n%.500s", w.Code, w.Body)
	}
	got := f.records("2101")[0]
	if got.Sheets != 900 || !got.Start.Equal(start) || got.Planned != rec.Planned || len(got.Plates) != 1 || got.Plates[0] != rec.Plates[0] {
		t.Errorf("corrected is %+v, before %+v", got, rec)
	}
	w := ask(t, h, asked{role: access.Operator, method: http.MethodPost, target: at, form: form})
	shown(t, w, http.StatusConflict, []string{"Somebody else changed it first"}, nil)
	form.Set("end", "2026-03-01 13:00")
	form.Set("version", fieldsOf(t, w).Get("version"))
	shown(t, ask(t, h, asked{role: access.Operator, method: http.MethodPost, target: at, form: form}), http.StatusUnprocessableEntity, []string{`id="r-end-fault"`}, nil)
	if w := ask(t, h, asked{role: access.Viewer, method: http.MethodPost, target: at, form: form}); w.Code != http.StatusForbidden {
		t.Errorf("a viewer gets %d", w.Code)
	}

	form = fieldsOf(t, ask(t, h, asked{role: access.Operator, target: "/records/new?job=2102"}))
	if form.Get("folder") != "birch" || form.Get("job") != "2102" {
		t.Errorf("a record from paper begins with %v", form)
	}
	w = ask(t, h, asked{role: access.Operator, method: http.MethodPost, target: "/records/new", form: form})
	if w.Code != http.StatusSeeOther || len(f.records("2102")) != 1 {
		t.Errorf("adding gives %d\n%.400s", w.Code, w.Body)
	}
}

func TestSheetsTyped(t *testing.T) {
	for text, want := range map[string]int{
		"": 0, " 13000 ": 13000, "13 000": 13000, "13.000": 13000, "1,300,000": 1300000, "13\u202f000": 13000, "0": 0,
		"12.5": -1, "13.00": -1, "1300.000": -1, "lots": -1, "-3": -1, "1e9": -1, strings.Repeat("9", 50): -1, "٣٠٠": -1,
	} {
		got, err := sheetsTyped(text)
		if (err != nil) != (want < 0) || err == nil && got != want {
			t.Errorf("%q reads %d, %v; want %d", text, got, err, want)
		}
	}
}
