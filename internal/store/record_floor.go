package store

import (
	"time"

	"foldwright/internal/ledger"
	"foldwright/internal/units"
)

type floorRecord struct {
	Who       string        `json:"who"`
	At        time.Time     `json:"at_utc"`
	Job       string        `json:"job"`
	Folder    string        `json:"folder"`
	Start     time.Time     `json:"start_utc,omitzero"`
	Good      time.Time     `json:"good_utc,omitzero"`
	End       time.Time     `json:"end_utc,omitzero"`
	Sheets    int           `json:"sheets,omitempty"`
	Plates    []asRunRecord `json:"plates,omitempty"`
	Tools     []asRunRecord `json:"tools,omitempty"`
	Planned   timeText      `json:"planned,omitempty"`
	Disturbed string        `json:"disturbed,omitempty"`
	Note      string        `json:"note,omitempty"`
}

type asRunRecord struct {
	Where string       `json:"where"`
	Set   units.Length `json:"set_nm"`
	Was   units.Length `json:"was_nm"`
}

func asRunOf(a ledger.AsRun) asRunRecord  { return asRunRecord(a) }
func (r asRunRecord) value() ledger.AsRun { return ledger.AsRun(r) }

func floorOf(r ledger.Record) floorRecord {
	return floorRecord{
		r.Who, r.At.UTC(), r.Job, r.Folder, r.Start.UTC(), r.Good.UTC(), r.End.UTC(), r.Sheets,
		each(r.Plates, asRunOf), each(r.Tools, asRunOf), timeText(r.Planned), r.Disturbed, r.Note,
	}
}

// value is the record by a clock, without id and version, which stand beside the body.
func (r floorRecord) value(zone *time.Location) ledger.Record {
	by := func(t time.Time) time.Time {
		if t.IsZero() {
			return time.Time{}
		}
		return t.In(zone)
	}
	return ledger.Record{
		Who: r.Who, At: by(r.At), Job: r.Job, Folder: r.Folder, Start: by(r.Start), Good: by(r.Good), End: by(r.End), Sheets: r.Sheets,
		Plates: each(r.Plates, asRunRecord.value), Tools: each(r.Tools, asRunRecord.value),
		Planned: time.Duration(r.Planned), Disturbed: r.Disturbed, Note: r.Note,
	}
}
