package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"strings"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
)

// admit makes a change of who can come in. It is numbered and stands in the trail like a change of the shop, which stays as
// it is. The trail names who asked; somebody who comes in by an invitation acts in the name of the account.
func (s *Store) admit(ctx context.Context, account string, decide func(tx *sql.Tx, revision int64) (admission, error)) error {
	var revision int64
	err := s.inTurn(ctx, func(tx *sql.Tx) (err error) {
		if revision, err = nextRevision(ctx, tx); err != nil {
			return err
		}
		a, err := decide(tx, revision)
		if err != nil {
			return err
		}
		by := ledger.By{Who: access.From(ctx).String(), What: a.what}
		if by.Who == "" {
			by.Who = account
		}
		if err := s.writeChange(ctx, tx, by, revision); err != nil {
			return err
		}
		return writeTrail(ctx, tx, revision, 1, a.written)
	})
	if errors.Is(err, errAsItIs) {
		return nil
	}
	if err == nil {
		s.stays(revision)
	}
	return err
}

// errAsItIs ends a change that would change nothing.
var errAsItIs = errors.New("it is so already")

// admission is a change of who can come in, with what it is about in words.
type admission struct {
	written
	what string
}

// stays notes that a change left the shop as it is.
func (s *Store) stays(revision int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.last.Revision == revision-1 {
		s.last = s.last.at(revision)
	}
}

// entry is how the trail tells of somebody who can come in: by a body that holds no secret.
func entry(k ledger.Kind, id, name string, body any) row {
	text, err := json.Marshal(body)
	if err != nil {
		panic(err) // bodies of the trail are plain texts
	}
	return row{id: string(k) + " " + id, kind: k, name: name, format: bodyFormat, body: string(text)}
}

// entries lists what the trail must tell of all who can come in.
func (s *Store) entries(ctx context.Context, a asker) ([]row, error) {
	people, err := listed(ctx, a, readPerson(s.clock()), accountColumns+`ORDER BY name`)
	if err != nil {
		return nil, err
	}
	tokens, err := listed(ctx, a, readToken(s.clock()), tokenColumns+`ORDER BY id`)
	return append(each(people, person.entry), each(tokens, entryOf)...), err
}

// small is a name as it is kept, so that Ada is ada.
func small(name string) string { return plain(strings.ToLower(name)) }

// digit is a yes or no as the databases agree on it.
func digit(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// roleOf reads a kept role. One that this program does not know may nothing.
func roleOf(name string) access.Role {
	r, _ := access.RoleNamed(name)
	return r
}
