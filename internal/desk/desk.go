// Package desk holds the use cases: one method a question, asked alike by the command line, the API and the pages.
//
// A desk asks its [Store] for the shop and the rooms below for the answer; it keeps nothing between two questions but what
// it worked out from the shop as it was last, so one desk may serve many askers at once. It neither parses nor draws: what it takes
// and returns are values of the trade. Names that do not exist come back as faults that tell the nearest known one.
//
// Who asks travels with the context ([access.With]); each method says first whether they may. What is changed goes through
// [Books], under the asker's name.
package desk

import (
	"context"
	"io"
	"sync"
	"time"

	"github.com/alexedwards/argon2id"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

// Store is what the desk needs of the place that keeps the shop, to answer questions.
type Store interface {
	// Shop returns the whole shop, checked, or the list of its faults. The desk does not change what it gets.
	Shop(ctx context.Context) (*shop.Shop, error)
}

// Books is a store in which things can be changed.
type Books interface {
	Snapshot(ctx context.Context) (*ledger.Snapshot, error)
	// Update applies what decide makes of the shop at that moment, all of it or nothing.
	Update(ctx context.Context, by ledger.By, decide func(now *ledger.Snapshot) ([]ledger.Edit, error)) (*ledger.Snapshot, error)
	History(ctx context.Context, p ledger.Page) ([]ledger.Change, error)
	// Undoing lists the edits that take a change back, for Update to apply on the shop as it is at that moment.
	Undoing(ctx context.Context, now *ledger.Snapshot, revision int64) ([]ledger.Edit, error)
	DraftBooks
	RecordBooks
	PeopleBooks
}

// DraftBooks keep the drafts of plans.
type DraftBooks interface {
	AddDraft(ctx context.Context, d ledger.Draft) error
	Draft(ctx context.Context, id string) (ledger.Draft, error)
	Drafts(ctx context.Context, most int) ([]ledger.Draft, error) // newest first
	TakeDraft(ctx context.Context, id string, revision int64) error
}

// RecordBooks keep what the floor records.
type RecordBooks interface {
	AddRecord(ctx context.Context, r ledger.Record) (ledger.Record, error) // with its version
	PutRecord(ctx context.Context, r ledger.Record) (ledger.Record, error) // a fault when the version is no longer the one kept
	Record(ctx context.Context, id string) (ledger.Record, error)
	RecordPast(ctx context.Context, id string) ([]ledger.Record, error)         // all its versions, newest first
	Records(ctx context.Context, q ledger.RecordQuery) ([]ledger.Record, error) // newest start first
}

// PeopleBooks keep who can come in.
type PeopleBooks interface {
	Accounts(ctx context.Context) ([]access.Account, error) // by name
	Account(ctx context.Context, name string) (access.Account, error)
	AddAccount(ctx context.Context, a access.Account) error
	PutAccount(ctx context.Context, a access.Account) error // a fault when the version is no longer the one kept
	AddInvitation(ctx context.Context, i access.Invitation) error
	Invitation(ctx context.Context, digest string) (access.Invitation, error)     // without taking it
	TakeInvitation(ctx context.Context, digest string) (access.Invitation, error) // gone after it; a fault when there is none
	Tokens(ctx context.Context) ([]access.Token, error)                           // newest first
	TokenByDigest(ctx context.Context, digest string) (access.Token, error)
	AddToken(ctx context.Context, t access.Token) error
	RemoveToken(ctx context.Context, id string) error
	TokenUsed(ctx context.Context, id string, at time.Time) error
}

// Desk answers the questions of a folding department.
type Desk struct {
	Store  Store
	Books  Books            // nil where nothing can be changed, as in a shop file
	Vault  Vault            // nil where nothing can be backed up
	Now    func() time.Time // asked only when the shop does not say itself what time it is
	Random io.Reader        // ids and secrets come from here; needed with Books
	Costs  *argon2id.Params // of working on a password; nil = the usual

	prepared  prepared
	searches  searches
	hashing   hashing
	choosing  sync.Mutex // an invitation is being used
	recording sync.Mutex // a record is being added
	tokens    tokens
}

// Shop returns the shop itself.
func (d *Desk) Shop(ctx context.Context) (*shop.Shop, error) {
	if err := access.From(ctx).May(access.See); err != nil {
		return nil, err
	}
	return d.Store.Shop(ctx)
}

// Snapshot returns the shop with the versions of its things, or what is wrong with it.
func (d *Desk) Snapshot(ctx context.Context) (*ledger.Snapshot, error) {
	if err := access.From(ctx).May(access.See); err != nil {
		return nil, err
	}
	now, err := d.Books.Snapshot(ctx)
	switch {
	case err != nil:
		return nil, err
	case now.Shop == nil:
		return nil, fault.Fault{Kind: fault.Missing, Code: ledger.CodeNoShop, Wrong: "there is no shop yet", Right: "import a shop file, or begin with the demo's"}
	}
	return now, nil
}

// now is the moment the shop stands at.
func (d *Desk) now(s *shop.Shop) time.Time {
	if !s.Now.IsZero() {
		return s.Now
	}
	return d.Now().In(s.Zone)
}
