package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"strconv"
	"strings"
	"time"

	"foldwright/internal/fault"
)

//go:embed migrations/*.sql
var migrations embed.FS

// step is one migration: files are numbered from 0001 without a gap and, once released, never changed.
type step struct {
	number int
	name   string
	sql    string
}

func steps() []step {
	names, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		panic(err) // the pattern is wrong
	}
	var all []step
	for i, name := range names {
		text, err := migrations.ReadFile(name)
		base := strings.TrimPrefix(name, "migrations/")
		number, _, _ := strings.Cut(base, "_")
		if n, _ := strconv.Atoi(number); err != nil || n != i+1 {
			panic("migrations are not numbered from 0001 on: " + name)
		}
		all = append(all, step{number: i + 1, name: base, sql: string(text)})
	}
	return all
}

// migrate brings the tables up to date, each step in a transaction of its own.
func migrate(ctx context.Context, db *sql.DB, where string, now func() time.Time) error {
	done, err := stepsDone(ctx, db)
	if err != nil {
		return cannotOpen(where, err)
	}
	all := steps()
	if done > len(all) {
		return fault.Fault{
			Kind: fault.Input, Code: CodeNewer, File: where,
			Wrong: fmt.Sprintf("the database is at step %d, and this foldwright knows %d", done, len(all)), Right: "use the newer foldwright, or restore a backup of before",
		}
	}
	for _, s := range all[done:] {
		if err := take(ctx, db, s, now().UnixMilli()); err != nil {
			return cannotOpen(where, fmt.Errorf("step %s: %w", s.name, err))
		}
	}
	return nil
}

// stepsDone makes the table of steps when it is missing and counts what is in it. Two programs that start on one new
// PostgreSQL database may both try to make it, and one is told off although the table is then there; so it tries twice.
func stepsDone(ctx context.Context, db *sql.DB) (done int, err error) {
	const table = `CREATE TABLE IF NOT EXISTS schema_step (number INTEGER PRIMARY KEY, name TEXT NOT NULL, at_ms BIGINT NOT NULL)`
	if _, err = db.ExecContext(ctx, table); err != nil {
		_, err = db.ExecContext(ctx, table)
	}
	if err == nil {
		err = db.QueryRowContext(ctx, `SELECT COALESCE(MAX(number), 0) FROM schema_step`).Scan(&done)
	}
	return done, err
}

// take does one step. Its row is written first: another program that is at the same step waits there until this one
// is through, and then finds the step done.
func take(ctx context.Context, db *sql.DB, s step, at int64) error {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	result, err := tx.ExecContext(ctx, `INSERT INTO schema_step (number, name, at_ms) VALUES ($1, $2, $3) ON CONFLICT (number) DO NOTHING`, s.number, s.name, at)
	if err != nil {
		return err
	}
	if mine, err := result.RowsAffected(); err != nil || mine == 0 {
		return err
	}
	if _, err := tx.ExecContext(ctx, s.sql); err != nil {
		return err
	}
	return tx.Commit()
}
