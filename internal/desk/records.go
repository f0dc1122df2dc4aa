package desk

import (
	"context"
	"fmt"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/calendar"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// The codes of records.
const (
	CodeRecordTimes fault.Code = "record-times"
	CodeRecord      fault.Code = "record"
	CodeRecordTwice fault.Code = "record-twice"
)

// Records lists what the floor recorded, the newest start first.
func (d *Desk) Records(ctx context.Context, q ledger.RecordQuery) ([]ledger.Record, error) {
	if err := access.From(ctx).May(access.See); err != nil {
		return nil, err
	}
	return d.Books.Records(ctx, q)
}

// Record returns one record.
func (d *Desk) Record(ctx context.Context, id string) (ledger.Record, error) {
	if err := access.From(ctx).May(access.See); err != nil {
		return ledger.Record{}, err
	}
	return d.Books.Record(ctx, id)
}

// RecordPast lists every version of a record, the newest first.
func (d *Desk) RecordPast(ctx context.Context, id string) ([]ledger.Record, error) {
	if err := access.From(ctx).May(access.See); err != nil {
		return nil, err
	}
	return d.Books.RecordPast(ctx, id)
}

// AddRecord writes a new record down, under the asker's name. Two screens, or a finger that taps twice, tell of one make-ready: the second is a
// conflict.
func (d *Desk) AddRecord(ctx context.Context, r ledger.Record) (ledger.Record, error) {
	if err := access.From(ctx).May(access.Record); err != nil {
		return ledger.Record{}, err
	}
	if err := d.checkRecord(ctx, r); err != nil {
		return ledger.Record{}, err
	}
	d.recording.Lock()
	defer d.recording.Unlock()
	if err := d.recordedAlready(ctx, r); err != nil {
		return ledger.Record{}, err
	}
	r.ID, r.Who, r.At = d.newID(), access.From(ctx).String(), d.Now().Truncate(time.Millisecond)
	return d.Books.AddRecord(ctx, r)
}

// sameStart is how near each other two starts of one job on one folder are one start.
const sameStart = time.Minute

// recordedAlready says no to a record of what another one tells of: the same job on the same folder, begun at the same time, and both not
// ended or ended at the same time.
func (d *Desk) recordedAlready(ctx context.Context, r ledger.Record) error {
	list, err := d.Books.Records(ctx, ledger.RecordQuery{Job: r.Job, Folder: r.Folder, From: r.Start.Add(time.Millisecond - sameStart), To: r.Start.Add(sameStart)})
	for _, o := range list {
		if o.End.Equal(r.End) {
			return fault.Fault{Kind: fault.Conflict, Code: CodeRecordTwice, Field: "record", Wrong: fmt.Sprintf("%s recorded this make-ready of %s on %s already", o.Who, o.Job, o.Folder), Right: "go on with that record"}
		}
	}
	return err
}

// PutRecord corrects a record, or completes it; a version that is no longer the one kept is a conflict.
func (d *Desk) PutRecord(ctx context.Context, r ledger.Record) (ledger.Record, error) {
	if err := access.From(ctx).May(access.Record); err != nil {
		return ledger.Record{}, err
	}
	if err := d.checkRecord(ctx, r); err != nil {
		return ledger.Record{}, err
	}
	r.Who, r.At = access.From(ctx).String(), d.Now().Truncate(time.Millisecond)
	return d.Books.PutRecord(ctx, r)
}

// checkRecord holds a record to what can be. The job may be gone from the shop: records outlive dockets.
func (d *Desk) checkRecord(ctx context.Context, r ledger.Record) error {
	s, err := d.Shop(ctx)
	if err != nil {
		return err
	}
	var list fault.List
	if _, err := folderNamed(s, r.Folder); err != nil {
		list = append(list, fault.All(err)...)
	}
	list = append(list, recordTexts(r)...)
	if r.Start.IsZero() {
		list.Add(fault.Fault{Kind: fault.Input, Code: CodeRecordTimes, Field: "start", Wrong: "the make-ready has no start", Right: "when it began"})
	}
	ordered := func(field string, before, after time.Time) {
		if !after.IsZero() && after.Before(before) {
			list.Add(fault.Fault{Kind: fault.Input, Code: CodeRecordTimes, Field: field, Wrong: fmt.Sprintf("%s, before %s", after.Format(time.DateTime), before.Format(time.DateTime)), Right: "a time after that"})
		}
	}
	ordered("good", r.Start, r.Good)
	ordered("end", calendar.Later(r.Start, r.Good), r.End)
	if r.Sheets < 0 {
		list.Add(fault.Fault{Kind: fault.Input, Code: CodeRecord, Field: "sheets", Wrong: fmt.Sprintf("%d sheets", r.Sheets), Right: "0 or more"})
	}
	return list.Err()
}
