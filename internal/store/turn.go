package store

import (
	"context"
	"database/sql"
)

// take waits for the turn to write; the caller gives it back. Writers of one program wait here and not for the lock of the
// database, which is waited for by asking again and again.
func (s *Store) take(ctx context.Context) (back func(), err error) {
	select {
	case <-s.turn:
		return func() { s.turn <- struct{}{} }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// inTurn does something in a transaction that may write. What it leaves is kept when it gives no error.
func (s *Store) inTurn(ctx context.Context, do func(tx *sql.Tx) error) error {
	back, err := s.take(ctx)
	if err != nil {
		return err
	}
	defer back()
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if err := do(tx); err != nil {
		return err
	}
	return tx.Commit()
}

// inTurnSoon is inTurn for what may reach the disk a little later: who is logged in, when a token was used, how a write with a
// key stands. The database writes in order, so whatever inTurn keeps afterwards takes it along; only a power cut in the next
// moments can lose it, and then somebody logs in again, or is told that a write has not reported its end. A killed program
// loses nothing.
func (s *Store) inTurnSoon(ctx context.Context, do func(tx *sql.Tx) error) error {
	back, err := s.take(ctx)
	if err != nil {
		return err
	}
	defer back()
	tx, err := s.soon.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if s.engine.later != "" {
		if _, err := tx.ExecContext(ctx, s.engine.later); err != nil {
			return err
		}
	}
	if err := do(tx); err != nil {
		return err
	}
	return tx.Commit()
}

// execSoon is inTurnSoon for one statement; it tells how many rows that touched.
func (s *Store) execSoon(ctx context.Context, statement string, args ...any) (touched int64, err error) {
	err = s.inTurnSoon(ctx, func(tx *sql.Tx) error {
		touched, err = touch(ctx, tx, statement, args...)
		return err
	})
	return touched, err
}

// exec is inTurn for one statement; it tells how many rows that touched.
func (s *Store) exec(ctx context.Context, statement string, args ...any) (touched int64, err error) {
	back, err := s.take(ctx)
	if err != nil {
		return 0, err
	}
	defer back()
	return touch(ctx, s.db, statement, args...)
}

// doer is a database or a transaction.
type doer interface {
	ExecContext(ctx context.Context, statement string, args ...any) (sql.Result, error)
}

func touch(ctx context.Context, d doer, statement string, args ...any) (touched int64, err error) {
	result, err := d.ExecContext(ctx, statement, args...)
	if err != nil {
		return 0, err
	}
	return result.RowsAffected()
}

// nextSerial numbers something that is written down without changing the shop.
func nextSerial(ctx context.Context, tx *sql.Tx) (serial int64, err error) {
	err = tx.QueryRowContext(ctx, `UPDATE counter SET serial = serial + 1 WHERE one = 1 RETURNING serial`).Scan(&serial)
	return serial, err
}

// nextRevision numbers a change.
func nextRevision(ctx context.Context, tx *sql.Tx) (revision int64, err error) {
	err = tx.QueryRowContext(ctx, `UPDATE counter SET revision = revision + 1 WHERE one = 1 RETURNING revision`).Scan(&revision)
	return revision, err
}
