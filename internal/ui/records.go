package ui

import (
	"net/http"
	"net/url"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

func (p *pages) recordsRoutes() []route {
	return []route{
		{pattern: "GET /records", serve: p.records, deed: access.See, call: "list-records"},
		{pattern: "GET /records/new", serve: p.recordNew, deed: access.Record, call: "list-records"},
		{pattern: "POST /records/new", serve: p.recordSent, deed: access.Record, call: "add-record"},
		{pattern: "GET /records/{record}", serve: p.record, deed: access.See, call: "get-record"},
		{pattern: "POST /records/{record}", serve: p.recordSent, deed: access.Record, call: "put-record"},
	}
}

// recordRow is a record by the clock of the shop.
type recordRow struct {
	ledger.Record
	Page, JobPage string
}

// Ready is how long the make-ready took.
func (x *recordRow) Ready() time.Duration {
	if x.Good.IsZero() {
		return 0
	}
	return x.Good.Sub(x.Start)
}

// Ran is how long the run took, with all its stops.
func (x *recordRow) Ran() time.Duration {
	if x.End.IsZero() || x.Good.IsZero() {
		return 0
	}
	return x.End.Sub(x.Good)
}

// Over is how much longer the make-ready took than planned; less than nothing: shorter.
func (x *recordRow) Over() time.Duration { return x.Ready() - x.Planned }

// recordsBody is the list of records.
type recordsBody struct {
	Rows          []recordRow
	Job, From, To string
	Folders       []choice
	Older         string
	Filtered      bool
	Wrong         fault.List
}

// recordsShown is how many records a page of the list has.
const recordsShown = 50

func (p *pages) records(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	b := &recordsBody{Job: r.FormValue("job"), From: r.FormValue("from"), To: r.FormValue("to")}
	folder := r.FormValue("folder")
	b.Folders = []choice{{"", words.T("all folders"), folder == ""}}
	for _, name := range s.FolderNames() {
		b.Folders = append(b.Folders, choice{name, words.Plain(name), name == folder})
	}
	b.Filtered = b.Job+b.From+b.To+folder != ""
	q := ledger.RecordQuery{Job: b.Job, Folder: folder, After: r.FormValue("after"), Most: recordsShown}
	q.From = b.day("from", b.From, s, 0)
	q.To = b.day("to", b.To, s, 1)
	if b.Rows, err = p.recordsOf(r, s, q); err != nil {
		return err
	}
	if n := len(b.Rows); n == recordsShown {
		b.Older = "/records?" + url.Values{"job": {b.Job}, "folder": {folder}, "from": {b.From}, "to": {b.To}, "after": {b.Rows[n-1].ID}}.Encode()
	}
	status := http.StatusOK
	if len(b.Wrong) > 0 {
		status = http.StatusUnprocessableEntity
	}
	return p.show(w, r, page{name: "records", title: words.T("Records"), body: b, status: status})
}

// day reads a day of the shop, or so many days after it.
func (b *recordsBody) day(field, text string, s *shop.Shop, after int) time.Time {
	if text == "" {
		return time.Time{}
	}
	t, err := time.ParseInLocation(time.DateOnly, text, s.Zone)
	if err != nil {
		b.Wrong.Add(fault.Fault{Kind: fault.Input, Code: CodeForm, Field: field, Wrong: clipped(text) + " is no day", Right: "a day such as 2026-03-02"})
		return time.Time{}
	}
	return t.AddDate(0, 0, after)
}

// recordsOf reads records.
func (p *pages) recordsOf(r *http.Request, s *shop.Shop, q ledger.RecordQuery) ([]recordRow, error) {
	list, err := p.desk.Records(r.Context(), q)
	if err != nil {
		return nil, err
	}
	rows := make([]recordRow, len(list))
	for i, rec := range list {
		rows[i] = viewRecord(rec, s)
	}
	return rows, nil
}

func viewRecord(rec ledger.Record, s *shop.Shop) recordRow {
	for _, t := range []*time.Time{&rec.At, &rec.Start, &rec.Good, &rec.End} {
		if !t.IsZero() {
			*t = t.In(s.Zone)
		}
	}
	row := recordRow{Record: rec, Page: "/records/" + url.PathEscape(rec.ID)}
	if _, there := s.Job(rec.Job); there {
		row.JobPage = jobPath(rec.Job)
	}
	return row
}

// recordBody is one record: the form that corrects it, and how it was before.
type recordBody struct {
	recordRow
	New     bool
	Fields  []recordField
	AsRun   []asRunRow
	Faults  fault.List
	Past    []recordRow
	Stale   bool
	Folders []choice
}

// recordField is a field of the form of a record.
type recordField struct {
	Name, Value string
	Label       words.Text
	Help        *words.Text
	Needed      bool
	Faults      fault.List
}

// asRunRow is a place as run, to be corrected; a blank takes it away.
type asRunRow struct {
	ID, Where, Set, Was string
	Tool                bool
	set                 ledger.AsRun
}

func (p *pages) record(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	rec, err := p.desk.Record(r.Context(), r.PathValue("record"))
	if err != nil {
		return err
	}
	return p.showRecord(w, r, s, newRecordBody(rec, s, p.gate.Speaker(r)))
}

// recordNew is the form for what was told on paper.
func (p *pages) recordNew(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	rec := ledger.Record{Job: r.FormValue("job"), Start: p.clock(s)}
	if j, ok := s.Job(rec.Job); ok {
		rec.Folder = j.Given
	}
	b := newRecordBody(rec, s, p.gate.Speaker(r))
	b.New = true
	return p.showRecord(w, r, s, b)
}

func (p *pages) showRecord(w http.ResponseWriter, r *http.Request, s *shop.Shop, b *recordBody) error {
	title, status := words.T("Record of %s", b.Job), http.StatusOK
	if b.New {
		title = words.T("New record")
	} else {
		past, err := p.desk.RecordPast(r.Context(), b.ID)
		if err != nil {
			return err
		}
		for _, old := range past {
			b.Past = append(b.Past, viewRecord(old, s))
		}
	}
	switch {
	case b.Stale:
		status = http.StatusConflict
	case len(b.Faults) > 0:
		status = http.StatusUnprocessableEntity
	}
	return p.show(w, r, page{name: "record", title: title, body: b, status: status})
}

// recordSent takes a corrected record.
func (p *pages) recordSent(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	b, rec, err := p.sentRecord(r, s)
	if err != nil {
		return err
	}
	if len(b.Faults) == 0 {
		if b.New {
			rec, err = p.desk.AddRecord(r.Context(), rec)
		} else {
			rec, err = p.desk.PutRecord(r.Context(), rec)
		}
		if err == nil {
			return p.done(w, r, "/records/"+url.PathEscape(rec.ID), 0, words.T("The record of %s is kept.", rec.Job))
		}
		if b.Faults = fault.All(err); len(b.Faults) == 0 || b.Faults[0].Kind == fault.Denied {
			return err
		}
	}
	b.lay()
	if b.Stale = b.Faults[0].Kind == fault.Conflict; b.Stale { // whoever saves again has seen it
		now, err := p.desk.Record(r.Context(), b.ID)
		if err != nil {
			return err
		}
		b.Version = now.Version
	}
	return p.showRecord(w, r, s, b)
}
