package storetest

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/store"
)

// Secrets that must stand nowhere but in their own columns.
const (
	secretHash   = "$argon2id$v=19$m=65536,t=1,p=2$c2VjcmV0$aGFzaA"
	secretDigest = "5ec7e7d16e57"
)

// as is the context of somebody who is an admin.
func (b *bench) as(name string) context.Context {
	return access.With(b.ctx, access.Who{Name: name, Role: access.Admin})
}

// ok ends the test at an error; an error must never tell a secret.
func (b *bench) ok(err error) {
	b.Helper()
	if err != nil {
		b.Fatal(err)
	}
}

func (b *bench) account(s *store.Store, name string) access.Account {
	b.Helper()
	a, err := s.Account(b.ctx, name)
	b.ok(err)
	return a
}

// noSecrets holds the trail to tell nobody's secret.
func (b *bench) noSecrets(s *store.Store) {
	b.Helper()
	if text := fmt.Sprintf("%+v", b.history(s, ledger.Page{})); strings.Contains(text, secretHash) || strings.Contains(text, secretDigest) {
		b.Errorf("the trail tells a secret: %s", text)
	}
}

func accounts(b *bench) {
	s, now := b.filled()
	inch := true
	ada := access.Account{Name: "Ada", Role: access.Admin, Hash: secretHash, Lang: "de", Inch: &inch, Since: noon}
	b.ok(s.AddAccount(b.ctx, ada)) // the first one, by an invitation: nobody asks yet
	seenThere := b.open()
	known := b.snapshot(seenThere).Shop
	b.ok(s.AddAccount(b.as("ada"), access.Account{Name: "zoë", Role: access.Viewer, Since: noon}))
	if b.snapshot(seenThere).Shop != known {
		b.Error("another program worked the shop out anew although only an account came")
	}
	b.faultOf(s.AddAccount(b.as("ada"), access.Account{Name: "ADA"}), ledger.CodeTwice)

	other := b.open()
	b.snapshot(other)
	ada.Name = "ada"
	got := b.account(other, "aDa")
	if got.Version == 0 || got.Since.Location().String() != b.shop.Zone.String() {
		b.Errorf("the account is %+v", got)
	}
	ada.Version = got.Version
	b.same(ada, got)
	all, err := other.Accounts(b.ctx)
	b.ok(err)
	b.same([]access.Account{ada, b.account(s, "ZOË")}, all)

	zoe := b.account(s, "zoë")
	seen := zoe
	zoe.Role, zoe.Hash = access.Lead, secretHash
	b.ok(s.PutAccount(b.as("ada"), zoe))
	zoe = b.account(other, "zoë")
	b.ok(s.PutAccount(b.as("ada"), zoe)) // no change
	b.same(zoe, b.account(other, "zoë"))
	seen.Ended = true
	f := b.faultOf(s.PutAccount(b.as("ben"), seen), ledger.CodeStale)
	if f.Kind != fault.Conflict || !strings.Contains(f.Wrong, "changed by ada on 2026-03-02 12:00 (password, role)") {
		b.Errorf("the conflict says %s", f.Error())
	}
	zoe.Ended = true
	b.ok(s.PutAccount(b.as("ada"), zoe))
	accountTrail(b, s, now)
	for _, name := range []string{"none", "", "\x00", "caf\xe9", "' OR 1=1 --"} {
		_, err := s.Account(b.ctx, name)
		if f := b.faultOf(err, ledger.CodeNoAccount); f.Kind != fault.Missing {
			b.Errorf("the fault is of kind %d", f.Kind)
		}
		b.faultOf(s.PutAccount(b.as("ada"), access.Account{Name: name}), ledger.CodeNoAccount)
	}
}

// accountTrail holds the trail to what accounts did; the shop must be the very one that was there before.
func accountTrail(b *bench, s *store.Store, before *ledger.Snapshot) {
	after := b.snapshot(s)
	if after.Shop != before.Shop || after.Revision != before.Revision+4 {
		b.Errorf("4 changes of accounts took the shop from revision %d to %d", before.Revision, after.Revision)
	}
	var told []string
	for _, c := range b.history(s, ledger.Page{Before: 0, Limit: 4}) {
		line := c.Who + " " + c.What + ":"
		for _, f := range c.Things[0].Fields {
			line += fmt.Sprintf(" %s %s>%s", f.Name, f.Before, f.After)
		}
		told = append(told, line)
	}
	b.same([]string{
		"ada changed account zoë: ended >true",
		fmt.Sprintf("ada changed account zoë: password >chosen by change %d role viewer>lead", before.Revision+3),
		"ada added account zoë (viewer): role >viewer",
		fmt.Sprintf("ada added account ada (admin): lang >de lengths >inch password >chosen by change %d role >admin", before.Revision+1),
	}, told)
	shop := b.history(s, ledger.Page{Shop: true})
	if len(shop) != 1 || shop[0].Revision != before.Revision {
		b.Errorf("the trail of the shop alone tells %+v", shop)
	}
	b.noSecrets(s)
}

func lastAdmin(b *bench) {
	s, _ := b.filled()
	for _, a := range []access.Account{
		{Name: "ada", Role: access.Admin, Hash: secretHash},
		{Name: "bo", Role: access.Admin}, // was invited, has no password yet
		{Name: "cy", Role: access.Admin, Hash: secretHash, Ended: true},
		{Name: "di", Role: access.Lead, Hash: secretHash},
	} {
		b.ok(s.AddAccount(b.as("ada"), a))
	}
	for what, spoil := range map[string]func(*access.Account){
		"ended":    func(a *access.Account) { a.Ended = true },
		"lowered":  func(a *access.Account) { a.Role = access.Lead },
		"silenced": func(a *access.Account) { a.Hash = "" },
	} {
		ada := b.account(s, "ada")
		spoil(&ada)
		if f := b.faultOf(s.PutAccount(b.as("ada"), ada), ledger.CodeLastAdmin); f.Kind != fault.No {
			b.Errorf("%s: the fault is of kind %d", what, f.Kind)
		}
	}
	di := b.account(s, "di")
	di.Role = access.Admin
	b.ok(s.PutAccount(b.as("ada"), di))

	// Two who lower each other at once: one of them stays.
	stores := []*store.Store{s, b.open()}
	b.Run("at once", func(t *testing.T) {
		for i, name := range []string{"ada", "di"} {
			a := b.account(stores[i], name)
			a.Ended = true
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				err := stores[i].PutAccount(access.With(t.Context(), access.Who{Name: name, Role: access.Admin}), a)
				if f := (fault.Fault{}); err != nil && (!errors.As(err, &f) || f.Code != ledger.CodeLastAdmin) {
					t.Error(err)
				}
			})
		}
	})
	if b.account(s, "ada").Ended == b.account(s, "di").Ended {
		b.Errorf("after both ended each other: ada ended is %v, so is di", b.account(s, "ada").Ended)
	}
}

func tokens(b *bench) {
	s, _ := b.filled()
	b.ok(s.AddAccount(b.as("ada"), access.Account{Name: "ada", Role: access.Admin}))
	one := access.Token{ID: "t1", Name: "shop-screen", Account: "ada", Role: access.Viewer, Digest: secretDigest, Since: noon}
	two := access.Token{ID: "t2", Name: "counter", Account: "Ada", Role: access.Operator, Digest: secretDigest + "2", Since: noon.Add(time.Second), Until: noon.Add(time.Hour)}
	b.ok(s.AddToken(b.as("ada"), one))
	b.ok(s.AddToken(b.as("ada"), two))
	two.Account = "ada"
	for _, twin := range []access.Token{{ID: "t1", Digest: "x"}, {ID: "x", Digest: secretDigest}} {
		if f := b.faultOf(s.AddToken(b.as("ada"), twin), ledger.CodeTwice); strings.Contains(f.Error(), secretDigest) {
			b.Error("a fault tells a secret")
		}
	}
	other := b.open()
	got, err := other.TokenByDigest(b.ctx, two.Digest)
	b.ok(err)
	b.same(two, got)
	before := b.snapshot(s).Revision
	b.ok(s.TokenUsed(b.ctx, "t1", noon.Add(time.Minute)))
	b.ok(s.TokenUsed(b.ctx, "t1", noon)) // came late
	b.ok(s.TokenUsed(b.ctx, "none", noon))
	if b.snapshot(s).Revision != before {
		b.Error("the use of a token changes the shop")
	}
	one.Used = noon.Add(time.Minute)
	all, err := other.Tokens(b.ctx)
	b.ok(err)
	b.same([]access.Token{two, one}, all)

	b.ok(s.RemoveToken(b.as("ben"), "t2"))
	_, err = other.TokenByDigest(b.ctx, two.Digest)
	if f := b.faultOf(err, ledger.CodeNoToken); f.Kind != fault.Missing {
		b.Errorf("the fault is of kind %d", f.Kind)
	}
	for _, id := range []string{"t2", "", "\x00", "caf\xe9"} {
		b.faultOf(s.RemoveToken(b.as("ada"), id), ledger.CodeNoToken)
		_, err = s.TokenByDigest(b.ctx, id)
		b.faultOf(err, ledger.CodeNoToken)
	}
	last := b.history(s, ledger.Page{Limit: 3})
	b.same([]string{"took back token counter of ada", "added token counter of ada (operator)", "added token shop-screen of ada (viewer)"},
		[]string{last[0].What, last[1].What, last[2].What})
	if last[0].Who != "ben" || last[0].Things[0].Deed != ledger.Removed {
		b.Errorf("the trail says %+v", last[0])
	}
	b.noSecrets(s)
}

func invitations(b *bench) {
	clock := noon
	s, other := b.openAt(func() time.Time { return clock }), b.open()
	i := access.Invitation{Digest: secretDigest, Account: "Zoë", Until: noon.Add(time.Hour)}
	b.ok(s.AddInvitation(b.as("ada"), i))
	b.ok(s.AddInvitation(b.ctx, access.Invitation{Digest: "first", Until: noon.Add(time.Hour)}))
	i.Account = "zoë"
	got, err := other.Invitation(b.ctx, secretDigest)
	b.ok(err)
	b.same(i, got)
	var served atomic.Int64
	b.Run("at once", func(t *testing.T) {
		for n := range 8 {
			t.Run(fmt.Sprint(n), func(t *testing.T) {
				t.Parallel()
				got, err := []*store.Store{s, other}[n%2].TakeInvitation(t.Context(), secretDigest)
				switch f := (fault.Fault{}); {
				case err == nil && got.Account == "zoë":
					served.Add(1)
				case !errors.As(err, &f) || f.Code != ledger.CodeNoInvitation || f.Kind != fault.Missing:
					t.Errorf("got %+v, %v", got, err)
				}
			})
		}
	})
	if served.Load() != 1 {
		b.Errorf("the invitation served %d times", served.Load())
	}
	clock = noon.Add(time.Hour)
	_, err = s.Invitation(b.ctx, "first")
	b.faultOf(err, ledger.CodeInvitationOver)
	_, err = s.TakeInvitation(b.ctx, "first")
	b.faultOf(err, ledger.CodeInvitationOver)
	_, err = s.TakeInvitation(b.ctx, "first")
	b.faultOf(err, ledger.CodeNoInvitation)
	var told []string
	for _, c := range b.history(s, ledger.Page{}) {
		told = append(told, c.Who+" "+c.What)
	}
	slices.Sort(told)
	b.same([]string{" invited the first admin", "ada invited zoë"}, told)
	b.noSecrets(s)
}
