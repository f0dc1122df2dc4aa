package store

import (
	"context"
	"fmt"
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
	if now := s.assemble(read, revision); len(now.Faults) > 0 {
		return now.Faults
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
	for _, test := range []struct{ query, what string }{
		{`SELECT COUNT(*) FROM thing t LEFT JOIN ` + lastOf + ` l ON l.thing = t.id
			WHERE l.thing IS NULL OR l.kind <> t.kind OR l.name <> t.name OR l.body <> t.body`, "%d things are not as the audit trail says"},
		{`SELECT COUNT(*) FROM ` + lastOf + ` l LEFT JOIN thing t ON t.id = l.thing
			WHERE l.body <> '' AND t.id IS NULL`, "%d things are gone, and the audit trail does not say that they were removed"},
	} {
		var n int
		if err := a.QueryRowContext(ctx, test.query).Scan(&n); err != nil {
			return err
		}
		if n > 0 {
			return s.damaged(fmt.Sprintf(test.what, n))
		}
	}
	return nil
}
