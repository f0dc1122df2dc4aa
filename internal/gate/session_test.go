package gate

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
)

func TestLogInAndOut(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Lead)
	b := h.browser(t)
	if w := b.get("/jobs/2107?day=1"); w.StatusCode != http.StatusSeeOther || w.Header.Get("Location") != "/login?to=%2Fjobs%2F2107%3Fday%3D1" {
		t.Errorf("nobody gets %s to %q", w.Status, w.Header.Get("Location"))
	}
	if w := b.post("/login", "name", "ada", "password", "wrong"); w.StatusCode != http.StatusForbidden || b.session() != nil {
		t.Errorf("a wrong password gives %s and the cookie %v", w.Status, b.session())
	}
	w := b.post("/login", "name", "Ada", "password", good, "to", "/jobs/2107")
	if w.StatusCode != http.StatusSeeOther || w.Header.Get("Location") != "/jobs/2107" {
		t.Fatalf("log-in gives %s to %q", w.Status, w.Header.Get("Location"))
	}
	cookie := w.Cookies()[0]
	if !cookie.HttpOnly || cookie.SameSite != http.SameSiteLaxMode || cookie.Path != "/" || cookie.Domain != "" || cookie.Secure {
		t.Errorf("the cookie is %v", cookie)
	}
	if w := b.get("/jobs/2107"); w.text != "ada is lead" {
		t.Errorf("got %q", w.text)
	}
	if w := b.post("/logout"); w.StatusCode != http.StatusOK {
		t.Errorf("log-out gives %s", w.Status)
	}
	// The browser forgot the cookie; whoever kept it gets no further with it.
	if w := h.browser(t).get("/jobs/2107", "Cookie", cookie.Name+"="+cookie.Value); w.StatusCode != http.StatusSeeOther {
		t.Errorf("the cookie of an ended session gives %s", w.Status)
	}
}

// Whoever plants a cookie before the log-in does not know the one after it.
func TestLogInRenewsTheToken(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Lead)
	b := h.browser(t)
	b.logIn("ada")
	first := b.session().Value
	b.logIn("ada")
	second := b.session().Value
	if first == second {
		t.Fatal("the token stays at a log-in")
	}
	if w := h.browser(t).get("/", "Cookie", "foldwright="+first); w.StatusCode != http.StatusSeeOther {
		t.Errorf("the token of before the log-in gives %s", w.Status)
	}
	if w := h.browser(t).get("/", "Cookie", "foldwright=planted"); w.StatusCode != http.StatusSeeOther {
		t.Errorf("a planted token gives %s", w.Status)
	}
}

func TestCookieOverTLS(t *testing.T) {
	h := newHouse(t, func(c *Config) { c.Secure, c.Address = true, "https://folding.example" })
	h.moveIn(t, "ada", access.Lead)
	w := h.browser(t).post("/login", "name", "ada", "password", good)
	if c := w.Cookies()[0]; !c.Secure || c.Name != "__Host-foldwright" {
		t.Errorf("the cookie is %v", c)
	}
	if got := w.Header.Get("Strict-Transport-Security"); !strings.HasPrefix(got, "max-age=") {
		t.Errorf("HSTS is %q", got)
	}
}

func TestSessionsEnd(t *testing.T) {
	root := access.Who{Name: "root", Role: access.Admin}
	put := func(t *testing.T, h *house, change func(*desk.Account)) {
		t.Helper()
		ctx := access.With(t.Context(), root)
		all, err := h.desk.Accounts(ctx)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range all {
			if a.Name == "ada" {
				change(&a)
				if _, err := h.desk.PutAccount(ctx, a); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	for _, c := range []struct {
		what string
		do   func(t *testing.T, h *house)
		in   bool
	}{
		{"11 hours idle", func(_ *testing.T, h *house) { h.clock.turn(11 * time.Hour) }, true},
		{"13 hours idle", func(_ *testing.T, h *house) { h.clock.turn(13 * time.Hour) }, false},
		{"the account ended", func(t *testing.T, h *house) { put(t, h, func(a *desk.Account) { a.Ended = true }) }, false},
		{"another role", func(t *testing.T, h *house) { put(t, h, func(a *desk.Account) { a.Role = access.Viewer }) }, true},
		{"another password", func(t *testing.T, h *house) {
			if err := h.desk.ChangePassword(access.With(t.Context(), access.Who{Name: "ada", Role: access.Lead}), good, good+"!"); err != nil {
				t.Fatal(err)
			}
		}, false},
		{"ended by the admin", func(t *testing.T, h *house) {
			ctx := access.With(t.Context(), root)
			list, err := h.LoggedIn(ctx, "ada")
			if err != nil || len(list) != 1 {
				t.Fatal(list, err)
			}
			if err := h.EndLogIn(ctx, list[0].ID); err != nil {
				t.Fatal(err)
			}
		}, false},
	} {
		t.Run(c.what, func(t *testing.T) {
			h := newHouse(t)
			h.moveIn(t, "ada", access.Lead)
			b := h.browser(t)
			b.logIn("ada")
			c.do(t, h)
			w := b.get("/")
			if in := w.StatusCode == http.StatusOK; in != c.in {
				t.Errorf("in: %v, want %v (%s %s)", in, c.in, w.Status, w.text)
			}
		})
	}
}

// Somebody who is active stays, up to a week.
func TestActivityKeepsASession(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Lead)
	b := h.browser(t)
	b.logIn("ada")
	for range 10 {
		h.clock.turn(11 * time.Hour)
		if w := b.get("/"); w.StatusCode != http.StatusOK {
			t.Fatalf("active all the time, and out: %s", w.Status)
		}
	}
	h.clock.turn(sessionLife)
	if w := b.get("/"); w.StatusCode != http.StatusSeeOther {
		t.Errorf("after more than a week: %s", w.Status)
	}
}

// A page that is looked at costs no write each time.
func TestLookingCostsNoWrite(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Lead)
	b := h.browser(t)
	b.logIn("ada")
	for range 5 {
		if w := b.get("/"); len(w.Cookies()) > 0 {
			t.Fatal("the session was written")
		}
	}
	h.clock.turn(sessionNote + time.Second)
	if w := b.get("/"); len(w.Cookies()) == 0 {
		t.Error("a sign of life later was not noted")
	}
}

func TestChangePasswordEndsTheOtherSessions(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Lead)
	mine, other := h.browser(t), h.browser(t)
	mine.logIn("ada")
	other.logIn("ada")
	if w := mine.post("/me/password", "old", "not this", "password", good+"!"); w.StatusCode == http.StatusOK {
		t.Error("changed without the old password")
	}
	if w := mine.post("/me/password", "old", good, "password", good+"!"); w.StatusCode != http.StatusOK {
		t.Fatal(w.Status, w.text)
	}
	if w := mine.get("/"); w.StatusCode != http.StatusOK {
		t.Errorf("whoever changed it is out: %s", w.Status)
	}
	if w := other.get("/"); w.StatusCode != http.StatusSeeOther {
		t.Errorf("the other session goes on: %s", w.Status)
	}
}

func TestWhoSeesAndEndsSessions(t *testing.T) {
	h := newHouse(t)
	for name, role := range map[string]access.Role{"ada": access.Lead, "bob": access.Viewer} {
		h.moveIn(t, name, role)
		h.browser(t).logIn(name)
	}
	of := func(name string, role access.Role, by string) (n int, err error) {
		list, err := h.LoggedIn(access.With(t.Context(), access.Who{Name: name, Role: role, By: by}), "ada")
		return len(list), err
	}
	for _, c := range []struct {
		name string
		role access.Role
		by   string
		want int
	}{
		{"ada", access.Lead, "", 1}, {"ada", access.Lead, "screen", 0}, {"bob", access.Lead, "", 0}, {"bob", access.Admin, "", 1}, {"", access.Nobody, "", 0},
	} {
		if n, err := of(c.name, c.role, c.by); n != c.want || (err == nil) != (c.want > 0) {
			t.Errorf("%s as %s by %q sees %d, %v", c.name, c.role, c.by, n, err)
		}
	}
	admin := access.With(t.Context(), access.Who{Name: "root", Role: access.Admin})
	all, err := h.LoggedIn(admin, "")
	if err != nil || len(all) != 2 {
		t.Fatalf("the admin sees %v, %v", all, err)
	}
	adas, _ := h.LoggedIn(admin, "ada")
	if adas[0].From != "127.0.0.1" || adas[0].Agent == "" || adas[0].Since.IsZero() {
		t.Errorf("the session tells %+v", adas[0])
	}
	bob := access.With(t.Context(), access.Who{Name: "bob", Role: access.Viewer})
	if err := h.EndLogIn(bob, adas[0].ID); err == nil {
		t.Error("bob ended ada's session")
	}
	if err := h.EndLogIn(admin, adas[0].ID); err != nil {
		t.Error(err)
	}
	if left, _ := h.LoggedIn(admin, "ada"); len(left) != 0 {
		t.Errorf("it goes on: %v", left)
	}
}
