package api_test

import (
	"net/http"
	"net/url"
	"slices"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/api"
)

// Goal: nothing that is sent does harm, breaks the server or goes without an answer that says what is wrong. Method: what is usually
// tried, in every place where something can be put; afterwards the shop is as it was.
func TestHostileBodies(t *testing.T) {
	d := open(t)
	before := d.get("/shop/export").body
	for name, body := range map[string]string{
		"nothing":           "",
		"no JSON":           "{",
		"two values":        "{} {}",
		"a list":            "[]",
		"a number":          "17",
		"null":              "null",
		"NaN":               `{"name":"x","sheets":NaN}`,
		"infinite":          `{"name":"x","sheets":Infinity}`,
		"huge number":       `{"name":"x","sheets":1e400}`,
		"long number":       `{"name":"x","sheets":` + strings.Repeat("9", 5000) + `}`,
		"deep":              strings.Repeat(`{"name":`, 5000) + "1" + strings.Repeat("}", 5000),
		"deep list":         strings.Repeat("[", 100_000),
		"bad UTF-8":         "{\"name\":\"\xff\xfe\"}",
		"half a letter":     `{"name":"\ud800"}`,
		"zero byte":         `{"name":"a\u0000b"}`,
		"unknown field":     `{"name":"x","elephant":1}`,
		"field twice":       `{"name":"x","name":"y"}`,
		"SQL":               `{"name":"x'; DROP TABLE thing; --"}`,
		"HTML":              `{"name":"<script>alert(1)</script>"}`,
		"path":              `{"name":"../../../etc/passwd"}`,
		"YAML anchors":      `a: &a [x]` + "\n" + `b: *a`,
		"merge into object": `{"__proto__":{"role":"admin"}}`,
	} {
		t.Run(name, func(t *testing.T) {
			for _, at := range []struct {
				method, path string
				role         access.Role
			}{
				{http.MethodPost, "/jobs", access.Lead},
				{http.MethodPost, "/sets", access.Lead},
				{http.MethodPost, "/records", access.Operator},
				{http.MethodPut, "/jobs/2101/pin", access.Lead},
				{http.MethodPost, "/searches", access.Lead},
				{http.MethodPost, "/tokens", access.Admin},
				{http.MethodPost, "/jobs/2101/place", access.Lead},
				{http.MethodPost, "/plans/given/moves", access.Lead},
			} {
				got := d.send(ask{method: at.method, path: at.path, body: body, as: at.role})
				holdRefused(t, got)
			}
		})
	}
	if string(before) != string(d.get("/shop/export").body) {
		t.Error("the shop is not as it was")
	}
}

// holdRefused checks that an answer refuses, in the one shape, and does not send back what was sent as anything that runs.
func holdRefused(t *testing.T, a answer) {
	t.Helper()
	if a.StatusCode < 400 || a.StatusCode >= 500 {
		t.Errorf("%s %s: %d: %.300s", a.Request.Method, a.Request.URL.Path, a.StatusCode, a.body)
		return
	}
	if media := a.Header.Get("Content-Type"); media != "application/problem+json" {
		t.Errorf("refused as %s", media)
	}
	if a.Header.Get("X-Content-Type-Options") != "nosniff" {
		t.Error("a browser may take the answer for something else")
	}
	if len(a.body) > 20_000 {
		t.Errorf("%d bytes of refusal", len(a.body))
	}
}

func TestHostileAddresses(t *testing.T) {
	d := open(t)
	for _, name := range []string{
		"..%2F..%2Fetc%2Fpasswd", "%2e%2e%2f%2e%2e%2fetc", "%00", "%ff%fe", "2101'%20OR%20'1'='1", "%3Cscript%3E", strings.Repeat("a", 5000), "%E2%80%AE2101", "2101%00.pdf",
	} {
		for _, path := range []string{"/jobs/", "/sets/", "/plans/", "/records/", "/searches/", "/tools/"} {
			holdRefused(t, d.get(path+name))
		}
		holdRefused(t, d.get("/jobs/"+name+"/card.pdf"))
		holdRefused(t, d.get("/jobs/2101/settings?folder="+name))
		holdRefused(t, d.get("/jobs?after="+name))
		holdRefused(t, d.get("/records?after="+name))
	}
	for _, query := range []string{"limit=0", "limit=-1", "limit=501", "limit=1e3", "limit=NaN", "limit=", "limit=999999999999999999999", "after=a&after=b", "elephant=1", "limit=1%00"} {
		got := d.get("/jobs?" + query)
		if query == "limit=" || query == "after=a&after=b" { // nothing is said; the first counts and names nothing
			continue
		}
		holdRefused(t, got)
	}
	for _, query := range []string{"before=-1", "before=x", "limit=0", "thing=" + strings.Repeat("a", 1000)} {
		holdRefused(t, d.get("/changes?"+query))
	}
}

func TestOversized(t *testing.T) {
	d := open(t)
	large := `{"name":"` + strings.Repeat("a", 2<<20) + `"}`
	d.send(ask{method: http.MethodPost, path: "/jobs", body: large, as: access.Lead}).want(t, http.StatusRequestEntityTooLarge)
	just := `{"name":"` + strings.Repeat("a", 900_000) + `"}`
	holdRefused(t, d.send(ask{method: http.MethodPost, path: "/jobs", body: just, as: access.Lead}))
}

func TestMediaAndMethods(t *testing.T) {
	d := open(t)
	for _, media := range []string{"text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "application/yaml", "application/json+x", ";", "a/b/c"} {
		got := d.send(ask{method: http.MethodPost, path: "/stocks", body: `{"name":"x","grammage":90,"finish":"coated"}`, as: access.Lead, head: map[string]string{"Content-Type": media}})
		if media == ";" {
			holdRefusedOrMade(t, got)
			continue
		}
		got.wantProblem(t, http.StatusUnsupportedMediaType, "request-media")
	}
	wrong := d.send(ask{method: http.MethodPatch, path: "/jobs/2101", body: "{}", as: access.Admin})
	wrong.wantProblem(t, http.StatusMethodNotAllowed, "request-route")
	allowed := strings.Split(wrong.Header.Get("Allow"), ", ")
	slices.Sort(allowed)
	if want := []string{"DELETE", "GET", "HEAD", "PUT"}; !slices.Equal(allowed, want) {
		t.Errorf("allowed are %v, want %v", allowed, want)
	}
	d.send(ask{method: http.MethodOptions, path: "/jobs", as: access.Viewer}).want(t, http.StatusMethodNotAllowed)
	d.send(ask{method: "BREW", path: "/jobs", as: access.Viewer}).want(t, http.StatusMethodNotAllowed)
	d.get("/elephants").wantProblem(t, http.StatusNotFound, "request-route")
	head := d.send(ask{method: http.MethodHead, path: "/jobs/2101", as: access.Viewer}).want(t, http.StatusOK)
	if full := d.get("/jobs/2101"); len(head.body) > 0 || head.Header.Get("ETag") != full.Header.Get("ETag") {
		t.Errorf("HEAD gives %d bytes and ETag %s", len(head.body), head.Header.Get("ETag"))
	}
}

// holdRefusedOrMade is for what counts as nothing said of the sort.
func holdRefusedOrMade(t *testing.T, a answer) {
	t.Helper()
	if a.StatusCode != http.StatusCreated {
		holdRefused(t, a)
	}
}

// Names may hold whatever can be printed: each is kept as it is and found again under its own address.
func TestOddNamesAreJustNames(t *testing.T) {
	d := open(t)
	for _, name := range []string{"a/b", "50% of it", "x'; DROP TABLE thing; --", "<b>bold</b>", "?after=1", "größer", "a+b", "#1", `back\slash`, "日本"} {
		body := map[string]any{"name": name, "grammage": 90, "finish": "coated"}
		made := d.send(ask{method: http.MethodPost, path: "/stocks", body: body, as: access.Lead}).want(t, http.StatusCreated)
		at := strings.TrimPrefix(made.Header.Get("Location"), api.Prefix)
		if at != "/stocks/"+url.PathEscape(name) {
			t.Errorf("%s stands at %s", name, at)
		}
		if got := read[map[string]any](t, d.get(at).want(t, http.StatusOK)); got["name"] != name {
			t.Errorf("%s is called %v", name, got["name"])
		}
	}
}
