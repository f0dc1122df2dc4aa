package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// person is an account with what only the store knows of it.
type person struct {
	access.Account
	chosen int64 // the revision by which the password was chosen
}

// accountEntry is what the trail tells of an account. That the password is another one is told, the password in no form.
type accountEntry struct {
	Role     string `json:"role"`
	Password string `json:"password,omitempty"`
	Lang     string `json:"lang,omitempty"`
	Lengths  string `json:"lengths,omitempty"`
	Ended    bool   `json:"ended,omitempty"`
}

func (p person) entry() row {
	e := accountEntry{Role: p.Role.String(), Lang: p.Lang, Ended: p.Ended}
	if p.Hash != "" {
		e.Password = fmt.Sprintf("chosen by change %d", p.chosen)
	}
	if p.Inch != nil {
		e.Lengths = map[bool]string{true: "inch", false: "mm"}[*p.Inch]
	}
	return entry(ledger.OfAccount, p.Name, p.Name, e)
}

// rules says whether this is somebody who can log in and may everything.
func (p person) rules() bool { return p.Role == access.Admin && !p.Ended && p.Hash != "" }

const accountColumns = `SELECT name, role, hash, lang, inch, since_ms, ended, chosen, version FROM account `

func readPerson(zone *time.Location) func(scanner) (person, error) {
	return func(from scanner) (p person, err error) {
		var role string
		var inch, ended int
		var since int64
		if err := from.Scan(&p.Name, &role, &p.Hash, &p.Lang, &inch, &since, &ended, &p.chosen, &p.Version); err != nil {
			return p, err
		}
		p.Role, p.Since, p.Ended = roleOf(role), at(since, zone), ended == 1
		if inch >= 0 {
			in := inch == 1
			p.Inch = &in
		}
		return p, nil
	}
}

// Accounts lists all accounts by name, those that ended too.
func (s *Store) Accounts(ctx context.Context) ([]access.Account, error) {
	all, err := listed(ctx, s.db, readPerson(s.clock()), accountColumns+`ORDER BY name`)
	return each(all, func(p person) access.Account { return p.Account }), err
}

// Account reads an account by its name; small and capital letters are the same.
func (s *Store) Account(ctx context.Context, name string) (access.Account, error) {
	p, err := s.personIn(ctx, s.db, name)
	return p.Account, err
}

func (s *Store) personIn(ctx context.Context, a asker, name string) (person, error) {
	p, err := readPerson(s.clock())(a.QueryRowContext(ctx, accountColumns+`WHERE name = $1`, small(name)))
	if errors.Is(err, sql.ErrNoRows) {
		err = fault.Fault{Kind: fault.Missing, Code: ledger.CodeNoAccount, Field: "account", Wrong: fmt.Sprintf("there is no account %q", name), Right: "take one of the list"}
	}
	return p, err
}

// AddAccount lets somebody new in.
func (s *Store) AddAccount(ctx context.Context, a access.Account) error {
	p := person{Account: a}
	p.Name = small(a.Name)
	return s.admit(ctx, p.Name, func(tx *sql.Tx, revision int64) (admission, error) {
		p.Version = revision
		if p.Hash != "" {
			p.chosen = revision
		}
		added, err := touch(ctx, tx, `INSERT INTO account (name, role, hash, lang, inch, since_ms, ended, chosen, version)
			VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9) ON CONFLICT (name) DO NOTHING`,
			p.Name, p.Role.String(), plain(p.Hash), plain(p.Lang), p.inch(), moment(p.Since), digit(p.Ended), p.chosen, revision)
		if err == nil && added == 0 {
			err = taken(ledger.OfAccount, p.Name)
		}
		return admission{written{deed: ledger.Added, after: p.entry()}, fmt.Sprintf("added account %s (%s)", p.Name, p.Role)}, err
	})
}

func (p person) inch() int {
	if p.Inch == nil {
		return -1
	}
	return digit(*p.Inch)
}

// PutAccount changes an account; the version must be the one that is kept. The last admin who can log in stays one.
func (s *Store) PutAccount(ctx context.Context, a access.Account) error {
	next := person{Account: a}
	next.Name = small(a.Name)
	return s.admit(ctx, next.Name, func(tx *sql.Tx, revision int64) (admission, error) {
		was, err := s.personIn(ctx, tx, next.Name)
		if err != nil {
			return admission{}, err
		}
		if was.Version != a.Version {
			return admission{}, s.staleFault(ctx, tx, ledger.Tag{Kind: ledger.OfAccount, ID: was.entry().id, Name: was.Name, Version: a.Version})
		}
		next.chosen = was.chosen
		if next.Hash != was.Hash {
			next.chosen = revision
		}
		if next.entry() == was.entry() {
			return admission{}, errAsItIs
		}
		if was.rules() && !next.rules() {
			if err := othersRule(ctx, tx, was.Name); err != nil {
				return admission{}, err
			}
		}
		_, err = tx.ExecContext(ctx, `UPDATE account SET role = $2, hash = $3, lang = $4, inch = $5, ended = $6, chosen = $7, version = $8 WHERE name = $1`,
			next.Name, next.Role.String(), plain(next.Hash), plain(next.Lang), next.inch(), digit(next.Ended), next.chosen, revision)
		return admission{written{deed: ledger.Altered, before: was.entry(), after: next.entry()}, "changed account " + next.Name}, err
	})
}

// othersRule says no when nobody else is an admin who can log in.
func othersRule(ctx context.Context, tx *sql.Tx, name string) error {
	var others int
	err := tx.QueryRowContext(ctx, `SELECT COUNT(*) FROM account WHERE role = $1 AND ended = 0 AND hash <> '' AND name <> $2`, access.Admin.String(), name).Scan(&others)
	if err == nil && others == 0 {
		err = fault.Fault{
			Kind: fault.No, Code: ledger.CodeLastAdmin, Field: called(ledger.OfAccount, name), Wrong: "nobody else is an admin who can log in",
			Right: "make somebody else an admin first",
		}
	}
	return err
}

// clock is the clock of the shop as it was seen last: for people, who are asked about all the time, that is near enough.
func (s *Store) clock() *time.Location { return clockOf(s.seen().Snapshot) }
