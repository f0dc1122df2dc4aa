package ui

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"regexp"
	"slices"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/api"
	"foldwright/internal/desk"
	"foldwright/internal/gate"
	"foldwright/internal/store"
	"foldwright/internal/words"
)

// routesOf are the routes of the app.
func routesOf(t *testing.T) []route {
	t.Helper()
	p := &pages{gate: speaking{lang: words.English}}
	return p.table()
}

// The pages do nothing that a program could not do: whatever route shows or changes the shop names an operation of the API, and
// there is one of that name. Without one are only pages that lead to others, and what concerns the browser alone.
func TestPagesDoNothingThatTheAPICannot(t *testing.T) {
	free := []string{"GET /{$}", "POST /theme", "GET /login", "GET /welcome", "GET /admin", "GET /admin/keep", "GET /admin/import"}
	known := operations(t)
	for _, rt := range routesOf(t) {
		if rt.call == "" {
			if !slices.Contains(free, rt.pattern) {
				t.Errorf("%s names no operation of the API", rt.pattern)
			}
			continue
		}
		for call := range strings.SplitSeq(rt.call, " ") {
			if !known[call] {
				t.Errorf("%s: the API has no operation %q", rt.pattern, call)
			}
		}
	}
}

// operations are the ids of all operations that the API describes.
func operations(t *testing.T) map[string]bool {
	t.Helper()
	s, err := store.Open(t.Context(), t.TempDir()+"/shop.db", store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	d := &desk.Desk{Store: s, Books: s}
	g, err := gate.New(gate.Config{Desk: d, Sessions: s.Sessions(), Keys: s.Keys()})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = g.Stop(t.Context()) })
	w := httptest.NewRecorder()
	api.New(d, g).ServeHTTP(w, httptest.NewRequest(http.MethodGet, api.Prefix+"/openapi.json", nil))
	var doc struct {
		Paths map[string]map[string]struct{ OperationID string }
	}
	if err := json.Unmarshal(w.Body.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, methods := range doc.Paths {
		for _, op := range methods {
			known[op.OperationID] = true
		}
	}
	if len(known) < 30 {
		t.Fatalf("only %d operations found", len(known))
	}
	return known
}

// Every route with every role: who may not is told so before anything is done, who is not logged in is sent to the log-in.
func TestEveryRouteWithEveryRole(t *testing.T) {
	h := demoPages(t)
	inPath := regexp.MustCompile(`\{[^}]*\}`)
	for _, rt := range routesOf(t) {
		method, path, _ := strings.Cut(rt.pattern, " ")
		path = inPath.ReplaceAllString(strings.TrimSuffix(path, "{$}"), "x")
		if rt.deed == "" {
			continue
		}
		for role := access.Nobody; role <= access.Admin; role++ {
			if role.Allows(rt.deed) {
				continue // what they get is the test of each page
			}
			w := ask(t, h, asked{role: role, method: method, target: path})
			want := http.StatusForbidden
			if role == access.Nobody {
				want = http.StatusSeeOther
			}
			if w.Code != want {
				t.Errorf("%s as %s: %d, want %d", rt.pattern, role, w.Code, want)
			}
		}
	}
}

// Icons and assets that templates name are there: a wrong name would only be found by whoever opens the page.
func TestTemplatesNameWhatThereIs(t *testing.T) {
	a := loadAssets()
	named := regexp.MustCompile(`(icon|asset) "([^"]+)"`)
	for _, dir := range []string{"templates", "templates/parts"} {
		files, err := templateFiles.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			if f.IsDir() {
				continue
			}
			data, err := templateFiles.ReadFile(dir + "/" + f.Name())
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range named.FindAllStringSubmatch(string(data), -1) {
				if m[1] == "icon" && !a.icons[m[2]] || m[1] == "asset" && a.urls[m[2]] == "" {
					t.Errorf("%s: there is no %s %s", f.Name(), m[1], m[2])
				}
			}
		}
	}
}
