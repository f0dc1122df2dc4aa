package store

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"foldwright/internal/fault"
)

// CodeBackup is the code of a backup that cannot be made or taken back.
const CodeBackup fault.Code = "backup"

// Backup copies the store as it is at this moment into a new SQLite file: the shop, its audit trail, drafts, records, and who
// can come in; what it leaves out is told at [passing]. Writers go on meanwhile. The copy is verified before it gets its name; whatever the engine, it can be opened as a store.
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
	counted, err := countersOf(ctx, from)
	if err != nil {
		return err
	}
	if err := copyTables(ctx, tables, from, into); err != nil {
		return err
	}
	if err := counted.set(ctx, into); err != nil {
		return err
	}
	if err := into.Commit(); err != nil {
		return err
	}
	return copied.Verify(ctx)
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
