package gate

import (
	"context"
	"crypto/rand"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/alexedwards/argon2id"

	"foldwright/internal/access"
	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/ledger"
	"foldwright/internal/store"
)

// house is a gate with a real store behind it, pages and calls that tell who came through, and a clock that the test turns.
type house struct {
	*Gate
	desk   *desk.Desk
	server *httptest.Server
	log    *lines
	clock  *clock
}

const good = "seven folded sheets"

// cheap hashing, so that tests are not about it.
var cheap = &argon2id.Params{Memory: 64, Iterations: 1, Parallelism: 1, SaltLength: 16, KeyLength: 32}

// newHouse opens one; change what is to be otherwise.
func newHouse(t testing.TB, change ...func(*Config)) *house {
	t.Helper()
	h := &house{log: new(lines), clock: &clock{at: time.Now()}}
	kept, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "shop.db"), store.Options{Now: h.clock.Now})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { kept.Close() })
	shop, err := demo.Shop()
	if err == nil {
		_, err = kept.Fill(t.Context(), ledger.By{Who: "test"}, shop)
	}
	if err != nil {
		t.Fatal(err)
	}
	h.desk = &desk.Desk{Store: kept, Books: kept, Now: h.clock.Now, Random: rand.Reader, Costs: cheap}
	c := Config{
		Desk: h.desk, Sessions: kept.Sessions(), Keys: kept.Keys(), Now: h.clock.Now,
		Log: slog.New(slog.NewJSONHandler(h.log, &slog.HandlerOptions{Level: slog.LevelDebug})), Limits: Limits{LogInsByAddress: -1, LogInsByName: -1},
	}
	for _, f := range change {
		f(&c)
	}
	if h.Gate, err = New(c); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		ctx, stop := context.WithTimeout(context.Background(), 10*time.Second)
		defer stop()
		if err := h.Stop(ctx); err != nil {
			t.Error(err)
		}
	})
	mux := http.NewServeMux()
	mux.Handle("/", h.Pages(h.pages()))
	mux.Handle("/api/v1/", h.API(h.calls()))
	mux.Handle("/metrics", h.Metrics())
	h.server = httptest.NewServer(mux)
	t.Cleanup(h.server.Close)
	return h
}

// pages are as small as pages can be.
func (h *house) pages() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /login", func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, "log in") })
	mux.HandleFunc("POST /login", func(w http.ResponseWriter, r *http.Request) {
		if err := h.LogIn(w, r, r.FormValue("name"), r.FormValue("password")); err != nil {
			plainTrouble(w, r, err)
			return
		}
		http.Redirect(w, r, Local(r.FormValue("to")), http.StatusSeeOther)
	})
	mux.HandleFunc("POST /logout", func(w http.ResponseWriter, r *http.Request) { h.answer(w, r, h.LogOut(r)) })
	mux.HandleFunc("POST /welcome", func(w http.ResponseWriter, r *http.Request) {
		h.answer(w, r, h.Welcome(w, r, r.FormValue("secret"), r.FormValue("name"), r.FormValue("password")))
	})
	mux.HandleFunc("POST /me/password", func(w http.ResponseWriter, r *http.Request) {
		h.answer(w, r, h.ChangePassword(w, r, r.FormValue("old"), r.FormValue("password")))
	})
	mux.HandleFunc("GET /jobs/{job}", who)
	mux.HandleFunc("GET /boom", func(http.ResponseWriter, *http.Request) { panic("a secret reason") })
	mux.HandleFunc("GET /half", func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, "half"); panic("then this") })
	mux.HandleFunc("GET /static/app.css", func(w http.ResponseWriter, _ *http.Request) { w.Header().Set("Cache-Control", "max-age=60") })
	mux.HandleFunc("GET /", who)
	mux.HandleFunc("POST /", func(w http.ResponseWriter, r *http.Request) {
		n, err := io.Copy(io.Discard, r.Body)
		if err != nil {
			h.answer(w, r, err)
			return
		}
		fmt.Fprintf(w, "took %d", n)
	})
	return mux
}

// calls are, too.
func (h *house) calls() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /api/v1/who", who)
	mux.HandleFunc("GET /api/v1/openapi.json", who)
	mux.HandleFunc("GET /api/v1/rule", func(w http.ResponseWriter, r *http.Request) {
		if err := access.From(r.Context()).May(access.Rule); err != nil {
			Refuse(w, r, err)
			return
		}
		who(w, r)
	})
	count := 0
	var mu sync.Mutex
	mux.HandleFunc("POST /api/v1/jobs", func(w http.ResponseWriter, r *http.Request) {
		body, err := io.ReadAll(r.Body)
		if err != nil {
			Refuse(w, r, err)
			return
		}
		mu.Lock()
		count++
		n := count
		mu.Unlock()
		switch string(body) {
		case "denied":
			Refuse(w, r, access.Who{}.May(access.Rule))
			return
		case "broken":
			w.WriteHeader(http.StatusInternalServerError)
			return
		case "panic":
			panic("in the middle")
		}
		w.Header().Set("Location", fmt.Sprintf("/api/v1/jobs/%d", n))
		w.WriteHeader(http.StatusCreated)
		fmt.Fprintf(w, "made %d of %d bytes", n, len(body))
	})
	for _, path := range []string{"/api/v1/import", "/api/v1/restore"} {
		mux.HandleFunc("POST "+path, func(w http.ResponseWriter, r *http.Request) {
			n, err := io.Copy(io.Discard, r.Body)
			if err != nil {
				Refuse(w, r, err)
				return
			}
			fmt.Fprintf(w, "took %d", n)
		})
	}
	return mux
}

func who(w http.ResponseWriter, r *http.Request) {
	who := access.From(r.Context())
	fmt.Fprintf(w, "%s is %s", who, who.Role)
}

// clock is turned by hand.
type clock struct {
	mu sync.Mutex
	at time.Time
}

func (c *clock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.at
}

func (c *clock) turn(by time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.at = c.at.Add(by)
}

// lines is a log that is read.
type lines struct {
	mu   sync.Mutex
	text strings.Builder
}

func (l *lines) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *lines) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

// moveIn makes an account with the password [good].
func (h *house) moveIn(t testing.TB, name string, role access.Role) {
	t.Helper()
	ctx := access.With(t.Context(), access.Who{Name: "test", Role: access.Admin})
	secret, err := h.desk.Invite(ctx, name, role, "")
	if err == nil {
		_, err = h.desk.ChoosePassword(ctx, secret, "", good)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// token makes one.
func (h *house) token(t testing.TB, account string, role access.Role) string {
	t.Helper()
	secret, _, err := h.desk.MakeToken(access.With(t.Context(), access.Who{Name: account, Role: role}), account, "screen", role, time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	return secret
}

// browser keeps cookies, follows nothing, and sends what browsers send.
type browser struct {
	t      testing.TB
	client *http.Client
	base   string
}

func (h *house) browser(t testing.TB) *browser {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &browser{t, &http.Client{Jar: jar, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}, h.server.URL}
}

// answered is an answer that was read to its end.
type answered struct {
	*http.Response
	text string
}

func (b *browser) ask(method, path, body string, headers ...string) answered {
	b.t.Helper()
	r, err := http.NewRequestWithContext(b.t.Context(), method, b.base+path, strings.NewReader(body))
	if err != nil {
		b.t.Fatal(err)
	}
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Sec-Fetch-Site", "same-origin")
	}
	for i := 0; i < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	return b.do(r)
}

func (b *browser) do(r *http.Request) answered {
	b.t.Helper()
	w, err := b.client.Do(r)
	if err != nil {
		b.t.Fatal(err)
	}
	defer w.Body.Close()
	text, err := io.ReadAll(w.Body)
	if err != nil {
		b.t.Fatal(err)
	}
	return answered{w, string(text)}
}

func (b *browser) get(path string, headers ...string) answered {
	b.t.Helper()
	return b.ask(http.MethodGet, path, "", headers...)
}

func (b *browser) post(path string, fields ...string) answered {
	b.t.Helper()
	form := url.Values{}
	for i := 0; i < len(fields); i += 2 {
		form.Set(fields[i], fields[i+1])
	}
	return b.ask(http.MethodPost, path, form.Encode())
}

// logIn logs in with the password [good].
func (b *browser) logIn(name string) {
	b.t.Helper()
	if w := b.post("/login", "name", name, "password", good); w.StatusCode != http.StatusSeeOther {
		b.t.Fatalf("%s cannot log in: %s %s", name, w.Status, w.text)
	}
}

func (b *browser) session() *http.Cookie {
	u, err := url.Parse(b.base)
	if err != nil {
		b.t.Fatal(err)
	}
	for _, c := range b.client.Jar.Cookies(u) {
		if c.Name == "foldwright" {
			return c
		}
	}
	return nil
}
