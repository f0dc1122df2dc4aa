package desk

import (
	"context"
	"errors"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/alexedwards/argon2id"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// house is a desk with people and a clock that the test turns.
type house struct {
	*Desk
	book *book
	now  time.Time
}

func newHouse() *house {
	h := &house{book: newBook(), now: time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)}
	h.book.now = func() time.Time { return h.now }
	h.Desk = &Desk{
		Books: h.book, Now: h.book.now, Random: rand.NewChaCha8([32]byte{1}),
		Costs: &argon2id.Params{Memory: 64, Iterations: 1, Parallelism: 1, SaltLength: 16, KeyLength: 32},
	}
	return h
}

func as(ctx context.Context, name string, role access.Role) context.Context {
	return access.With(ctx, access.Who{Name: name, Role: role})
}

const good = "seven folded sheets"

// moveIn makes an account with the password [good].
func (h *house) moveIn(t *testing.T, name string, role access.Role) {
	t.Helper()
	secret, err := h.Invite(as(t.Context(), "root", access.Admin), name, role, "")
	if err == nil {
		_, err = h.ChoosePassword(t.Context(), secret, "", good)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func code(err error) fault.Code {
	if all := fault.All(err); len(all) > 0 {
		return all[0].Code
	}
	return ""
}

func wantCode(t *testing.T, err error, want fault.Code) {
	t.Helper()
	if got := code(err); got != want || err == nil && want != "" {
		t.Errorf("got %v, want the code %q", err, want)
	}
}

func TestFirstStartMakesOneAdmin(t *testing.T) {
	h, root := newHouse(), as(t.Context(), "start", access.Admin)
	first, err := h.FirstInvitation(root)
	if err != nil || first == "" {
		t.Fatalf("no first invitation: %v", err)
	}
	second, _ := h.FirstInvitation(root) // started again before the first link was used
	made, err := h.ChoosePassword(t.Context(), first, "Ada", good)
	if err != nil || made.Name != "ada" || made.Role != access.Admin {
		t.Fatalf("made %+v, %v", made, err)
	}
	if _, err := h.LogIn(t.Context(), "ADA", good); err != nil {
		t.Errorf("the first admin cannot log in: %v", err)
	}
	for _, used := range []string{first, "", "never-was"} {
		_, err := h.ChoosePassword(t.Context(), used, "mallory", good)
		wantCode(t, err, ledger.CodeNoInvitation)
	}
	_, err = h.ChoosePassword(t.Context(), second, "mallory", good)
	wantCode(t, err, CodeInvitation)
	if again, err := h.FirstInvitation(root); again != "" || err != nil {
		t.Errorf("a first invitation although there is an account (%v)", err)
	}
}

func TestFirstOfManyAtOnceIsTheOnlyAdmin(t *testing.T) {
	h, root := newHouse(), as(t.Context(), "start", access.Admin)
	var wait sync.WaitGroup
	for _, name := range []string{"ann", "bob", "cid", "dee"} {
		secret, err := h.FirstInvitation(root)
		if err != nil {
			t.Fatal(err)
		}
		wait.Go(func() { _, _ = h.ChoosePassword(t.Context(), secret, name, good) })
	}
	wait.Wait()
	if n := len(h.book.accounts); n != 1 {
		t.Errorf("%d accounts came of the first links", n)
	}
}

func TestInvitationLastsADay(t *testing.T) {
	h := newHouse()
	secret, err := h.Invite(as(t.Context(), "root", access.Admin), "ada", access.Lead, "de")
	if err != nil {
		t.Fatal(err)
	}
	h.now = h.now.Add(InvitationLasts)
	_, err = h.ChoosePassword(t.Context(), secret, "", good)
	wantCode(t, err, ledger.CodeNoInvitation)
}

func TestInvitationOutlivesABadPassword(t *testing.T) {
	h := newHouse()
	secret, err := h.Invite(as(t.Context(), "root", access.Admin), "ada", access.Lead, "de")
	if err != nil {
		t.Fatal(err)
	}
	if name, err := h.Invited(t.Context(), secret); name != "ada" || err != nil {
		t.Errorf("the link is for %q, %v", name, err)
	}
	for _, c := range []struct {
		name, password string
		want           fault.Code
	}{
		{"", "short", CodePassword},
		{"", "ada-123456", CodePassword}, // known to be the name only once the link is looked at
		{"bob", good, CodeInvitation},    // somebody else's link
		{"a b", good, CodeAccountName},
		{"", good, ""},
		{"", good, ledger.CodeNoInvitation}, // used
	} {
		_, err := h.ChoosePassword(t.Context(), secret, c.name, c.password)
		wantCode(t, err, c.want)
	}
	if a, err := h.LogIn(t.Context(), "ada", good); err != nil || a.Role != access.Lead || a.Lang != "de" || !a.Chosen {
		t.Errorf("got %+v, %v", a, err)
	}
}

func TestNewPasswordByLink(t *testing.T) {
	h, root := newHouse(), as(t.Context(), "root", access.Admin)
	h.moveIn(t, "ada", access.Lead)
	_, err := h.Invite(root, "ada", access.Admin, "")
	wantCode(t, err, ledger.CodeTwice) // no second account, and no role by the way
	secret, err := h.Invite(root, "ada", access.Nobody, "")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := h.LogIn(t.Context(), "ada", good); err != nil {
		t.Errorf("the old password ends before there is a new one: %v", err)
	}
	if _, err := h.ChoosePassword(t.Context(), secret, "ada", good+" more"); err != nil {
		t.Fatal(err)
	}
	_, err = h.LogIn(t.Context(), "ada", good)
	wantCode(t, err, CodeLogIn)
	if a, err := h.LogIn(t.Context(), "ada", good+" more"); err != nil || a.Role != access.Lead {
		t.Errorf("got %+v, %v", a, err)
	}
}

func TestPasswordRule(t *testing.T) {
	for password, ok := range map[string]bool{
		"":                                 false,
		"ninechars":                        false,
		"ten-chars!":                       true,
		"zehn Blätter":                     true,
		"Sieben Falzbögen":                 true,
		"1234567890":                       false,
		"PASSWORD123":                      false,
		"aaaaaaaaaaaa":                     false,
		"abababababab":                     false,
		"ada.lovelace":                     false, // the name
		"Ada.Lovelace1":                    false,
		"ada.lovelaceada.lovelace":         false,
		"ada.lovelace folds":               true,
		"bell\x07bell\x07bell":             false,
		"bad\xffutf8 bytes":                false,
		strings.Repeat("long ", 40):        true,
		strings.Repeat("long ", 40) + "er": false,
		strings.Repeat("ü", 5):             false, // ten bytes, five characters
	} {
		ready, err := checkPassword(password, "ada.lovelace")
		if ok != (err == nil) {
			t.Errorf("%.40q: %v, want good: %v", password, err, ok)
		}
		if err != nil && (code(err) != CodePassword || fault.All(err)[0].Right == "") {
			t.Errorf("%.40q: %v does not say what would be right", password, err)
		}
		if err != nil && len(password) > 4 && strings.Contains(err.Error(), password) {
			t.Errorf("the fault repeats the password: %v", err)
		}
		if ok && ready == "" {
			t.Errorf("%.40q comes out empty", password)
		}
	}
	for _, p := range foolish {
		if len([]rune(p)) < passwordLeast || p != strings.ToLower(p) {
			t.Errorf("%q in the list of foolish passwords is never met", p)
		}
	}
}

// A letter with its accent in one piece or in two is one password (RFC 8265, section 4.2: normalisation form C).
func TestPasswordIsTheSameHoweverItIsComposed(t *testing.T) {
	h := newHouse()
	secret, err := h.Invite(as(t.Context(), "root", access.Admin), "ada", access.Lead, "")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := h.ChoosePassword(t.Context(), secret, "", "pli en portefeuille\u00e9"); err != nil {
		t.Fatal(err)
	}
	if _, err := h.LogIn(t.Context(), "ada", "pli en portefeuillee\u0301"); err != nil {
		t.Errorf("composed otherwise: %v", err)
	}
}

func TestLogInRefuses(t *testing.T) {
	h, root := newHouse(), as(t.Context(), "root", access.Admin)
	h.moveIn(t, "ada", access.Lead)
	h.moveIn(t, "eva", access.Lead)
	if _, err := h.Invite(root, "invited", access.Viewer, ""); err != nil {
		t.Fatal(err)
	}
	if _, err := h.PutAccount(root, Account{Name: "eva", Role: access.Lead, Ended: true, Version: h.book.accounts["eva"].Version}); err != nil {
		t.Fatal(err)
	}
	said := map[string]bool{}
	for _, c := range [][2]string{
		{"ada", "wrong password"},
		{"ada", ""},
		{"nobody", good},
		{"eva", good},     // ended
		{"invited", ""},   // no password yet
		{"invited", good}, //
		{"", good},
		{"ada' OR '1'='1", good},
		{"<b>ada</b>", good},
		{"\xff\xfe", good},
		{strings.Repeat("a", 1<<20), good},
		{"ada", strings.Repeat("a", 1<<20)},
	} {
		_, err := h.LogIn(t.Context(), c[0], c[1])
		wantCode(t, err, CodeLogIn)
		said[err.Error()] = true
	}
	if len(said) != 1 {
		t.Errorf("the answers differ, which tells who has an account: %v", slices.Collect(maps.Keys(said)))
	}
	if a, err := h.LogIn(t.Context(), " Ada ", good); err != nil || a.Name != "ada" {
		t.Errorf("got %+v, %v", a, err)
	}
}

// Whether or not there is such a name, one password is worked on.
func TestUnknownNamesTakeAsLong(t *testing.T) {
	h := newHouse()
	h.moveIn(t, "ada", access.Lead)
	turns := h.hashing.turns
	for range hashingsMost {
		turns <- struct{}{} // both turns are taken
	}
	for _, name := range []string{"ada", "nobody", "", "invalid name"} {
		ctx, stop := context.WithCancel(t.Context())
		stop()
		if _, err := h.LogIn(ctx, name, good); !errors.Is(err, context.Canceled) {
			t.Errorf("%q was answered without a turn: %v", name, err)
		}
	}
	<-turns
	if _, err := h.LogIn(t.Context(), "ada", good); err != nil {
		t.Errorf("a free turn is not taken: %v", err)
	}
}

func TestWhoMayChangeAccounts(t *testing.T) {
	inch := true
	for _, c := range []struct {
		what string
		who  access.Who
		to   func(*Account)
		want fault.Code
	}{
		{"own language", access.Who{Name: "ada", Role: access.Viewer}, func(a *Account) { a.Lang, a.Inch = "fr", &inch }, ""},
		{"no such language", access.Who{Name: "ada", Role: access.Viewer}, func(a *Account) { a.Lang = "xx" }, CodeLang},
		{"own role", access.Who{Name: "ada", Role: access.Viewer}, func(a *Account) { a.Role = access.Admin }, access.CodeDenied},
		{"own account back in", access.Who{Name: "ada", Role: access.Viewer}, func(a *Account) { a.Ended = true }, access.CodeDenied},
		{"by a program", access.Who{Name: "ada", Role: access.Viewer, By: "screen"}, func(a *Account) { a.Lang = "fr" }, access.CodeDenied},
		{"another's language", access.Who{Name: "bob", Role: access.Lead}, func(a *Account) { a.Lang = "fr" }, access.CodeDenied},
		{"nobody", access.Who{}, func(a *Account) { a.Lang = "fr" }, access.CodeDenied},
		{"as admin", access.Who{Name: "bob", Role: access.Admin}, func(a *Account) { a.Role, a.Ended = access.Operator, true }, ""},
		{"no role", access.Who{Name: "bob", Role: access.Admin}, func(a *Account) { a.Role = access.Nobody }, CodeRole},
		{"a role that is none", access.Who{Name: "bob", Role: access.Admin}, func(a *Account) { a.Role = 200 }, CodeRole},
		{"stale", access.Who{Name: "bob", Role: access.Admin}, func(a *Account) { a.Version-- }, ledger.CodeStale},
	} {
		t.Run(c.what, func(t *testing.T) {
			h := newHouse()
			h.moveIn(t, "ada", access.Viewer)
			before := h.book.accounts["ada"]
			a := shown(before)
			c.to(&a)
			got, err := h.PutAccount(access.With(t.Context(), c.who), a)
			wantCode(t, err, c.want)
			after := h.book.accounts["ada"]
			if c.want != "" && after != before {
				t.Errorf("refused, and yet %+v became %+v", before, after)
			}
			if c.want == "" && (got.Role != a.Role || got.Lang != a.Lang || got.Version == before.Version || after.Hash != before.Hash) {
				t.Errorf("asked for %+v, got %+v", a, got)
			}
		})
	}
}

func TestChangePassword(t *testing.T) {
	h := newHouse()
	h.moveIn(t, "ada", access.Viewer)
	me := as(t.Context(), "ada", access.Viewer)
	program := access.With(t.Context(), access.Who{Name: "ada", Role: access.Viewer, By: "screen"})
	wantCode(t, h.ChangePassword(t.Context(), good, good+"!"), access.CodeDenied)
	wantCode(t, h.ChangePassword(program, good, good+"!"), access.CodeDenied)
	wantCode(t, h.ChangePassword(me, "not this one", good+"!"), CodeLogIn)
	wantCode(t, h.ChangePassword(me, good, "short"), CodePassword)
	wantCode(t, h.ChangePassword(me, good, good+"!"), "")
	if _, err := h.LogIn(t.Context(), "ada", good+"!"); err != nil {
		t.Error(err)
	}
	_, err := h.LogIn(t.Context(), "ada", good)
	wantCode(t, err, CodeLogIn)
}

func TestVouched(t *testing.T) {
	h := newHouse()
	h.moveIn(t, "ada", access.Viewer)
	for _, c := range []struct {
		name  string
		role  access.Role
		fresh access.Role
		want  access.Role
		code  fault.Code
	}{
		{"ada", access.Nobody, access.Nobody, access.Viewer, ""},
		{"ada", access.Nobody, access.Admin, access.Viewer, ""},
		{"Ada", access.Lead, access.Nobody, access.Lead, ""},
		{"bob", access.Nobody, access.Nobody, access.Nobody, CodeLogIn},
		{"bob", access.Lead, access.Nobody, access.Nobody, CodeLogIn},
		{"bob", access.Nobody, access.Operator, access.Operator, ""},
		{"cid", access.Lead, access.Operator, access.Lead, ""},
		{"", access.Operator, access.Operator, access.Nobody, CodeAccountName},
	} {
		got, err := h.Vouched(t.Context(), c.name, c.role, c.fresh)
		wantCode(t, err, c.code)
		if got.Role != c.want {
			t.Errorf("%s came in as %v, want %v", c.name, got.Role, c.want)
		}
	}
	_, err := h.LogIn(t.Context(), "bob", "")
	wantCode(t, err, CodeLogIn) // no password is no password
}

func TestNobodyButAdminsSeesPeople(t *testing.T) {
	h := newHouse()
	for _, role := range append(access.Roles(), access.Nobody) {
		ctx := as(t.Context(), "ada", role)
		want := access.CodeDenied
		if role == access.Admin {
			want = ""
		}
		_, err := h.Accounts(ctx)
		wantCode(t, err, want)
		_, err = h.Invite(ctx, "x"+role.String(), access.Viewer, "")
		wantCode(t, err, want)
		_, err = h.FirstInvitation(ctx)
		wantCode(t, err, want)
	}
}

func TestAccountNames(t *testing.T) {
	for name, want := range map[string]string{
		"ada": "ada", "Ada": "ada", " ada ": "ada", "ada.l": "ada.l", "ada@folding": "ada@folding", "Åsa": "åsa", "A\u030asa": "åsa", "7": "7", "折り": "折り",
		"": "", ".ada": "", "ada b": "", "ada/b": "", "../etc": "", "ada\n": "ada", "a\x00b": "", "<i>": "", "ada'--": "", "ada;drop": "", "\xc3\x28": "",
		strings.Repeat("a", 64): strings.Repeat("a", 64), strings.Repeat("a", 65): "", "a\u202eb": "", "%2e": "",
	} {
		got, err := accountName(name)
		if got != want || (err == nil) != (want != "") {
			t.Errorf("%q gives %q, %v; want %q", name, got, err, want)
		}
	}
}
