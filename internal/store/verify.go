package store

import (
	"context"
	"fmt"
	"time"

	"foldwright/internal/ledger"
)

// Verify reads everything and holds it against itself: the database's own test, every value, the audit trail against the
// things, the rules of the shop. An error says what was found first.
func (s *Store) Verify(ctx context.Context) error {
	if err := s.testFile(ctx); err != nil {
		return err
	}
	tx, err := s.db.BeginTx(ctx, asOfNow)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	revision, err := revisionOf(ctx, tx)
	if err != nil {
		return err
	}
	read, err := s.load(ctx, tx, unseen()) // nothing known: every body is read
	if err != nil {
		return err
	}
	for _, k := range keepings {
		for _, r := range read[k.kind] {
			if r.version > revision || r.position <= 0 {
				return s.damaged(called(r.kind, r.name) + " was changed after the last change")
			}
		}
	}
	if err := s.testTrail(ctx, tx); err != nil {
		return err
	}
	if err := s.testDesk(ctx, tx); err != nil {
		return err
	}
	if err := s.testPeople(ctx, tx); err != nil {
		return err
	}
	if now := s.assemble(read, revision, unseen()); len(now.Faults) > 0 {
		return now.Faults
	}
	return nil
}

// testDesk reads all drafts and all versions of all records, and holds each record to its last version.
func (s *Store) testDesk(ctx context.Context, a asker) error {
	counted, err := countersOf(ctx, a)
	if err != nil {
		return err
	}
	if _, err := listed(ctx, a, func(from scanner) (ledger.Draft, error) { return s.readDraft(from, time.UTC) }, draftColumns+`ORDER BY serial`); err != nil {
		return err
	}
	if _, err := listed(ctx, a, s.floorReader(time.UTC), `SELECT id, version, format, body FROM floor_record_past ORDER BY id, version`); err != nil {
		return err
	}
	return s.countNone(ctx, a, []finding{
		{`SELECT COUNT(*) FROM draft WHERE serial > $1`, []any{counted.serial}, "%d drafts were written after the last one"},
		{`SELECT COUNT(*) FROM floor_record WHERE version > $1`, []any{counted.serial}, "%d records were written after the last one"},
		{`SELECT COUNT(*) FROM floor_record r LEFT JOIN floor_record_past p ON p.id = r.id AND p.version = r.version
			WHERE p.id IS NULL OR p.body <> r.body OR p.version <> (SELECT MAX(y.version) FROM floor_record_past y WHERE y.id = r.id)`, nil, "%d records are not as their last version says"},
		{`SELECT COUNT(*) FROM floor_record_past p LEFT JOIN floor_record r ON r.id = p.id WHERE r.id IS NULL`, nil, "%d versions are of records that are gone"},
	})
}

// testPeople holds who can come in to what the trail tells of them.
func (s *Store) testPeople(ctx context.Context, a asker) error {
	known, err := s.entries(ctx, a)
	if err != nil {
		return err
	}
	read := func(from scanner) (r row, err error) {
		return r, from.Scan(&r.id, &r.kind, &r.name, &r.format, &r.body)
	}
	told, err := listed(ctx, a, read, `SELECT x.thing, x.kind, x.name, x.format, x.body FROM change_thing x WHERE x.kind IN ('account', 'token') AND x.body <> ''
		AND x.revision = (SELECT MAX(y.revision) FROM change_thing y WHERE y.thing = x.thing)`)
	if err != nil {
		return err
	}
	byID := map[string]row{}
	for _, r := range told {
		byID[r.id] = r
	}
	for _, r := range known {
		if byID[r.id] != r {
			return s.damaged(called(r.kind, r.name) + " is not as the audit trail says")
		}
		delete(byID, r.id)
	}
	if len(byID) > 0 {
		return s.damaged(fmt.Sprintf("%d accounts or tokens are gone, and the audit trail does not say that they were removed", len(byID)))
	}
	return nil
}

// testFile asks the database about itself.
func (s *Store) testFile(ctx context.Context) error {
	if s.engine.selfTest == "" {
		return nil
	}
	found, err := s.db.QueryContext(ctx, s.engine.selfTest)
	if err != nil {
		return err
	}
	defer found.Close()
	for found.Next() {
		var text string
		if err := found.Scan(&text); err != nil {
			return err
		}
		if text != "ok" {
			return s.damaged(text)
		}
	}
	return found.Err()
}

// testTrail holds each thing to the last entry of its trail, and the other way round.
func (s *Store) testTrail(ctx context.Context, a asker) error {
	const lastOf = `(SELECT x.thing, x.kind, x.name, x.body FROM change_thing x
		WHERE x.revision = (SELECT MAX(y.revision) FROM change_thing y WHERE y.thing = x.thing))`
	return s.countNone(ctx, a, []finding{
		{`SELECT COUNT(*) FROM thing t LEFT JOIN ` + lastOf + ` l ON l.thing = t.id
			WHERE l.thing IS NULL OR l.kind <> t.kind OR l.name <> t.name OR l.body <> t.body`, nil, "%d things are not as the audit trail says"},
		{`SELECT COUNT(*) FROM ` + lastOf + ` l LEFT JOIN thing t ON t.id = l.thing
			WHERE l.body <> '' AND l.kind NOT IN ('account', 'token', 'invitation') AND t.id IS NULL`, nil, "%d things are gone, and the audit trail does not say that they were removed"},
	})
}

// finding is damage that a query counts.
type finding struct {
	query string
	args  []any
	what  string
}

func (s *Store) countNone(ctx context.Context, a asker, list []finding) error {
	for _, f := range list {
		var n int
		if err := a.QueryRowContext(ctx, f.query, f.args...).Scan(&n); err != nil {
			return err
		}
		if n > 0 {
			return s.damaged(fmt.Sprintf(f.what, n))
		}
	}
	return nil
}
