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

// tokenEntry is what the trail tells of a token.
type tokenEntry struct {
	Account string     `json:"account"`
	Role    string     `json:"role"`
	Until   *time.Time `json:"until_utc,omitempty"`
}

func entryOf(t access.Token) row {
	e := tokenEntry{Account: t.Account, Role: t.Role.String()}
	if !t.Until.IsZero() {
		until := time.UnixMilli(t.Until.UnixMilli()).UTC()
		e.Until = &until
	}
	return entry(ledger.OfToken, t.ID, t.Name, e)
}

const tokenColumns = `SELECT id, name, account, role, digest, since_ms, until_ms, used_ms FROM token `

func readToken(zone *time.Location) func(scanner) (access.Token, error) {
	return func(from scanner) (t access.Token, err error) {
		var role string
		var since, until, used int64
		if err := from.Scan(&t.ID, &t.Name, &t.Account, &role, &t.Digest, &since, &until, &used); err != nil {
			return t, err
		}
		t.Role, t.Since, t.Until, t.Used = roleOf(role), at(since, zone), at(until, zone), at(used, zone)
		return t, nil
	}
}

// Tokens lists all tokens, the newest first.
func (s *Store) Tokens(ctx context.Context) ([]access.Token, error) {
	return listed(ctx, s.db, readToken(s.clock()), tokenColumns+`ORDER BY since_ms DESC, id DESC`)
}

// TokenByDigest finds a token by the digest of its secret. Whether it is still good is for the asker to see.
func (s *Store) TokenByDigest(ctx context.Context, digest string) (access.Token, error) {
	return oneToken(readToken(s.clock())(s.db.QueryRowContext(ctx, tokenColumns+`WHERE digest = $1`, plain(digest))))
}

func oneToken(t access.Token, err error) (access.Token, error) {
	if errors.Is(err, sql.ErrNoRows) {
		err = fault.Fault{Kind: fault.Missing, Code: ledger.CodeNoToken, Field: "token", Wrong: "there is no such token, or it was taken back", Right: "make a new one"}
	}
	return t, err
}

// AddToken lets a program in.
func (s *Store) AddToken(ctx context.Context, t access.Token) error {
	t.ID, t.Name, t.Account = plain(t.ID), plain(t.Name), small(t.Account)
	return s.admit(ctx, t.Account, func(tx *sql.Tx, _ int64) (admission, error) {
		added, err := touch(ctx, tx, `INSERT INTO token (id, name, account, role, digest, since_ms, until_ms, used_ms)
			VALUES ($1, $2, $3, $4, $5, $6, $7, $8) ON CONFLICT DO NOTHING`,
			t.ID, t.Name, t.Account, t.Role.String(), plain(t.Digest), moment(t.Since), moment(t.Until), moment(t.Used))
		if err == nil && added == 0 {
			err = taken(ledger.OfToken, t.Name)
		}
		return admission{written{deed: ledger.Added, after: entryOf(t)}, fmt.Sprintf("added token %s of %s (%s)", t.Name, t.Account, t.Role)}, err
	})
}

// RemoveToken takes a token back.
func (s *Store) RemoveToken(ctx context.Context, id string) error {
	return s.admit(ctx, "", func(tx *sql.Tx, _ int64) (admission, error) {
		t, err := oneToken(readToken(s.clock())(tx.QueryRowContext(ctx, tokenColumns+`WHERE id = $1`, plain(id))))
		if err != nil {
			return admission{}, err
		}
		_, err = tx.ExecContext(ctx, `DELETE FROM token WHERE id = $1`, t.ID)
		return admission{written{deed: ledger.Removed, before: entryOf(t)}, fmt.Sprintf("took back token %s of %s", t.Name, t.Account)}, err
	})
}

// TokenUsed notes that a token was used. It costs a commit: whoever calls it does so now and then only.
func (s *Store) TokenUsed(ctx context.Context, id string, at time.Time) error {
	_, err := s.execSoon(ctx, `UPDATE token SET used_ms = $2 WHERE id = $1 AND used_ms < $2`, plain(id), at.UnixMilli())
	return err
}
