package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// ofRecord is what a record of the floor is called; it is no thing of the shop.
const ofRecord ledger.Kind = "record"

// AddRecord keeps a new record and gives it with its version.
func (s *Store) AddRecord(ctx context.Context, r ledger.Record) (ledger.Record, error) {
	return s.writeRecord(ctx, r, func(tx *sql.Tx) error {
		added, err := touch(ctx, tx, `INSERT INTO floor_record (id, version, job, folder, start_ms, format, body)
			VALUES ($1, 0, '', '', 0, 0, '') ON CONFLICT (id) DO NOTHING`, plain(r.ID))
		if err == nil && added == 0 {
			err = taken(ofRecord, r.ID)
		}
		return err
	})
}

// PutRecord keeps another version of a record. The one that it was made on must be the newest; all of them stay.
func (s *Store) PutRecord(ctx context.Context, r ledger.Record) (ledger.Record, error) {
	return s.writeRecord(ctx, r, func(tx *sql.Tx) error {
		was, err := s.recordIn(ctx, tx, r.ID, clockOf(s.seen().Snapshot))
		if err == nil && was.Version != r.Version {
			err = staleRecord(was)
		}
		return err
	})
}

// writeRecord writes a version of a record once it is found that there may be one. Its number keeps all others out meanwhile.
func (s *Store) writeRecord(ctx context.Context, r ledger.Record, may func(tx *sql.Tx) error) (ledger.Record, error) {
	body, err := lasting(ofRecord, r.ID, floorOf(r))
	if err != nil {
		return ledger.Record{}, err
	}
	var serial int64
	err = s.inTurn(ctx, func(tx *sql.Tx) error {
		if serial, err = nextSerial(ctx, tx); err != nil {
			return err
		}
		if err := may(tx); err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, `UPDATE floor_record SET version = $2, job = $3, folder = $4, start_ms = $5, format = $6, body = $7 WHERE id = $1`,
			plain(r.ID), serial, plain(r.Job), plain(r.Folder), r.Start.UnixMilli(), bodyFormat, body); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, `INSERT INTO floor_record_past (id, version, format, body) VALUES ($1, $2, $3, $4)`, plain(r.ID), serial, bodyFormat, body)
		return err
	})
	if err != nil {
		return ledger.Record{}, err
	}
	r.Version = serial
	return r, nil
}

func staleRecord(was ledger.Record) error {
	return fault.Fault{
		Kind: fault.Conflict, Code: ledger.CodeStale, Field: called(ofRecord, was.ID),
		Wrong: fmt.Sprintf("since you read it, it was written anew by %s on %s", was.Who, was.At.Format("2006-01-02 15:04")),
		Right: "look at it as it is now, and change that",
	}
}

// Record reads a record as it is now.
func (s *Store) Record(ctx context.Context, id string) (ledger.Record, error) {
	zone, err := s.zone(ctx)
	if err != nil {
		return ledger.Record{}, err
	}
	return s.recordIn(ctx, s.db, id, zone)
}

func (s *Store) recordIn(ctx context.Context, a asker, id string, zone *time.Location) (ledger.Record, error) {
	row := a.QueryRowContext(ctx, `SELECT id, version, format, body FROM floor_record WHERE id = $1`, plain(id))
	r, err := s.floorReader(zone)(row)
	if errors.Is(err, sql.ErrNoRows) {
		err = noRecord(id)
	}
	return r, err
}

func noRecord(id string) error {
	return fault.Fault{Kind: fault.Missing, Code: ledger.CodeNoRecord, Field: "record", Wrong: fmt.Sprintf("there is no record %q", id), Right: "take one of the list"}
}

// floorReader reads rows of records by a clock.
func (s *Store) floorReader(zone *time.Location) func(scanner) (ledger.Record, error) {
	return func(from scanner) (ledger.Record, error) {
		var id, body string
		var version int64
		var format int
		if err := from.Scan(&id, &version, &format, &body); err != nil {
			return ledger.Record{}, err
		}
		var kept floorRecord
		if err := s.recall(ofRecord, id, format, body, &kept); err != nil {
			return ledger.Record{}, err
		}
		r := kept.value(zone)
		r.ID, r.Version = id, version
		return r, nil
	}
}

// RecordPast lists all versions of a record, the newest first.
func (s *Store) RecordPast(ctx context.Context, id string) ([]ledger.Record, error) {
	zone, err := s.zone(ctx)
	if err != nil {
		return nil, err
	}
	list, err := listed(ctx, s.db, s.floorReader(zone), `SELECT id, version, format, body FROM floor_record_past WHERE id = $1 ORDER BY version DESC`, plain(id))
	if err == nil && len(list) == 0 {
		err = noRecord(id)
	}
	return list, err
}

// Records lists records, the newest start first.
func (s *Store) Records(ctx context.Context, q ledger.RecordQuery) ([]ledger.Record, error) {
	zone, err := s.zone(ctx)
	if err != nil {
		return nil, err
	}
	var n narrowing
	if q.Job != "" {
		n.add("job = ?", plain(q.Job))
	}
	if q.Folder != "" {
		n.add("folder = ?", plain(q.Folder))
	}
	if !q.From.IsZero() {
		n.add("start_ms >= ?", q.From.UnixMilli())
	}
	if !q.To.IsZero() {
		n.add("start_ms < ?", q.To.UnixMilli())
	}
	if q.After != "" {
		last, err := s.recordIn(ctx, s.db, q.After, zone)
		if err != nil {
			return nil, err
		}
		n.add("(start_ms < ? OR start_ms = ? AND id < ?)", last.Start.UnixMilli(), last.Start.UnixMilli(), last.ID)
	}
	return listed(ctx, s.db, s.floorReader(zone), `SELECT id, version, format, body FROM floor_record`+n.where()+
		` ORDER BY start_ms DESC, id DESC LIMIT `+fmt.Sprint(pageOf(q.Most)), n.values...)
}

// narrowing is the WHERE of a query that people compose; a ? stands for the next value.
type narrowing struct {
	terms  []string
	values []any
}

func (n *narrowing) add(term string, values ...any) {
	for _, v := range values {
		n.values = append(n.values, v)
		term = strings.Replace(term, "?", fmt.Sprintf("$%d", len(n.values)), 1)
	}
	n.terms = append(n.terms, term)
}

func (n *narrowing) where() string {
	if len(n.terms) == 0 {
		return ""
	}
	return " WHERE " + strings.Join(n.terms, " AND ")
}
