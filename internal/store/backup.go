package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// CodeBackup is the code of a backup that cannot be made or taken back.
const CodeBackup fault.Code = "backup"

// table is a table with its columns, in an order in which rows can be put back.
type table struct{ name, columns, order string }

var tables = []table{
	{"change", "revision, at_ms, who, what", "revision"},
	{"change_thing", "revision, place, thing, kind, name, deed, format, body", "revision, place"},
	{"thing", "id, kind, name, position, revision, format, body", "id"},
}

// Backup copies the whole store, audit trail included, as it is at this moment, into a new SQLite file. Writers go on
// meanwhile. The copy is verified before it gets its name; whatever the engine, it can be opened as a store.
func (s *Store) Backup(ctx context.Context, path string) error {
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		return fault.Fault{Kind: fault.Conflict, Code: CodeBackup, File: path, Wrong: "there is such a file already", Right: "another name, or take that file away first"}
	}
	beside := path + ".part"
	defer removeDatabase(beside)
	removeDatabase(beside) // of a backup that was broken off
	if err := s.copyTo(ctx, beside); err != nil {
		return err
	}
	if err := os.Rename(beside, path); err != nil {
		return backupFault(path, err)
	}
	return syncDirectory(filepath.Dir(path))
}

func (s *Store) copyTo(ctx context.Context, path string) (err error) {
	copied, err := open(ctx, carried, path, Options{Now: s.now})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, copied.Close()) }()
	from, err := s.db.BeginTx(ctx, asOfNow)
	if err != nil {
		return err
	}
	defer from.Rollback()
	into, err := copied.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer into.Rollback()
	revision, err := revisionOf(ctx, from)
	if err != nil {
		return err
	}
	if err := copyTables(ctx, from, into); err != nil {
		return err
	}
	if err := setRevision(ctx, into, revision); err != nil {
		return err
	}
	if err := into.Commit(); err != nil {
		return err
	}
	return copied.Verify(ctx)
}

// Restore puts a backup in the place of all that is here, audit trail included, in one transaction, and adds a change
// that says so. Every thing counts as changed by it: whoever had read something before must read it again.
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

// exchange empties the tables and fills them from the backup, with a revision higher than any that was seen here or there.
func (s *Store) exchange(ctx context.Context, by ledger.By, from, into *sql.Tx) error {
	_, here, err := s.begin(ctx, into)
	if err != nil {
		return err
	}
	there, err := revisionOf(ctx, from)
	if err != nil {
		return err
	}
	for i := len(tables) - 1; i >= 0; i-- {
		if _, err := into.ExecContext(ctx, "DELETE FROM "+tables[i].name); err != nil {
			return err
		}
	}
	if err := copyTables(ctx, from, into); err != nil {
		return err
	}
	revision := max(here, there+1)
	if err := setRevision(ctx, into, revision); err != nil {
		return err
	}
	if _, err := into.ExecContext(ctx, `UPDATE thing SET revision = $1`, revision); err != nil {
		return err
	}
	return s.record(ctx, into, by, revision, nil)
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

func copyTables(ctx context.Context, from, into *sql.Tx) error {
	for _, t := range tables {
		if err := t.copy(ctx, from, into); err != nil {
			return fmt.Errorf("copying %s: %w", t.name, err)
		}
	}
	return nil
}

func (t table) copy(ctx context.Context, from, into *sql.Tx) error {
	found, err := from.QueryContext(ctx, "SELECT "+t.columns+" FROM "+t.name+" ORDER BY "+t.order)
	if err != nil {
		return err
	}
	defer found.Close()
	put, err := into.PrepareContext(ctx, "INSERT INTO "+t.name+" ("+t.columns+") VALUES ("+places(strings.Count(t.columns, ",")+1)+")")
	if err != nil {
		return err
	}
	defer put.Close()
	values := make([]any, strings.Count(t.columns, ",")+1)
	spots := make([]any, len(values))
	for i := range values {
		spots[i] = &values[i]
	}
	for found.Next() {
		if err := found.Scan(spots...); err != nil {
			return err
		}
		if _, err := put.ExecContext(ctx, values...); err != nil {
			return err
		}
	}
	return found.Err()
}

// places gives $1, $2, … $n.
func places(n int) string {
	list := make([]string, n)
	for i := range list {
		list[i] = fmt.Sprintf("$%d", i+1)
	}
	return strings.Join(list, ", ")
}

func setRevision(ctx context.Context, tx *sql.Tx, revision int64) error {
	_, err := tx.ExecContext(ctx, `UPDATE counter SET revision = $1 WHERE one = 1`, revision)
	return err
}

func backupFault(path string, err error) error {
	if inside := fault.All(err); inside != nil {
		return err
	}
	return fault.Fault{Kind: fault.Input, Code: CodeBackup, File: path, Wrong: "it cannot be used: " + err.Error(), Right: "a file that can be read and written, on a disk with room"}
}

// removeDatabase takes a SQLite file and its side files away, if they are there.
func removeDatabase(path string) {
	for _, end := range []string{"", "-wal", "-shm", "-journal"} {
		_ = os.Remove(path + end)
	}
}

// copyFile copies a SQLite file through SQLite, so that the copy is whole even of a file that is in use. The file itself
// is only read.
func copyFile(ctx context.Context, from, to string) error {
	db, err := openSQLite(from, "mode=ro&_pragma=busy_timeout(10000)")
	if err != nil {
		return err
	}
	defer db.Close()
	_, err = db.ExecContext(ctx, `VACUUM INTO $1`, to)
	return err
}

// syncDirectory makes a new name in a directory last. Where a directory cannot be synced (Windows) the system does so itself.
func syncDirectory(path string) error {
	d, err := os.Open(path)
	if err != nil {
		return err
	}
	_ = d.Sync()
	return d.Close()
}
