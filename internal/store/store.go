// Package store keeps the shop in a database: a SQLite file, or PostgreSQL by URL, through the same statements.
//
// The shop is kept thing by thing (a folder, a set, a job, the standard minutes; see [ledger.Kind]), each with a version. A
// [ledger.Snapshot] is the whole shop at one moment with those versions; [Store.Change] applies edits that say which version they
// were made on, all of them or none. An edit on an older version is a [fault.Conflict] that tells who changed what
// meanwhile; a change after which [shop.Shop.Check] finds a fault is refused with the faults. So nothing is lost
// unseen, and what is kept is always a shop that can be planned.
//
// What a method returned without error is on the disk. Every change leaves who, when, what, and each thing as it was after
// it; [Store.History] reads that. Reading back gives the very values that were written; moments come back by the clock of
// the shop.
//
// Beside the shop a store keeps drafts of plans, records of the floor, and who can come in: accounts, tokens, invitations,
// [Sessions]. [Keys] remember what writes were answered. [Store.Undoing] tells how a change is taken back.
//
// A store may be shared. Asking for an unchanged shop costs one row; after a change only what changed is decoded. Writers
// take turns, and each change checks the shop that comes of it. Values handed out are shared and must not be changed by the caller.
package store

import (
	"context"
	"database/sql"
	"errors"
	"sync"
	"time"

	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

// The codes of what can be wrong between a shop and its store.
const (
	CodeOccupied fault.Code = "shop-exists"   // there is a shop where another shall go
	CodeKeep     fault.Code = "not-keepable"  // a value that would not read back as it is
	CodeOpen     fault.Code = "store-open"    // the database cannot be opened
	CodeNewer    fault.Code = "store-newer"   // the database is of a newer foldwright
	CodeDamaged  fault.Code = "store-damaged" // what is kept contradicts itself
)

// Options are how a store is opened.
type Options struct {
	Now func() time.Time // stamps changes; nil is the wall clock
}

// Store keeps one shop.
type Store struct {
	db     *sql.DB
	soon   *sql.DB // the same database, see [Store.inTurnSoon]
	engine engine
	where  string // for messages, without password
	now    func() time.Time
	check  func(whole *shop.Shop, sound func(*job.Job) bool) fault.List
	turn   chan struct{} // holds one token: the right to write

	mu   sync.Mutex
	last *state // the newest that was seen; never changed once it is here
}

// Open opens the database at a file path or postgres:// URL, makes the file when it is not there, and brings the tables
// up to date.
func Open(ctx context.Context, where string, o Options) (*Store, error) {
	return open(ctx, engineOf(where), where, o)
}

func open(ctx context.Context, e engine, where string, o Options) (*Store, error) {
	db, err := e.open(where)
	if err != nil {
		return nil, cannotOpen(e.shown(where), err)
	}
	db.SetMaxOpenConns(connections)
	db.SetMaxIdleConns(connections)
	soon := db
	if e.soon != nil {
		if soon, err = e.soon(where); err != nil {
			return nil, errors.Join(cannotOpen(e.shown(where), err), db.Close())
		}
		soon.SetMaxOpenConns(1) // writers take turns
	}
	s := &Store{
		db: db, soon: soon, engine: e, where: e.shown(where), now: o.Now, check: (*shop.Shop).CheckBut,
		turn: make(chan struct{}, 1), last: unseen(),
	}
	s.turn <- struct{}{}
	if s.now == nil {
		s.now = time.Now
	}
	if err := migrate(ctx, db, s.where, s.now); err != nil {
		return nil, errors.Join(err, s.Close())
	}
	return s, nil
}

// Close ends the store in good order. What was acknowledged is kept without it too.
func (s *Store) Close() error {
	if s.soon == s.db {
		return s.db.Close()
	}
	return errors.Join(s.soon.Close(), s.db.Close())
}

// Where tells which database this is, as it may stand in a message.
func (s *Store) Where() string { return s.where }

// Shop returns the whole shop, or what is wrong with it. It is the very value that others get: do not change it.
func (s *Store) Shop(ctx context.Context) (*shop.Shop, error) {
	now, err := s.Snapshot(ctx)
	switch {
	case err != nil:
		return nil, err
	case now.Shop == nil:
		return nil, s.noShop()
	case len(now.Faults) > 0: // written by a program with other rules
		return nil, now.Faults
	}
	return now.Shop, nil
}

func (s *Store) noShop() error {
	return fault.Fault{Kind: fault.Missing, Code: ledger.CodeNoShop, File: s.where, Wrong: "there is no shop in it yet", Right: "import a shop file, or begin with the demo's"}
}

func (s *Store) seen() *state {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.last
}

// saw remembers a snapshot when it is newer than what is known.
func (s *Store) saw(n *state) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if n.Revision >= s.last.Revision {
		s.last = n
	}
}
