package api_test

import (
	"bytes"
	"context"
	"crypto/rand"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/alexedwards/argon2id"

	"foldwright/internal/access"
	"foldwright/internal/api"
	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/gate"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/store"
)

// door is the whole way in: a server, the gate, the API, a desk, a database with the demo shop.
type door struct {
	t      testing.TB
	server *httptest.Server
	desk   *desk.Desk
	tokens map[access.Role]string
	schema *schemas
}

// cheap are costs of passwords for tests, whose passwords nobody guesses.
var cheap = &argon2id.Params{Memory: 8, Iterations: 1, Parallelism: 1, SaltLength: 8, KeyLength: 16}

// open opens a door to the demo shop.
func open(t testing.TB) *door {
	t.Helper()
	whole, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	return openTo(t, whole)
}

// openTo opens a door to a shop; nil is a database without one.
func openTo(t testing.TB, whole *shop.Shop) *door {
	t.Helper()
	return openAt(t, filepath.Join(t.TempDir(), "shop.db"), whole)
}

// openAt opens a door to a shop in a new database at a place.
func openAt(t testing.TB, where string, whole *shop.Shop) *door {
	t.Helper()
	s, err := store.Open(t.Context(), where, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	if whole != nil {
		if _, err := s.Fill(t.Context(), ledger.By{Who: "test"}, whole); err != nil {
			t.Fatal(err)
		}
	}
	d := &desk.Desk{Store: s, Books: s, Vault: s, Now: time.Now, Random: rand.Reader, Costs: cheap}
	g, err := gate.New(gate.Config{Desk: d, Sessions: s.Sessions(), Keys: s.Keys(), Limits: gate.Limits{Calls: -1, LogInsByAddress: -1, LogInsByName: -1}})
	if err != nil {
		t.Fatal(err)
	}
	out := &door{t: t, desk: d, tokens: map[access.Role]string{}, schema: described(t)}
	out.server = httptest.NewServer(g.API(api.New(d, g)))
	t.Cleanup(out.server.Close)
	t.Cleanup(func() {
		ctx, stop := context.WithTimeout(context.Background(), 20*time.Second)
		defer stop()
		if err := g.Stop(ctx); err != nil {
			t.Error(err)
		}
	})
	root := access.With(t.Context(), access.Who{Name: "root", Role: access.Admin})
	for _, r := range access.Roles() {
		out.tokens[r] = out.account(root, r)
	}
	return out
}

// account makes an account named after its role, with a token.
func (d *door) account(ctx context.Context, r access.Role) string {
	d.t.Helper()
	secret, err := d.desk.Invite(ctx, r.String(), r, "")
	if err != nil {
		d.t.Fatal(err)
	}
	if _, err := d.desk.ChoosePassword(ctx, secret, "", password(r)); err != nil {
		d.t.Fatal(err)
	}
	token, _, err := d.desk.MakeToken(ctx, r.String(), "test", r, time.Time{})
	if err != nil {
		d.t.Fatal(err)
	}
	return token
}

func password(r access.Role) string { return "correct horse of the " + r.String() }

// ask is a request to be sent.
type ask struct {
	method, path string
	body         any // a string or bytes as they are; else as JSON
	head         map[string]string
	as           access.Role // Nobody: without a token
}

// answer is what came back.
type answer struct {
	*http.Response
	body []byte
}

// send sends a request and holds the answer to the description.
func (d *door) send(a ask) answer {
	d.t.Helper()
	req := d.request(a)
	res, err := d.server.Client().Do(req)
	if err != nil {
		d.t.Fatal(err)
	}
	defer res.Body.Close()
	body, err := io.ReadAll(res.Body)
	if err != nil {
		d.t.Fatal(err)
	}
	out := answer{res, body}
	d.schema.hold(d.t, req, out)
	return out
}

func (d *door) request(a ask) *http.Request {
	d.t.Helper()
	var body io.Reader
	switch b := a.body.(type) {
	case nil:
	case string:
		body = strings.NewReader(b)
	case []byte:
		body = bytes.NewReader(b)
	default:
		data, err := json.Marshal(b)
		if err != nil {
			d.t.Fatal(err)
		}
		body = bytes.NewReader(data)
	}
	req, err := http.NewRequestWithContext(d.t.Context(), a.method, d.server.URL+api.Prefix+a.path, body)
	if err != nil {
		d.t.Fatal(err)
	}
	if body != nil {
		req.Header.Set("Content-Type", "application/json")
	}
	if a.as != access.Nobody {
		req.Header.Set("Authorization", "Bearer "+d.tokens[a.as])
	}
	for k, v := range a.head {
		req.Header.Set(k, v)
	}
	return req
}

// get reads something as a viewer.
func (d *door) get(path string) answer {
	d.t.Helper()
	return d.send(ask{method: http.MethodGet, path: path, as: access.Viewer})
}

// want holds an answer to a status.
func (a answer) want(t testing.TB, status int) answer {
	t.Helper()
	if a.StatusCode != status {
		t.Fatalf("%s %s: status %d, want %d: %.500s", a.Request.Method, a.Request.URL, a.StatusCode, status, a.body)
	}
	return a
}

// wantProblem holds an answer to a status and the code of its first fault.
func (a answer) wantProblem(t testing.TB, status int, code string) exchange.ProblemDocument {
	t.Helper()
	a.want(t, status)
	var p exchange.ProblemDocument
	if err := json.Unmarshal(a.body, &p); err != nil {
		t.Fatalf("%s is no problem document: %v", a.body, err)
	}
	if got := a.Header.Get("Content-Type"); got != exchange.ProblemMedia {
		t.Errorf("a problem of the sort %s", got)
	}
	if p.Status != status || len(p.Errors) == 0 || p.Errors[0].Code != code {
		t.Errorf("%s %s: %s, want code %s", a.Request.Method, a.Request.URL, a.body, code)
	}
	return p
}

// read reads the answer.
func read[T any](t testing.TB, a answer) T {
	t.Helper()
	var v T
	if err := json.Unmarshal(a.body, &v); err != nil {
		t.Fatalf("%s: %v", a.body, err)
	}
	return v
}
