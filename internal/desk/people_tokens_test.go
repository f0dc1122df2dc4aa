package desk

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/fault"
)

func TestTokens(t *testing.T) {
	h, root := newHouse(), as(t.Context(), "root", access.Admin)
	h.moveIn(t, "ada", access.Lead)
	h.moveIn(t, "bob", access.Viewer)
	ada, bob := as(t.Context(), "ada", access.Lead), as(t.Context(), "bob", access.Viewer)
	program := access.With(t.Context(), access.Who{Name: "ada", Role: access.Lead, By: "screen"})
	for _, c := range []struct {
		what    string
		ctx     context.Context
		account string
		name    string
		role    access.Role
		until   time.Time
		want    fault.Code
	}{
		{"own", ada, "ada", "screen", access.Operator, time.Time{}, ""},
		{"with an end", ada, "ada", "guest", access.Lead, h.now.Add(time.Hour), ""},
		{"above the account", ada, "ada", "screen", access.Admin, time.Time{}, CodeRole},
		{"no role", ada, "ada", "screen", access.Nobody, time.Time{}, CodeRole},
		{"another's", bob, "ada", "screen", access.Viewer, time.Time{}, access.CodeDenied},
		{"by a program", program, "ada", "screen", access.Viewer, time.Time{}, access.CodeDenied},
		{"by the admin, above the account", root, "bob", "screen", access.Lead, time.Time{}, CodeRole},
		{"by the admin", root, "bob", "screen", access.Viewer, time.Time{}, ""},
		{"no name", ada, "ada", " ", access.Viewer, time.Time{}, CodeTokenName},
		{"a name of two lines", ada, "ada", "a\nb", access.Viewer, time.Time{}, CodeTokenName},
		{"over already", ada, "ada", "screen", access.Viewer, h.now, CodeTokenName},
		{"nobody's", root, "nobody", "screen", access.Viewer, time.Time{}, "unknown-name"},
	} {
		t.Run(c.what, func(t *testing.T) {
			secret, made, err := h.MakeToken(c.ctx, c.account, c.name, c.role, c.until)
			wantCode(t, err, c.want)
			if c.want != "" {
				return
			}
			who, err := h.WhoHas(t.Context(), secret)
			if want := (access.Who{Name: c.account, Role: c.role, By: c.name}); err != nil || who != want {
				t.Errorf("lets in %v, want %v (%v)", who, want, err)
			}
			if kept := h.book.tokens[made.ID]; strings.Contains(secret, kept.Digest) || strings.Contains(kept.Digest, secret) {
				t.Error("the secret is kept")
			}
		})
	}
	mine, _ := h.Tokens(bob)
	all, _ := h.Tokens(root)
	if len(mine) != 1 || len(all) != 3 {
		t.Errorf("bob sees %d tokens, the admin %d", len(mine), len(all))
	}
	theirs := slices.IndexFunc(all, func(t Token) bool { return t.Account == "ada" })
	wantCode(t, h.RemoveToken(bob, all[theirs].ID), CodeToken) // not among those that bob sees
	wantCode(t, h.RemoveToken(bob, mine[0].ID), "")
}

func TestTokensCostNoReadEachTime(t *testing.T) {
	h := newHouse()
	h.moveIn(t, "ada", access.Lead)
	secret, made, err := h.MakeToken(as(t.Context(), "ada", access.Lead), "ada", "screen", access.Viewer, time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	use := func() {
		t.Helper()
		if _, err := h.WhoHas(t.Context(), secret); err != nil {
			t.Fatal(err)
		}
	}
	for range 100 {
		use()
	}
	if h.book.asked["token"] != 1 || h.book.asked["token used"] != 1 {
		t.Errorf("100 uses in a moment read %d and wrote %d times", h.book.asked["token"], h.book.asked["token used"])
	}
	h.now = h.now.Add(tokenFresh)
	use()
	if h.book.asked["token"] != 2 || h.book.asked["token used"] != 1 {
		t.Errorf("after half a minute it has read %d and written %d times", h.book.asked["token"], h.book.asked["token used"])
	}
	h.now = h.now.Add(tokenNoted)
	use()
	if h.book.asked["token used"] != 2 || !h.book.tokens[made.ID].Used.Equal(h.now) {
		t.Errorf("a use a minute later was not noted: %v", h.book.tokens[made.ID].Used)
	}
}

func TestTokensThatNoLongerLetIn(t *testing.T) {
	for _, c := range []struct {
		what string
		end  func(t *testing.T, h *house, made Token)
	}{
		{"taken back", func(t *testing.T, h *house, made Token) {
			if err := h.RemoveToken(as(t.Context(), "ada", access.Lead), made.ID); err != nil {
				t.Fatal(err)
			}
		}},
		{"account ended", func(t *testing.T, h *house, _ Token) {
			a := shown(h.book.accounts["ada"])
			a.Ended = true
			if _, err := h.PutAccount(as(t.Context(), "root", access.Admin), a); err != nil {
				t.Fatal(err)
			}
		}},
		{"over", func(_ *testing.T, h *house, _ Token) { h.now = h.now.Add(10 * time.Second) }},
	} {
		t.Run(c.what, func(t *testing.T) {
			h := newHouse()
			h.moveIn(t, "ada", access.Lead)
			secret, made, err := h.MakeToken(as(t.Context(), "ada", access.Lead), "ada", "screen", access.Lead, h.now.Add(10*time.Second))
			if err == nil {
				_, err = h.WhoHas(t.Context(), secret)
			}
			if err != nil {
				t.Fatal(err)
			}
			c.end(t, h, made)
			_, err = h.WhoHas(t.Context(), secret)
			wantCode(t, err, CodeToken)
		})
	}
	h := newHouse()
	for _, secret := range []string{"", "fw_", "fw_guess", strings.Repeat("x", 1<<16), "\xff", "fw_' OR 1=1 --"} {
		_, err := h.WhoHas(t.Context(), secret)
		wantCode(t, err, CodeToken)
	}
}

// full is a book in which nothing more can be written.
type full struct{ *book }

func (full) TokenUsed(context.Context, string, time.Time) error {
	return errors.New("the disk is full")
}

func TestAFullDiskKeepsNobodyOut(t *testing.T) {
	h := newHouse()
	h.moveIn(t, "ada", access.Lead)
	secret, _, err := h.MakeToken(as(t.Context(), "ada", access.Lead), "ada", "screen", access.Viewer, time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	h.Books = full{h.book}
	if who, err := h.WhoHas(t.Context(), secret); err != nil || who.Name != "ada" {
		t.Errorf("lets in %v, %v", who, err)
	}
}

// A token is never above what its account is now.
func TestTokenFollowsItsAccountDown(t *testing.T) {
	h := newHouse()
	h.moveIn(t, "ada", access.Lead)
	secret, _, err := h.MakeToken(as(t.Context(), "ada", access.Lead), "ada", "screen", access.Lead, time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	a := shown(h.book.accounts["ada"])
	a.Role = access.Viewer
	if _, err := h.PutAccount(as(t.Context(), "root", access.Admin), a); err != nil {
		t.Fatal(err)
	}
	if who, err := h.WhoHas(t.Context(), secret); err != nil || who.Role != access.Viewer {
		t.Errorf("lets in %v, %v", who, err)
	}
}
