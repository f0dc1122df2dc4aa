package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"strings"
	"time"
)

// Sessions keep who is logged in, with the methods that a session manager wants of its store. What is kept of a session's
// token is a digest, so that nobody who reads the database can take a session over.
type Sessions struct{ s *Store }

// Sessions are the sessions of this store.
func (s *Store) Sessions() Sessions { return Sessions{s} }

// digestMark begins what [Sessions.AllCtx] gives in the place of tokens. No token begins so, and none that does is let in.
const digestMark = "#"

// kept is what is kept of a token. What AllCtx gave is taken for what it stands for.
func kept(token string) string {
	if digest, ok := strings.CutPrefix(token, digestMark); ok {
		return plain(digest)
	}
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}

// FindCtx gives the data of a session; none when there is no such session, or it is over.
func (k Sessions) FindCtx(ctx context.Context, token string) (data []byte, found bool, err error) {
	if strings.HasPrefix(token, digestMark) {
		return nil, false, nil
	}
	var text string
	err = k.s.db.QueryRowContext(ctx, `SELECT data FROM session WHERE digest = $1 AND expiry_ms > $2`, kept(token), k.s.now().UnixMilli()).Scan(&text)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, false, nil
	}
	if err == nil {
		data, err = base64.StdEncoding.DecodeString(text)
	}
	return data, err == nil, err
}

// CommitCtx keeps the data of a session until then, in the place of what was kept of it.
func (k Sessions) CommitCtx(ctx context.Context, token string, data []byte, expiry time.Time) error {
	_, err := k.s.execSoon(ctx, `INSERT INTO session (digest, expiry_ms, data) VALUES ($1, $2, $3)
		ON CONFLICT (digest) DO UPDATE SET expiry_ms = excluded.expiry_ms, data = excluded.data`, kept(token), expiry.UnixMilli(), base64.StdEncoding.EncodeToString(data))
	return err
}

// DeleteCtx ends a session; one that is not there is ended already.
func (k Sessions) DeleteCtx(ctx context.Context, token string) error {
	_, err := k.s.exec(ctx, `DELETE FROM session WHERE digest = $1`, kept(token))
	return err
}

// AllCtx gives the data of all sessions. Their tokens are not known; what stands in their place can be given to DeleteCtx
// and CommitCtx, and lets nobody in.
func (k Sessions) AllCtx(ctx context.Context) (map[string][]byte, error) {
	type one struct{ token, data string }
	list, err := listed(ctx, k.s.db, func(from scanner) (o one, err error) { return o, from.Scan(&o.token, &o.data) },
		`SELECT digest, data FROM session WHERE expiry_ms > $1`, k.s.now().UnixMilli())
	if err != nil {
		return nil, err
	}
	all := map[string][]byte{}
	for _, o := range list {
		if all[digestMark+o.token], err = base64.StdEncoding.DecodeString(o.data); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// Expire takes away what is over.
func (k Sessions) Expire(ctx context.Context, now time.Time) error {
	_, err := k.s.exec(ctx, `DELETE FROM session WHERE expiry_ms <= $1`, now.UnixMilli())
	return err
}

// Find is FindCtx without a context; so are Commit, Delete and All.
func (k Sessions) Find(token string) ([]byte, bool, error) {
	return k.FindCtx(context.Background(), token)
}

// Commit is CommitCtx without a context.
func (k Sessions) Commit(token string, data []byte, expiry time.Time) error {
	return k.CommitCtx(context.Background(), token, data, expiry)
}

// Delete is DeleteCtx without a context.
func (k Sessions) Delete(token string) error { return k.DeleteCtx(context.Background(), token) }

// All is AllCtx without a context.
func (k Sessions) All() (map[string][]byte, error) { return k.AllCtx(context.Background()) }
