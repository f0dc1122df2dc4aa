package store

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"time"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// lasting makes the body of something that is kept beside the shop. As with things of the shop, what would read back as
// something else is refused.
func lasting[R any](what ledger.Kind, name string, record R) (string, error) {
	body, err := json.Marshal(record)
	var back R
	if err == nil {
		err = strictly(body, &back)
	}
	if err != nil {
		return "", notKeepable(what, name, err.Error())
	}
	if again, err := json.Marshal(back); err != nil || !bytes.Equal(body, again) {
		return "", notKeepable(what, name, "it holds signs that are no letters")
	}
	return string(body), nil
}

// recall reads such a body.
func (s *Store) recall(what ledger.Kind, name string, format int, body string, into any) error {
	if format > bodyFormat {
		return s.newer(what, name)
	}
	if err := strictly([]byte(body), into); err != nil {
		return s.damaged(fmt.Sprintf("%s cannot be read: %v", called(what, name), err))
	}
	return nil
}

func (s *Store) newer(what ledger.Kind, name string) error {
	return fault.Fault{Kind: fault.Input, Code: CodeNewer, File: s.where, Wrong: called(what, name) + " was written by a newer foldwright", Right: "use the newer one"}
}

// strictly reads one JSON value; a field that is not known would be lost at the next writing.
func strictly(body []byte, into any) error {
	d := json.NewDecoder(bytes.NewReader(body))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		return err
	}
	if _, err := d.Token(); err != io.EOF {
		return fmt.Errorf("more than one value")
	}
	return nil
}

// scanner is a row, or the rows of a query.
type scanner interface{ Scan(into ...any) error }

// listed reads all rows of a query.
func listed[T any](ctx context.Context, a asker, read func(scanner) (T, error), query string, args ...any) ([]T, error) {
	found, err := a.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer found.Close()
	var list []T
	for found.Next() {
		one, err := read(found)
		if err != nil {
			return nil, err
		}
		list = append(list, one)
	}
	return list, found.Err()
}

// zone is the clock of the shop as it is now.
func (s *Store) zone(ctx context.Context) (*time.Location, error) {
	now, err := s.Snapshot(ctx)
	if err != nil {
		return nil, err
	}
	return clockOf(now), nil
}

// clockOf is the clock of a shop that may not be there yet.
func clockOf(now *ledger.Snapshot) *time.Location {
	if now.Shop == nil || now.Shop.Zone == nil {
		return time.UTC
	}
	return now.Shop.Zone
}

// moment is a time as it is kept: 0 for none.
func moment(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.UnixMilli()
}

// at is a kept time by a clock.
func at(ms int64, zone *time.Location) time.Time {
	if ms == 0 {
		return time.Time{}
	}
	return time.UnixMilli(ms).In(zone)
}
