package ui

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"time"

	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// momentForm is how times are typed, by the clock of the shop.
const momentForm = "2006-01-02 15:04"

// newRecordBody lays a record out as a form.
func newRecordBody(rec ledger.Record, s *shop.Shop, say *words.Speaker) *recordBody {
	b := &recordBody{recordRow: viewRecord(rec, s)}
	when := func(t time.Time) string {
		if t.IsZero() {
			return ""
		}
		return t.Format(momentForm)
	}
	count := func(n float64) string {
		if n == 0 {
			return ""
		}
		return strconv.FormatFloat(n, 'f', -1, 64)
	}
	help := words.T("by the clock of the shop, such as 2026-03-02 06:10")
	disturbed := words.T("Then it does not count for the standard minutes. Leave it empty when all went as usual.")
	b.Fields = []recordField{
		{Name: "job", Value: b.Job, Label: words.T("Job"), Needed: true},
		{Name: "start", Value: when(b.Start), Label: words.T("Make-ready begins"), Help: &help, Needed: true},
		{Name: "good", Value: when(b.Good), Label: words.T("First good sheet")},
		{Name: "end", Value: when(b.End), Label: words.T("Run ends")},
		{Name: "sheets", Value: count(float64(b.Sheets)), Label: words.T("Sheets")},
		{Name: "planned", Value: count(b.Planned.Minutes()), Label: words.T("Planned make-ready, min")},
		{Name: "disturbed", Value: b.Disturbed, Label: words.T("Disturbed because"), Help: &disturbed},
		{Name: "note", Value: b.Note, Label: words.T("Note")},
	}
	for _, name := range s.FolderNames() {
		b.Folders = append(b.Folders, choice{name, words.Plain(name), name == b.Folder})
	}
	for i, at := range append(append([]ledger.AsRun(nil), b.Plates...), b.Tools...) {
		b.AsRun = append(b.AsRun, asRunRow{ID: fmt.Sprintf("was-%d", i), Where: at.Where, Set: say.Bare(at.Set), Was: say.Bare(at.Was), Tool: i >= len(b.Plates), set: at})
	}
	return b
}

// sentRecord reads the form of a record. What was not touched stays to the millisecond.
func (p *pages) sentRecord(r *http.Request, s *shop.Shop) (*recordBody, ledger.Record, error) {
	if err := r.ParseForm(); err != nil {
		return nil, ledger.Record{}, fault.Fault{Kind: fault.Input, Code: CodeForm, Wrong: "the form cannot be read: " + err.Error(), Right: "send it from its page"}
	}
	say, id := p.gate.Speaker(r), r.PathValue("record")
	var was ledger.Record
	if id != "" {
		var err error
		if was, err = p.desk.Record(r.Context(), id); err != nil {
			return nil, was, err
		}
		if was.Version, err = strconv.ParseInt(r.PostForm.Get("version"), 10, 64); err != nil {
			return nil, was, fault.Fault{Kind: fault.Input, Code: CodeForm, Wrong: "the form does not say which version of the record it was made of", Right: "open it again"}
		}
	}
	b := newRecordBody(was, s, say)
	b.New = id == ""
	read := &recordReader{b: b, r: r, zone: s.Zone, say: say}
	rec := read.record(was)
	b.Record.Folder = rec.Folder
	for i := range b.Folders {
		b.Folders[i].Chosen = b.Folders[i].Value == rec.Folder
	}
	return b, rec, nil
}

// recordReader reads the fields of a sent record, each into what it means.
type recordReader struct {
	b    *recordBody
	r    *http.Request
	zone *time.Location
	say  *words.Speaker
}

func (x *recordReader) record(was ledger.Record) ledger.Record {
	rec := was
	rec.Folder = x.r.PostForm.Get("folder")
	for i := range x.b.Fields {
		f := &x.b.Fields[i]
		before := f.Value
		f.Value = strings.TrimSpace(x.r.PostForm.Get(f.Name))
		same := f.Value == before && !x.b.New
		switch f.Name {
		case "job":
			rec.Job = f.Value
		case "disturbed":
			rec.Disturbed = f.Value
		case "note":
			rec.Note = f.Value
		case "start":
			rec.Start = x.moment(f, same, was.Start)
		case "good":
			rec.Good = x.moment(f, same, was.Good)
		case "end":
			rec.End = x.moment(f, same, was.End)
		case "sheets":
			n, err := sheetsTyped(f.Value)
			x.b.Faults = append(x.b.Faults, fault.All(err)...)
			rec.Sheets = n
		case "planned":
			if !same {
				rec.Planned = x.minutes(f)
			}
		}
	}
	x.asRun(&rec)
	return rec
}

func (x *recordReader) moment(f *recordField, same bool, was time.Time) time.Time {
	if same || f.Value == "" {
		if f.Value == "" {
			return time.Time{}
		}
		return was
	}
	for _, form := range []string{momentForm, "2006-01-02T15:04", time.DateTime} {
		if t, err := time.ParseInLocation(form, f.Value, x.zone); err == nil {
			return t
		}
	}
	x.b.Faults.Add(fault.Fault{Kind: fault.Input, Code: desk.CodeRecordTimes, Field: f.Name, Wrong: fmt.Sprintf("%q is no time", clipped(f.Value)), Right: "day and time, such as 2026-03-02 06:10"})
	return was
}

func (x *recordReader) minutes(f *recordField) time.Duration {
	if f.Value == "" {
		return 0
	}
	n, err := strconv.ParseFloat(strings.ReplaceAll(f.Value, ",", "."), 64)
	if err != nil || !(n >= 0 && n <= 10_000) {
		x.b.Faults.Add(fault.Fault{Kind: fault.Input, Code: desk.CodeRecord, Field: f.Name, Wrong: fmt.Sprintf("%q are no minutes", clipped(f.Value)), Right: "a number of minutes, such as 22.5"})
		return 0
	}
	return time.Duration(n * float64(time.Minute)).Round(time.Second)
}

// asRun reads the places. A blank takes one away.
func (x *recordReader) asRun(rec *ledger.Record) {
	rec.Plates, rec.Tools = nil, nil
	bare := units.Millimetre
	if x.say.Inch {
		bare = units.Inch
	}
	for i := range x.b.AsRun {
		row := &x.b.AsRun[i]
		text := strings.TrimSpace(x.r.PostForm.Get(row.ID))
		if text == "" {
			continue
		}
		if text != row.Was {
			row.Was = text
			was, err := units.ParseLength(text, bare)
			for _, f := range fault.All(err) {
				f.Field = row.Where
				x.b.Faults.Add(f)
			}
			row.set.Was = was
		}
		if row.Tool {
			rec.Tools = append(rec.Tools, row.set)
		} else {
			rec.Plates = append(rec.Plates, row.set)
		}
	}
}

// lay puts the faults to their fields.
func (b *recordBody) lay() {
	for _, x := range b.Faults {
		for i := range b.Fields {
			if b.Fields[i].Name == x.Field {
				b.Fields[i].Faults.Add(x)
			}
		}
	}
}
