package store

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"slices"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// Restore puts a backup in the place of all that is here, audit trail included, in one transaction, and adds a change
// that says so. Every thing counts as changed by it: whoever had read something before must read it again. Who can come in
// is as the backup says, unless it is of before there were accounts; nobody stays logged in.
func (s *Store) Restore(ctx context.Context, by ledger.By, path string) (*ledger.Snapshot, error) {
	backup, discard, err := s.openCopy(ctx, path)
	if err != nil {
		return nil, err
	}
	defer discard()
	back, err := s.take(ctx)
	if err != nil {
		return nil, err
	}
	defer back()
	from, err := backup.db.BeginTx(ctx, asOfNow)
	if err != nil {
		return nil, err
	}
	defer from.Rollback()
	into, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return nil, err
	}
	defer into.Rollback()
	if err := s.exchange(ctx, by, from, into); err != nil {
		return nil, err
	}
	if err := into.Commit(); err != nil {
		return nil, err
	}
	return s.Snapshot(ctx)
}

// exchange empties the tables and fills them from the backup, with numbers higher than any that were seen here or there.
func (s *Store) exchange(ctx context.Context, by ledger.By, from, into *sql.Tx) error {
	if _, _, err := s.begin(ctx, into); err != nil { // which also keeps everybody out
		return err
	}
	here, err := countersOf(ctx, into)
	if err != nil {
		return err
	}
	there, err := countersOf(ctx, from)
	if err != nil {
		return err
	}
	brought, err := broughtBy(ctx, from)
	if err != nil {
		return err
	}
	if err := emptyTables(ctx, into, slices.Concat(passing, brought)); err != nil {
		return err
	}
	if err := copyTables(ctx, brought, from, into); err != nil {
		return err
	}
	next := counters{max(here.revision, there.revision+1), max(here.serial, there.serial) + 1}
	if err := next.stamp(ctx, into); err != nil {
		return err
	}
	if err := s.record(ctx, into, by, next.revision, nil); err != nil {
		return err
	}
	if len(brought) < len(tables) {
		return s.introduce(ctx, into, next.revision)
	}
	return nil
}

// broughtBy lists the tables that come from a backup: one that knows nobody does not shut out those who are here.
func broughtBy(ctx context.Context, backup asker) ([]table, error) {
	var accounts int
	if err := backup.QueryRowContext(ctx, `SELECT COUNT(*) FROM account`).Scan(&accounts); err != nil || accounts > 0 {
		return tables, err
	}
	return slices.DeleteFunc(slices.Clone(tables), func(t table) bool { return t.people }), nil
}

// introduce tells the trail of a backup of those who stayed.
func (s *Store) introduce(ctx context.Context, tx *sql.Tx, revision int64) error {
	known, err := s.entries(ctx, tx)
	if err != nil {
		return err
	}
	for i, e := range known {
		if err := writeTrail(ctx, tx, revision, i+1, written{deed: ledger.Added, after: e}); err != nil {
			return err
		}
	}
	return nil
}

// openCopy opens a copy of a backup, which may have to be brought up to date, and verifies it.
func (s *Store) openCopy(ctx context.Context, path string) (backup *Store, discard func(), err error) {
	if !IsFile(path) {
		return nil, nil, fault.Fault{Kind: fault.Input, Code: CodeBackup, File: path, Wrong: "that is no backup", Right: "name a file that foldwright backup has made"}
	}
	dir, err := os.MkdirTemp("", "foldwright-restore-")
	if err != nil {
		return nil, nil, err
	}
	discard = func() { _ = os.RemoveAll(dir) }
	inside := filepath.Join(dir, "backup.db")
	if err = copyFile(ctx, path, inside); err == nil {
		backup, err = open(ctx, carried, inside, Options{Now: s.now})
	}
	if err == nil {
		discard = func() { _ = errors.Join(backup.Close(), os.RemoveAll(dir)) }
		err = backup.Verify(ctx)
	}
	if err != nil {
		discard()
		return nil, nil, backupFault(path, err)
	}
	return backup, discard, nil
}
