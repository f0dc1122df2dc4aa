package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// AddInvitation lets somebody choose a password, once. Those that are over go at this occasion.
func (s *Store) AddInvitation(ctx context.Context, i access.Invitation) error {
	i.Account = small(i.Account)
	return s.admit(ctx, "", func(tx *sql.Tx, revision int64) (admission, error) {
		if _, err := tx.ExecContext(ctx, `DELETE FROM invitation WHERE until_ms <= $1`, s.now().UnixMilli()); err != nil {
			return admission{}, err
		}
		added, err := touch(ctx, tx, `INSERT INTO invitation (digest, account, until_ms) VALUES ($1, $2, $3) ON CONFLICT (digest) DO NOTHING`, plain(i.Digest), i.Account, moment(i.Until))
		if err == nil && added == 0 {
			err = taken(ledger.OfInvitation, i.Account)
		}
		e := entry(ledger.OfInvitation, fmt.Sprint(revision), i.Account, struct{}{})
		return admission{written{deed: ledger.Added, after: e}, "invited " + invited(i.Account)}, err
	})
}

func invited(account string) string {
	if account == "" {
		return "the first admin"
	}
	return account
}

// Invitation reads an invitation and leaves it; one that is over is a fault.
func (s *Store) Invitation(ctx context.Context, digest string) (access.Invitation, error) {
	return s.oneInvitation(s.db.QueryRowContext(ctx, `SELECT digest, account, until_ms FROM invitation WHERE digest = $1`, plain(digest)))
}

// TakeInvitation takes an invitation, which is gone after it: however many try at once, one gets it.
func (s *Store) TakeInvitation(ctx context.Context, digest string) (i access.Invitation, err error) {
	var over error
	err = s.inTurn(ctx, func(tx *sql.Tx) (err error) {
		i, err = s.oneInvitation(tx.QueryRowContext(ctx, `DELETE FROM invitation WHERE digest = $1 RETURNING digest, account, until_ms`, plain(digest)))
		if f := (fault.Fault{}); errors.As(err, &f) && f.Code == ledger.CodeInvitationOver {
			err, over = nil, err // it goes all the same
		}
		return err
	})
	if err == nil {
		err = over
	}
	if err != nil {
		return access.Invitation{}, err
	}
	return i, nil
}

func (s *Store) oneInvitation(from scanner) (i access.Invitation, err error) {
	var until int64
	err = from.Scan(&i.Digest, &i.Account, &until)
	i.Until = at(until, s.clock())
	f := fault.Fault{Kind: fault.Missing, Code: ledger.CodeNoInvitation, Field: "invitation", Wrong: "there is no such invitation, or it was used", Right: "ask an admin for a new one"}
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return i, f
	case err == nil && until <= s.now().UnixMilli():
		f.Code, f.Wrong = ledger.CodeInvitationOver, "the invitation is over since "+i.Until.Format("2006-01-02 15:04")
		return i, f
	}
	return i, err
}
