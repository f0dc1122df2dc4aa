package ui

import (
	"fmt"
	"net/http"
	"regexp"
	"strconv"
	"strings"

	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// floorBegin says that the make-ready of a job begins now, by the clock of the shop. Who presses after somebody else is told so.
func (p *pages) floorBegin(w http.ResponseWriter, r *http.Request) error {
	b, err := p.floorBody(r)
	if err != nil {
		return err
	}
	if b.Record != nil {
		return p.done(w, r, b.Page, 0, words.T("%s began it already.", b.Record.Who))
	}
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	_, err = p.desk.AddRecord(r.Context(), ledger.Record{Job: b.Name, Folder: b.Folder, Start: p.clock(s), Planned: b.Task.Makeready})
	if isTwice(err) { // by a tap before this one, or on another screen
		return p.done(w, r, b.Page, 0, words.T("The make-ready of %s has begun.", b.Name))
	}
	if err != nil {
		return err
	}
	return p.done(w, r, b.Page, 0, words.T("The make-ready of %s has begun.", b.Name))
}

// isTwice says whether what should be recorded is recorded already.
func isTwice(err error) bool {
	faults := fault.All(err)
	return len(faults) == 1 && faults[0].Code == desk.CodeRecordTwice
}

// openRecord is the record that a form of the floor was made of, in the version that was seen.
func openRecord(r *http.Request, b *floorBody) (ledger.Record, error) {
	version, err := strconv.ParseInt(r.FormValue("version"), 10, 64)
	if err != nil || r.FormValue("record") == "" {
		return ledger.Record{}, fault.Fault{Kind: fault.Input, Code: CodeForm, Wrong: "the form does not say which record it is about", Right: "open the page of the job again"}
	}
	switch {
	case b.Record == nil || b.Record.ID != r.FormValue("record"):
		return ledger.Record{}, stale("this record was ended or corrected meanwhile")
	case b.Record.Version != version:
		return ledger.Record{}, stale(fmt.Sprintf("%s told of this record meanwhile", b.Record.Who))
	}
	return b.Record.Record, nil
}

func stale(wrong string) fault.Fault {
	return fault.Fault{Kind: fault.Conflict, Code: ledger.CodeStale, Field: "record", Wrong: wrong, Right: "look at how it stands now, then go on"}
}

// told keeps a change of the open record, and shows the page as it is now when somebody was first.
func (p *pages) told(w http.ResponseWriter, r *http.Request, change func(b *floorBody, rec *ledger.Record) error) (b *floorBody, answered bool, err error) {
	if b, err = p.floorBody(r); err != nil {
		return nil, false, err
	}
	rec, err := openRecord(r, b)
	if err == nil {
		err = change(b, &rec)
	}
	if err == nil {
		_, err = p.desk.PutRecord(r.Context(), rec)
	}
	if err == nil {
		return b, false, nil
	}
	found := fault.All(err)
	switch {
	case len(found) == 0 || found[0].Kind == fault.Denied || found[0].Kind == fault.Missing:
		return nil, false, err
	case found[0].Kind == fault.Conflict:
		now, err := p.floorBody(r)
		if err != nil {
			return nil, false, err
		}
		now.Stale = found
		return now, true, p.showFloor(w, r, now, http.StatusConflict)
	}
	b.Wrong = found
	b.keepTyped(r)
	return b, true, p.showFloor(w, r, b, http.StatusUnprocessableEntity)
}

// floorGood says that the first good sheet came: the make-ready ends, and the shop learns that the job runs.
func (p *pages) floorGood(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	b, answered, err := p.told(w, r, func(_ *floorBody, rec *ledger.Record) error {
		rec.Good = p.clock(s)
		return nil
	})
	if answered || err != nil {
		return err
	}
	if b.Started || b.Done {
		return p.done(w, r, b.Page, 0, words.T("The first good sheet is noted."))
	}
	t, err := p.desk.Start(r.Context(), b.Name, b.Folder)
	return p.afterTold(w, r, b, t, err, words.T("%s runs on %s.", b.Name, b.Folder))
}

// floorEnd says that the run ended, and, unless it goes on later, that the job is done.
func (p *pages) floorEnd(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	b, answered, err := p.told(w, r, func(_ *floorBody, rec *ledger.Record) error {
		sheets, err := sheetsTyped(r.FormValue("sheets"))
		rec.Sheets, rec.End = sheets, p.clock(s)
		return err
	})
	if answered || err != nil {
		return err
	}
	if b.Done || r.FormValue("all") == "" {
		return p.done(w, r, b.Page, 0, words.T("The end of the run is noted."))
	}
	t, err := p.desk.Finish(r.Context(), b.Name, b.Folder)
	return p.afterTold(w, r, b, t, err, words.T("%s is finished on %s.", b.Name, b.Folder))
}

// afterTold goes on when the shop took what the record says; else the page tells why it did not. The record is kept either way.
func (p *pages) afterTold(w http.ResponseWriter, r *http.Request, b *floorBody, t desk.Thing, err error, what words.Text) error {
	found := fault.All(err)
	switch {
	case err == nil:
		return p.done(w, r, b.Page, t.Version, what)
	case len(found) == 0:
		return err
	}
	now, err := p.floorBody(r)
	if err != nil {
		return err
	}
	now.Refused = found
	return p.showFloor(w, r, now, http.StatusConflict)
}

// floorNote keeps what else is told of a make-ready and a run.
func (p *pages) floorNote(w http.ResponseWriter, r *http.Request) error {
	b, answered, err := p.told(w, r, func(b *floorBody, rec *ledger.Record) error {
		rec.Disturbed, rec.Note = strings.TrimSpace(r.FormValue("disturbed")), strings.TrimSpace(r.FormValue("note"))
		return p.asRunTyped(r, b, rec)
	})
	if answered || err != nil {
		return err
	}
	return p.done(w, r, b.Page, 0, words.T("Noted."))
}

// asRunTyped takes what the places really were. A place that is as it was set is not told, unless it was told before.
func (p *pages) asRunTyped(r *http.Request, b *floorBody, rec *ledger.Record) error {
	say, list := p.gate.Speaker(r), fault.List(nil)
	bare := units.Millimetre
	if say.Inch {
		bare = units.Inch
	}
	rec.Plates, rec.Tools = nil, nil
	for i, at := range b.places() {
		text := strings.TrimSpace(r.FormValue(b.AsRun[i].ID))
		if text == "" || text == b.AsRun[i].Set {
			continue
		}
		was, err := units.ParseLength(text, bare)
		if err != nil {
			for _, f := range fault.All(err) {
				f.Field = at.Where
				list.Add(f)
			}
			continue
		}
		at.Was = was
		if at.Stop {
			rec.Plates = append(rec.Plates, at.AsRun)
		} else {
			rec.Tools = append(rec.Tools, at.AsRun)
		}
	}
	return list.Err()
}

// keepTyped leaves in the fields what was typed.
func (b *floorBody) keepTyped(r *http.Request) {
	for i := range b.AsRun {
		if v := r.FormValue(b.AsRun[i].ID); v != "" {
			b.AsRun[i].Was = v
		}
	}
	if b.Record != nil && r.FormValue("record") != "" && r.Form.Has("note") {
		b.Record.Disturbed, b.Record.Note = r.FormValue("disturbed"), r.FormValue("note")
	}
}

// sheetsMost is more than any run; what is typed beyond is a slip.
const sheetsMost = 100_000_000

// sheetsForm is figures, or figures in groups of three.
var sheetsForm = regexp.MustCompile(`^(\d+|\d{1,3}(?:[ .,'\x{a0}\x{202f}]\d{3})+)$`)

var notFigures = regexp.MustCompile(`\D`)

// sheetsTyped reads a number of sheets; nothing is 0.
func sheetsTyped(text string) (int, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(notFigures.ReplaceAllString(text, ""))
	if err != nil || !sheetsForm.MatchString(text) || n > sheetsMost {
		return 0, fault.Fault{Kind: fault.Input, Code: desk.CodeRecord, Field: "sheets", Wrong: fmt.Sprintf("%q is no number of sheets", clipped(text)), Right: "figures, such as 13000"}
	}
	return n, nil
}

// clipped is as much of a text as a message has room for.
func clipped(text string) string {
	if r := []rune(text); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return text
}
