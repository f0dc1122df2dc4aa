package desk

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf8"

	"foldwright/internal/access"
	"foldwright/internal/fault"
)

// The codes of tokens.
const (
	CodeToken     fault.Code = "token"      // a token that lets nobody in
	CodeTokenName fault.Code = "token-name" // a name or an end that a token cannot have
)

// tokenMark begins every token, so that one that got where it should not be is recognised.
const tokenMark = "fw_"

// Token is a token as it may be shown.
type Token struct {
	ID      string
	Name    string // what the program is called
	Account string
	Role    access.Role
	Since   time.Time
	Until   time.Time // zero: until it is taken back
	Used    time.Time // about when it was used last; zero: never
}

func shownToken(t access.Token) Token {
	return Token{ID: t.ID, Name: t.Name, Account: t.Account, Role: t.Role, Since: t.Since, Until: t.Until, Used: t.Used}
}

// MakeToken makes a token by which a program comes in under an account's name, with a role that is not above the account's. The secret is
// told this once. Everybody may make tokens of their own account, who rules those of others.
func (d *Desk) MakeToken(ctx context.Context, account, name string, role access.Role, until time.Time) (secret string, t Token, err error) {
	who := access.From(ctx)
	if account, err = accountName(account); err != nil {
		return "", t, err
	}
	if !own(who, account) {
		if err := who.May(access.Rule); err != nil {
			return "", t, err
		}
	}
	a, err := d.Books.Account(ctx, account)
	if err != nil {
		return "", t, err
	}
	kept := access.Token{ID: d.newID(), Name: strings.TrimSpace(name), Account: account, Role: role, Since: d.moment(), Until: until}
	if err := d.checkToken(kept, a); err != nil {
		return "", t, err
	}
	secret = tokenMark + d.newSecret()
	kept.Digest = digest(secret)
	return secret, shownToken(kept), d.Books.AddToken(ctx, kept)
}

func (d *Desk) checkToken(t access.Token, a access.Account) error {
	var list fault.List
	if n := utf8.RuneCountInString(t.Name); n == 0 || n > 64 || !utf8.ValidString(t.Name) || strings.ContainsFunc(t.Name, unicode.IsControl) {
		list.Add(fault.Fault{Kind: fault.Input, Code: CodeTokenName, Field: "name", Wrong: "this is no name for a token", Right: "1 to 64 characters that tell which program has it"})
	}
	if t.Role == access.Nobody || t.Role > a.Role || a.Ended {
		list.Add(fault.Fault{Kind: fault.Input, Code: CodeRole, Field: "role", Wrong: fmt.Sprintf("a token of %s cannot be %s", a.Name, t.Role), Right: fmt.Sprintf("a role up to that of the account, which is %s", a.Role)})
	}
	if !t.Until.IsZero() && !t.Until.After(d.Now()) {
		list.Add(fault.Fault{Kind: fault.Input, Code: CodeTokenName, Field: "until", Wrong: "the token would have ended already", Right: "a time to come, or none"})
	}
	return list.Err()
}

// Tokens lists the asker's tokens, the newest first; who rules sees those of all.
func (d *Desk) Tokens(ctx context.Context) ([]Token, error) {
	who := access.From(ctx)
	if err := who.May(access.See); err != nil {
		return nil, err
	}
	kept, err := d.Books.Tokens(ctx)
	if err != nil {
		return nil, err
	}
	if who.May(access.Rule) != nil {
		kept = slices.DeleteFunc(kept, func(t access.Token) bool { return t.Account != who.Name })
	}
	list := make([]Token, len(kept))
	for i, t := range kept {
		list[i] = shownToken(t)
	}
	return list, nil
}

// RemoveToken takes a token back: one's own, or, for who rules, anybody's.
func (d *Desk) RemoveToken(ctx context.Context, id string) error {
	list, err := d.Tokens(ctx)
	if err != nil {
		return err
	}
	at := slices.IndexFunc(list, func(t Token) bool { return t.ID == id })
	if at < 0 {
		return fault.Fault{Kind: fault.Missing, Code: CodeToken, Field: "token", Wrong: fmt.Sprintf("there is no token %.40q", id), Right: "one from the list of tokens"}
	}
	if who := access.From(ctx); !own(who, list[at].Account) {
		if err := who.May(access.Rule); err != nil {
			return err
		}
	}
	if err := d.Books.RemoveToken(ctx, id); err != nil {
		return err
	}
	d.forgetTokens()
	return nil
}

const (
	tokenFresh = 30 * time.Second // how long a token is believed without asking the store
	tokenNoted = time.Minute      // how exactly the last use of a token is told
)

// tokens remembers whom tokens let in, by digest.
type tokens struct {
	mu    sync.Mutex
	known map[string]knownToken
	used  map[string]time.Time // when the use of a token was noted last, by id
	round int                  // counts how often everything was forgotten
}

type knownToken struct {
	who   access.Who
	id    string
	until time.Time
}

// WhoHas says who comes in with a token.
func (d *Desk) WhoHas(ctx context.Context, secret string) (access.Who, error) {
	now, key := d.Now(), digest(secret)
	d.tokens.mu.Lock()
	k, known := d.tokens.known[key]
	round := d.tokens.round
	d.tokens.mu.Unlock()
	if !known || !now.Before(k.until) {
		var err error
		if k, err = d.readToken(ctx, secret, key, now); err != nil {
			return access.Who{}, err
		}
		d.tokens.remember(key, k, round)
	}
	d.noteUse(ctx, k.id, now)
	return k.who, nil
}

// readToken asks the store.
func (d *Desk) readToken(ctx context.Context, secret, key string, now time.Time) (knownToken, error) {
	no := fault.Fault{Kind: fault.Denied, Code: CodeToken, Wrong: "this token lets nobody in: it was taken back, has ended, or never was", Right: "a token that the admin page lists"}
	if !strings.HasPrefix(secret, tokenMark) {
		return knownToken{}, no
	}
	t, err := d.Books.TokenByDigest(ctx, key)
	switch {
	case err != nil && isMissing(err), err == nil && !t.Until.IsZero() && !now.Before(t.Until):
		return knownToken{}, no
	case err != nil:
		return knownToken{}, err
	}
	a, err := d.Books.Account(ctx, t.Account)
	switch {
	case err != nil && isMissing(err), err == nil && a.Ended:
		return knownToken{}, no
	case err != nil:
		return knownToken{}, err
	}
	until := now.Add(tokenFresh)
	if !t.Until.IsZero() && t.Until.Before(until) {
		until = t.Until
	}
	return knownToken{who: access.Who{Name: a.Name, Role: min(t.Role, a.Role), By: t.Name}, id: t.ID, until: until}, nil
}

// remember keeps what was read, unless a token was taken back since the reading began.
func (l *tokens) remember(key string, k knownToken, round int) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.round != round {
		return
	}
	if l.known == nil {
		l.known = map[string]knownToken{}
	}
	l.known[key] = k
}

// noteUse writes down about when a token was used. Nobody is kept out because that cannot be written.
func (d *Desk) noteUse(ctx context.Context, id string, now time.Time) {
	d.tokens.mu.Lock()
	last, noted := d.tokens.used[id]
	fresh := noted && now.Sub(last) < tokenNoted
	if !fresh {
		if d.tokens.used == nil {
			d.tokens.used = map[string]time.Time{}
		}
		d.tokens.used[id] = now
	}
	d.tokens.mu.Unlock()
	if !fresh {
		_ = d.Books.TokenUsed(ctx, id, now.Truncate(time.Millisecond)) // as said above
	}
}

// forgetTokens makes the next use of every token ask the store.
func (d *Desk) forgetTokens() {
	d.tokens.mu.Lock()
	defer d.tokens.mu.Unlock()
	d.tokens.known = nil
	d.tokens.round++
}
