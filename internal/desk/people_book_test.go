package desk

import (
	"context"
	"maps"
	"slices"
	"strings"
	"sync"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// book keeps people in memory and counts how often it is asked; of [Books] it has nothing else.
type book struct {
	Books
	mu          sync.Mutex
	accounts    map[string]access.Account
	invitations map[string]access.Invitation
	tokens      map[string]access.Token
	asked       map[string]int
	now         func() time.Time
}

func newBook() *book {
	return &book{accounts: map[string]access.Account{}, invitations: map[string]access.Invitation{}, tokens: map[string]access.Token{}, asked: map[string]int{}}
}

var gone = fault.Fault{Kind: fault.Missing, Code: "unknown-name", Wrong: "there is none"}

func (b *book) lock(what string) func() {
	b.mu.Lock()
	b.asked[what]++
	return b.mu.Unlock
}

func (b *book) Accounts(context.Context) ([]access.Account, error) {
	defer b.lock("accounts")()
	return slices.SortedFunc(maps.Values(b.accounts), func(a, o access.Account) int { return strings.Compare(a.Name, o.Name) }), nil
}

func (b *book) Account(_ context.Context, name string) (access.Account, error) {
	defer b.lock("account")()
	a, ok := b.accounts[name]
	if !ok {
		return a, gone
	}
	return a, nil
}

func (b *book) AddAccount(_ context.Context, a access.Account) error {
	defer b.lock("add account")()
	if _, ok := b.accounts[a.Name]; ok {
		return fault.Fault{Kind: fault.Conflict, Code: ledger.CodeTwice}
	}
	a.Version = 1
	b.accounts[a.Name] = a
	return nil
}

func (b *book) PutAccount(_ context.Context, a access.Account) error {
	defer b.lock("put account")()
	if b.accounts[a.Name].Version != a.Version {
		return fault.Fault{Kind: fault.Conflict, Code: ledger.CodeStale}
	}
	a.Version++
	b.accounts[a.Name] = a
	return nil
}

func (b *book) AddInvitation(_ context.Context, i access.Invitation) error {
	defer b.lock("add invitation")()
	b.invitations[i.Digest] = i
	return nil
}

func (b *book) Invitation(_ context.Context, digest string) (access.Invitation, error) {
	defer b.lock("invitation")()
	i, ok := b.invitations[digest]
	if !ok || !b.now().Before(i.Until) {
		return i, fault.Fault{Kind: fault.Missing, Code: ledger.CodeNoInvitation}
	}
	return i, nil
}

func (b *book) TakeInvitation(_ context.Context, digest string) (access.Invitation, error) {
	defer b.lock("take invitation")()
	i, ok := b.invitations[digest]
	if !ok {
		return i, fault.Fault{Kind: fault.Missing, Code: ledger.CodeNoInvitation}
	}
	delete(b.invitations, digest)
	return i, nil
}

func (b *book) Tokens(context.Context) ([]access.Token, error) {
	defer b.lock("tokens")()
	return slices.SortedFunc(maps.Values(b.tokens), func(a, o access.Token) int { return strings.Compare(o.ID, a.ID) }), nil
}

func (b *book) TokenByDigest(_ context.Context, digest string) (access.Token, error) {
	defer b.lock("token")()
	for _, t := range b.tokens {
		if t.Digest == digest {
			return t, nil
		}
	}
	return access.Token{}, gone
}

func (b *book) AddToken(_ context.Context, t access.Token) error {
	defer b.lock("add token")()
	b.tokens[t.ID] = t
	return nil
}

func (b *book) RemoveToken(_ context.Context, id string) error {
	defer b.lock("remove token")()
	delete(b.tokens, id)
	return nil
}

func (b *book) TokenUsed(_ context.Context, id string, at time.Time) error {
	defer b.lock("token used")()
	t := b.tokens[id]
	t.Used = at
	b.tokens[id] = t
	return nil
}
