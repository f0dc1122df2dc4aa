package ui

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

// held is a store that holds one shop.
type held struct {
	shop *shop.Shop
	err  error
}

func (h held) Shop(context.Context) (*shop.Shop, error) { return h.shop, h.err }

// speaking is a gate that speaks one way and does nothing else that a test may ask.
type speaking struct {
	*gate.Gate
	lang words.Lang
	inch bool
}

func (s speaking) ShowTrouble(func(http.ResponseWriter, *http.Request, error)) {}

func (s speaking) Reached(r *http.Request) string { return "http://" + r.Host }

func (s speaking) Speaker(*http.Request) *words.Speaker { return words.NewSpeaker(s.lang, s.inch) }

// demoPages is the app on the demo shop, without a database.
func demoPages(t *testing.T) http.Handler {
	t.Helper()
	s, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	return New(&desk.Desk{Store: held{shop: s}}, speaking{lang: words.English})
}

// asked is one request: who asks, for what, with which fields of a form.
type asked struct {
	role           access.Role
	method, target string
	form           url.Values
	partial        bool
}

// ask sends a request and reads the whole answer.
func ask(t *testing.T, h http.Handler, a asked) *httptest.ResponseRecorder {
	t.Helper()
	if a.method == "" {
		a.method = http.MethodGet
	}
	var body io.Reader
	if a.form != nil {
		body = strings.NewReader(a.form.Encode())
	}
	r := httptest.NewRequest(a.method, a.target, body)
	if a.form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	if a.partial {
		r.Header.Set("HX-Request", "true")
	}
	if a.role != access.Nobody {
		r = r.WithContext(access.With(r.Context(), access.Who{Name: "ada", Role: a.role}))
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// Whoever is not logged in is asked to, and comes back to where they wanted to go.
func TestNobodyIsSentToTheLogIn(t *testing.T) {
	h := demoPages(t)
	for target, want := range map[string]string{"/": "/login", "/nowhere": ""} {
		if want == "" {
			continue
		}
		w := ask(t, h, asked{target: target})
		if w.Code != http.StatusSeeOther || w.Header().Get("Location") != want {
			t.Errorf("%s: %d to %q, want 303 to %q", target, w.Code, w.Header().Get("Location"), want)
		}
	}
}

func TestUnknownPage(t *testing.T) {
	h := demoPages(t)
	w := ask(t, h, asked{role: access.Viewer, target: "/nowhere"})
	if w.Code != http.StatusNotFound || !strings.Contains(w.Body.String(), "<h1>Not found</h1>") {
		t.Errorf("%d\n%s", w.Code, w.Body)
	}
	w = ask(t, h, asked{role: access.Viewer, target: "/nowhere", partial: true})
	if w.Code != http.StatusNotFound || strings.Contains(w.Body.String(), "<html") || w.Header().Get("HX-Retarget") != "#trouble" {
		t.Errorf("a script gets %d to %q:\n%s", w.Code, w.Header().Get("HX-Retarget"), w.Body)
	}
}

// Each kind of fault has its status, and only an error that is none of the reader's hides what it says.
func TestTroubles(t *testing.T) {
	for _, c := range []struct {
		err  error
		want int
	}{
		{fault.Fault{Kind: fault.Input, Wrong: "told"}, 422},
		{fault.Fault{Kind: fault.No, Wrong: "told"}, 422},
		{fault.Fault{Kind: fault.Missing, Wrong: "told"}, 404},
		{fault.Fault{Kind: fault.Conflict, Wrong: "told"}, 409},
		{fault.Fault{Kind: fault.Denied, Wrong: "told"}, 403},
		{io.ErrUnexpectedEOF, 500},
		{&http.MaxBytesError{Limit: 1}, 413},
	} {
		got := troubleOf(c.err)
		if got.Status != c.want || len(got.Faults) != 0 != (len(fault.All(c.err)) != 0) {
			t.Errorf("%v: %+v, want %d", c.err, got, c.want)
		}
	}
}

// A redirect never leads away from the app.
func TestRedirectsStayHere(t *testing.T) {
	for to, want := range map[string]string{
		"/jobs?q=a": "/jobs?q=a", "": "/", "//elsewhere.example": "/", `/\elsewhere.example`: "/", "https://elsewhere.example": "/", "/a\nb": "/",
		`/./\elsewhere.example`: "/", `/a/../\elsewhere.example`: "/", "/a/..//elsewhere.example": "/a/..//elsewhere.example", // a redirect cleans its path
	} {
		if got := local(to); got != want {
			t.Errorf("%q leads to %q, want %q", to, got, want)
		}
	}
}

func TestNoShopYet(t *testing.T) {
	none := fault.Fault{Kind: fault.Missing, Code: ledger.CodeNoShop, Wrong: "there is no shop yet"}
	h := New(&desk.Desk{Store: held{err: none}}, speaking{lang: words.English})
	w := ask(t, h, asked{role: access.Viewer, target: "/"})
	if w.Code != http.StatusNotFound || !strings.Contains(w.Body.String(), "There is no shop yet") || strings.Contains(w.Body.String(), "/admin/import") {
		t.Errorf("%d\n%s", w.Code, w.Body)
	}
	w = ask(t, h, asked{role: access.Admin, target: "/"})
	if !strings.Contains(w.Body.String(), "/admin/import") {
		t.Errorf("an admin is not led to the import:\n%s", w.Body)
	}
}

// What the pages load is there, packed when the browser wants it so, and kept for good.
func TestAssets(t *testing.T) {
	h := demoPages(t)
	body := ask(t, h, asked{role: access.Viewer, target: "/nowhere"}).Body.String()
	found := regexp.MustCompile(`/static/[a-z.-]+\.[0-9a-f]{12}\.(css|js|svg)`).FindAllString(body, -1)
	if len(found) < 6 {
		t.Fatalf("the page loads only %v", found)
	}
	for _, at := range found {
		w := ask(t, h, asked{target: at})
		if w.Code != http.StatusOK || !strings.Contains(w.Header().Get("Cache-Control"), "immutable") || w.Body.Len() == 0 {
			t.Errorf("%s: %d %v", at, w.Code, w.Header())
		}
		r := httptest.NewRequest(http.MethodGet, at, nil)
		r.Header.Set("Accept-Encoding", "gzip, br")
		packed := httptest.NewRecorder()
		h.ServeHTTP(packed, r)
		if packed.Header().Get("Content-Encoding") == "gzip" && packed.Body.Len() >= w.Body.Len() {
			t.Errorf("%s: packed %d, plain %d", at, packed.Body.Len(), w.Body.Len())
		}
	}
	if w := ask(t, h, asked{target: "/static/pages.000000000000.css"}); w.Code != http.StatusNotFound {
		t.Errorf("an asset that never was: %d", w.Code)
	}
}

// The policy of the gate forbids scripts and styles that stand in the page itself, so no template may hold any.
func TestTemplatesHoldNoScriptsNorStyles(t *testing.T) {
	inline := regexp.MustCompile(`(?i)<style|<script(?:[^>]*)>[^<]|\sstyle=|\son[a-z]+=|javascript:|hx-on|hx-vals="js:`)
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
			if found := inline.FindString(string(data)); found != "" {
				t.Errorf("%s/%s holds %q", dir, f.Name(), found)
			}
		}
	}
}
