package store

import (
	"context"
	"database/sql"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"foldwright/internal/ledger"
)

// keysLive is how long a key is remembered.
const keysLive = 24 * time.Hour

// Keys remember what writes were answered, so that one that is sent again is not done again.
type Keys struct{ s *Store }

// Keys are the keys of this store.
func (s *Store) Keys() Keys { return Keys{s} }

// Begin tells how an attempt stands, and notes one that is fresh: whoever gets [ledger.Fresh] does it and then calls End, or
// Drop when nothing came of it. An attempt that was broken off by a crash stays open until its key is forgotten after a day.
func (k Keys) Begin(ctx context.Context, a ledger.Attempt) (standing ledger.Standing, answer ledger.Answer, err error) {
	now := k.s.now()
	err = k.s.inTurnSoon(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, `DELETE FROM request_key WHERE at_ms < $1`, now.Add(-keysLive).UnixMilli()); err != nil {
			return err
		}
		fresh, err := touch(ctx, tx, `INSERT INTO request_key (who, name, what, digest, at_ms, status, headers, body)
			VALUES ($1, $2, $3, $4, $5, 0, '', '') ON CONFLICT (who, name) DO NOTHING`, plain(a.Who), plain(a.Key), plain(a.What), plain(a.Digest), now.UnixMilli())
		if err != nil || fresh == 1 {
			return err
		}
		standing, answer, err = earlier(ctx, tx, a)
		return err
	})
	return standing, answer, err
}

// earlier tells how the attempt that came first stands.
func earlier(ctx context.Context, tx *sql.Tx, a ledger.Attempt) (ledger.Standing, ledger.Answer, error) {
	var what, digest, headers, body string
	var answer ledger.Answer
	err := tx.QueryRowContext(ctx, `SELECT what, digest, status, headers, body FROM request_key WHERE who = $1 AND name = $2`, plain(a.Who), plain(a.Key)).
		Scan(&what, &digest, &answer.Status, &headers, &body)
	switch {
	case err != nil:
		return 0, ledger.Answer{}, err
	case what != plain(a.What) || digest != plain(a.Digest):
		return ledger.Other, ledger.Answer{}, nil
	case answer.Status == 0:
		return ledger.Open, ledger.Answer{}, nil
	}
	answer.Body, err = base64.StdEncoding.DecodeString(body)
	return ledger.Answered, answer, errors.Join(err, json.Unmarshal([]byte(headers), &answer.Header))
}

// End notes what an attempt was answered.
func (k Keys) End(ctx context.Context, a ledger.Attempt, answer ledger.Answer) error {
	headers, err := json.Marshal(answer.Header)
	if err != nil {
		return err
	}
	ended, err := k.s.execSoon(ctx, `UPDATE request_key SET status = $3, headers = $4, body = $5 WHERE who = $1 AND name = $2 AND status = 0`,
		plain(a.Who), plain(a.Key), answer.Status, string(headers), base64.StdEncoding.EncodeToString(answer.Body))
	if err == nil && ended == 0 {
		err = fmt.Errorf("the attempt with key %q was not begun", a.Key)
	}
	return err
}

// Drop forgets an attempt that came to nothing, so that it can be made again.
func (k Keys) Drop(ctx context.Context, a ledger.Attempt) error {
	_, err := k.s.execSoon(ctx, `DELETE FROM request_key WHERE who = $1 AND name = $2 AND status = 0`, plain(a.Who), plain(a.Key))
	return err
}
