package store

import (
	"database/sql"
	"errors"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	_ "github.com/jackc/pgx/v5/stdlib" // driver "pgx"
	_ "modernc.org/sqlite"             // driver "sqlite"

	"foldwright/internal/fault"
)

// engine is what differs between the databases: how one is opened, and how it looks for damage itself. The statements are
// the same: $1 for parameters, text ids of our own, times as milliseconds, values as text.
type engine struct {
	open  func(where string) (*sql.DB, error)
	shown func(where string) string
	// selfTest gives rows that are all "ok" when the database finds itself sound; empty when it has no such thing.
	selfTest string
	// soon opens the same database for writes that may reach the disk a little later (see [Store.inTurnSoon]); nil where each
	// transaction can say so itself, with the statement in later.
	soon  func(where string) (*sql.DB, error)
	later string
}

var (
	sqlite   = engine{open: openFile, shown: asItIs, selfTest: "PRAGMA integrity_check", soon: openSoon}
	carried  = engine{open: openCarried, shown: asItIs, selfTest: "PRAGMA integrity_check"}
	postgres = engine{open: openServer, shown: withoutPassword, later: "SET LOCAL synchronous_commit TO OFF"}
)

func engineOf(where string) engine {
	if IsURL(where) {
		return postgres
	}
	return sqlite
}

// IsURL tells the URL of a database server from a file.
func IsURL(where string) bool {
	return strings.HasPrefix(where, "postgres://") || strings.HasPrefix(where, "postgresql://")
}

// sqliteHeader is how every SQLite 3 file begins (sqlite.org, Database File Format, 1.3.1).
const sqliteHeader = "SQLite format 3\x00"

// IsFile tells whether a file is a SQLite database, by its first bytes.
func IsFile(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	head := make([]byte, len(sqliteHeader))
	n, _ := f.Read(head)
	return f.Close() == nil && string(head[:n]) == sqliteHeader
}

// openFile opens a SQLite file, and makes it when it is missing. A commit returns after the disk has it
// (synchronous=FULL); readers do not wait for the writer (WAL); a transaction that may write takes its lock at the start,
// so that it never fails half way.
func openFile(path string) (*sql.DB, error) {
	if err := create(path); err != nil {
		return nil, err
	}
	return openSQLite(path, "_pragma=journal_mode(WAL)&_pragma=synchronous(FULL)&_pragma=busy_timeout(10000)&_pragma=foreign_keys(1)&_txlock=immediate")
}

// openSoon opens a file that [openFile] has made so that a commit does not wait for the disk (synchronous=NORMAL).
func openSoon(path string) (*sql.DB, error) {
	return openSQLite(path, "_pragma=journal_mode(WAL)&_pragma=synchronous(NORMAL)&_pragma=busy_timeout(10000)&_pragma=foreign_keys(1)&_txlock=immediate")
}

// openCarried opens a SQLite file that has no side files when it is closed, so that it can be copied by anyone.
func openCarried(path string) (*sql.DB, error) {
	if err := create(path); err != nil {
		return nil, err
	}
	return openSQLite(path, "_pragma=journal_mode(DELETE)&_pragma=synchronous(FULL)&_pragma=busy_timeout(10000)&_pragma=foreign_keys(1)&_txlock=immediate")
}

func openSQLite(path, query string) (*sql.DB, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	slashed := filepath.ToSlash(path)
	if !strings.HasPrefix(slashed, "/") { // a drive letter
		slashed = "/" + slashed
	}
	u := url.URL{Scheme: "file", Path: slashed, RawQuery: query}
	return sql.Open("sqlite", u.String())
}

// create makes the file when it is missing, for the owner's eyes only; SQLite gives its side files the same rights.
func create(path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return err
	}
	return f.Close()
}

// openServer opens a PostgreSQL database, which must be there. A commit returns after the server's disk has it unless the
// server was told otherwise.
func openServer(where string) (*sql.DB, error) { return sql.Open("pgx", where) }

// connections are enough for readers beside one writer, cost little memory, and leave room on a server that has 100 in all.
const connections = 12

func asItIs(where string) string { return where }

// withoutPassword is the URL as it may stand in a message.
func withoutPassword(where string) string {
	u, err := url.Parse(where)
	if err != nil {
		return "the database"
	}
	u.RawQuery = ""
	return u.Redacted()
}

// cannotOpen is the fault of a database that is not there or is none. The driver's own words stand in it, as they alone
// tell a wrong password from a full disk.
func cannotOpen(where string, err error) error {
	if inside := fault.All(err); inside != nil {
		return err
	}
	right := "name a file that may be written, in a directory that may be, or the postgres:// URL of a server that runs"
	var path *fs.PathError
	if errors.As(err, &path) {
		err = path.Err
	}
	return fault.Fault{Kind: fault.Input, Code: CodeOpen, File: where, Wrong: "the database cannot be opened: " + oneLine(err.Error()), Right: right}
}

// oneLine keeps a message of a driver to the one line that a fault is.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
