package gate

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/words"
)

// Kinds of routes × who asks: what the gate itself answers. What a role may do there is for the rooms behind it.
func TestWhoGetsThrough(t *testing.T) {
	h := newHouse(t)
	askers := map[string]func() []string{
		"nobody": func() []string { return nil }, "a wrong token": func() []string { return []string{"Authorization", "Bearer fw_guessed"} },
		"another scheme": func() []string { return []string{"Authorization", "Basic YWRhOmFkYQ=="} },
	}
	for _, role := range access.Roles() {
		h.moveIn(t, role.String(), role)
		secret := h.token(t, role.String(), role)
		askers[role.String()+" by token"] = func() []string { return []string{"Authorization", "Bearer " + secret} }
		b := h.browser(t)
		b.logIn(role.String())
		cookie := b.session()
		askers[role.String()] = func() []string { return []string{"Cookie", cookie.Name + "=" + cookie.Value} }
	}
	const in, toLogIn, needLogIn, denied = http.StatusOK, http.StatusSeeOther, http.StatusUnauthorized, http.StatusForbidden
	for _, c := range []struct {
		method, path string
		nobody       int // nobody at all
		wrong        int // a token that lets nobody in
		member       int
		admin        int
	}{
		{"GET", "/login", in, denied, in, in},
		{"GET", "/static/app.css", in, in, in, in},
		{"GET", "/", toLogIn, denied, in, in},
		{"GET", "/jobs/2107", toLogIn, denied, in, in},
		{"POST", "/jobs/2107", toLogIn, denied, in, in},
		{"GET", "/no/such/page", toLogIn, denied, in, in},
		{"GET", "/api/v1/who", needLogIn, needLogIn, in, in},
		{"GET", "/api/v1/openapi.json", in, needLogIn, in, in},
		{"GET", "/api/v1/rule", needLogIn, needLogIn, denied, in},
		{"POST", "/api/v1/jobs", needLogIn, needLogIn, http.StatusCreated, http.StatusCreated},
		{"POST", "/api/v1/openapi.json", http.StatusMethodNotAllowed, needLogIn, http.StatusMethodNotAllowed, http.StatusMethodNotAllowed},
		{"GET", "/api/v1/no-such", needLogIn, needLogIn, http.StatusNotFound, http.StatusNotFound},
	} {
		for name, headers := range askers {
			want := c.member
			switch {
			case name == "nobody":
				want = c.nobody
			case strings.Contains(name, "wrong") || strings.Contains(name, "scheme"):
				want = c.wrong
			case strings.HasPrefix(name, "admin"):
				want = c.admin
			}
			if want == denied && c.wrong == denied && !strings.HasPrefix(c.path, "/api") {
				want = http.StatusUnauthorized // a wrong token is told so wherever it is shown
			}
			w := h.browser(t).ask(c.method, c.path, "x", headers()...)
			if w.StatusCode != want {
				t.Errorf("%s %s by %s: %d, want %d (%s)", c.method, c.path, name, w.StatusCode, want, w.text)
			}
			if got := w.Header.Get("WWW-Authenticate") != ""; strings.HasPrefix(c.path, "/api") && got != (w.StatusCode == needLogIn) {
				t.Errorf("%s by %s: WWW-Authenticate is %q at %d", c.path, name, w.Header.Get("WWW-Authenticate"), w.StatusCode)
			}
		}
	}
}

func TestTokensSayWhoTheyAre(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Lead)
	secret := h.token(t, "ada", access.Operator)
	for _, header := range []string{"Bearer " + secret, "bearer " + secret, "BEARER  " + secret + " "} {
		if w := h.browser(t).get("/api/v1/who", "Authorization", header); w.text != "ada by screen is operator" {
			t.Errorf("%q is %s %q", header, w.Status, w.text)
		}
	}
	// With both, the token counts: a program in a browser's place asks as the program.
	b := h.browser(t)
	b.logIn("ada")
	if w := b.get("/api/v1/who", "Authorization", "Bearer "+secret); w.text != "ada by screen is operator" {
		t.Errorf("token and cookie give %q", w.text)
	}
	if w := b.get("/api/v1/who"); w.text != "ada is lead" {
		t.Errorf("the cookie gives %q", w.text)
	}
}

func TestProblemsAreDocuments(t *testing.T) {
	h := newHouse(t)
	w := h.browser(t).get("/api/v1/who")
	var p exchange.ProblemDocument
	if err := json.Unmarshal([]byte(w.text), &p); err != nil {
		t.Fatal(err)
	}
	if w.Header.Get("Content-Type") != "application/problem+json" || p.Status != 401 || p.Type != "/docs/faults#log-in-needed" || p.Errors[0].Right == "" {
		t.Errorf("got %s %+v", w.Header.Get("Content-Type"), p)
	}
}

func TestSpeaker(t *testing.T) {
	h := newHouse(t)
	yes, no := true, false
	for _, c := range []struct {
		lang   string
		inch   *bool
		accept string
		want   words.Lang
		inches bool
	}{
		{"", nil, "", words.English, false},
		{"", nil, "de-AT,de;q=0.9,en;q=0.8", words.German, false},
		{"", nil, "fr-CA", words.French, false},
		{"", nil, "pt-BR,es;q=0.5", words.Spanish, false},
		{"", nil, "ja", words.English, false},
		{"es", &yes, "de", words.Spanish, true},
		{"", &no, "q=;;;,,", words.English, false},
		{"", nil, strings.Repeat("de,", 1000), words.English, false},
		{"", nil, "\xff\xfe", words.English, false},
	} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.Header.Set("Accept-Language", c.accept)
		r = r.WithContext(withVisitor(r.Context(), visitor{who: access.Who{Name: "ada", Role: access.Viewer}, lang: c.lang, inch: c.inch}))
		if s := h.Speaker(r); s.Lang != c.want || s.Inch != c.inches {
			t.Errorf("account %q, browser %.30q: %s, inches %v", c.lang, c.accept, s.Lang, s.Inch)
		}
	}
}

// Names with signs of SQL and HTML come to nothing; where they are said back no browser takes them for a page.
func TestHostileNames(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Admin)
	for _, name := range []string{"' OR 1=1 --", "ada'; DROP TABLE account; --", "<script>alert(1)</script>", "ada\x00", "\xc3\x28", "%00", "../../etc/passwd", strings.Repeat("a", 100000), "ada\r\nSet-Cookie: x=y"} {
		for path, fields := range map[string][]string{"/login": {"name", name, "password", good}, "/welcome": {"secret", name, "name", name, "password", good}} {
			w := h.browser(t).post(path, fields...)
			if w.StatusCode < 400 || w.StatusCode >= 500 {
				t.Errorf("%s with %.40q: %s", path, name, w.Status)
			}
			if strings.HasPrefix(w.Header.Get("Content-Type"), "text/html") || w.Header.Get("X-Content-Type-Options") != "nosniff" || len(w.Cookies()) > 0 {
				t.Errorf("%s with %.40q answers %q, %v", path, name, w.text, w.Header)
			}
		}
	}
	if _, err := h.desk.LogIn(t.Context(), "ada", good); err != nil {
		t.Errorf("the account suffered: %v", err)
	}
}

func TestInvitedComeIn(t *testing.T) {
	h := newHouse(t)
	root := access.With(t.Context(), access.Who{Name: "root", Role: access.Admin})
	first, err := h.desk.FirstInvitation(root)
	if err != nil {
		t.Fatal(err)
	}
	b := h.browser(t)
	if w := b.post("/welcome", "secret", first, "name", "ada", "password", "short"); w.StatusCode != http.StatusUnprocessableEntity {
		t.Errorf("a short password gives %s", w.Status)
	}
	if w := b.post("/welcome", "secret", first, "name", "ada", "password", good); w.StatusCode != http.StatusOK {
		t.Fatal(w.Status, w.text)
	}
	if w := b.get("/"); w.text != "ada is admin" {
		t.Errorf("the first admin is not in: %s %q", w.Status, w.text)
	}
	if w := h.browser(t).post("/welcome", "secret", first, "name", "eve", "password", good); w.StatusCode != http.StatusNotFound {
		t.Errorf("the link works twice: %s", w.Status)
	}
	if _, err := h.desk.Invite(root, "bob", access.Viewer, "de"); err != nil {
		t.Fatal(err)
	}
	all, err := h.desk.Accounts(root)
	if err != nil || len(all) != 2 || all[1] != (desk.Account{Name: "bob", Role: access.Viewer, Lang: "de", Since: all[1].Since, Version: all[1].Version}) {
		t.Errorf("got %+v, %v", all, err)
	}
}
