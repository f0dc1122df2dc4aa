package gate

import (
	"net/http"
	"strings"
	"testing"

	"foldwright/internal/access"
)

// A page from elsewhere changes nothing with the cookie that the browser adds.
func TestOtherOrigins(t *testing.T) {
	h := newHouse(t, func(c *Config) { c.Address = "https://folding.example" })
	h.moveIn(t, "ada", access.Lead)
	secret := h.token(t, "ada", access.Lead)
	for _, c := range []struct {
		what    string
		headers []string
		ok      bool
	}{
		{"same origin", []string{"Sec-Fetch-Site", "same-origin"}, true},
		{"typed into the address bar", []string{"Sec-Fetch-Site", "none"}, true},
		{"another site", []string{"Sec-Fetch-Site", "cross-site"}, false},
		{"another subdomain", []string{"Sec-Fetch-Site", "same-site"}, false},
		{"an old browser, another site", []string{"Sec-Fetch-Site", "", "Origin", "https://evil.example"}, false},
		{"an old browser, a sandbox", []string{"Sec-Fetch-Site", "", "Origin", "null"}, false},
		{"an old browser, here", []string{"Sec-Fetch-Site", "", "Origin", h.server.URL}, true},
		{"behind a proxy that tells another host", []string{"Sec-Fetch-Site", "", "Origin", "https://folding.example"}, true},
		{"no browser", []string{"Sec-Fetch-Site", ""}, true},
	} {
		for _, path := range []string{"/jobs/2107", "/api/v1/jobs", "/login", "/logout"} {
			b := h.browser(t)
			b.logIn("ada")
			w := b.ask(http.MethodPost, path, "name=ada&password="+good, c.headers...)
			if (w.StatusCode != http.StatusForbidden) != c.ok {
				t.Errorf("%s, POST %s: %s", c.what, path, w.Status)
			}
			if w := b.get("/jobs/2107", c.headers...); c.ok == false && w.StatusCode != http.StatusOK {
				t.Errorf("%s: looking is refused: %s", c.what, w.Status)
			}
		}
		if w := h.browser(t).ask(http.MethodPost, "/api/v1/jobs", "x", append(c.headers, "Authorization", "Bearer "+secret)...); w.StatusCode != http.StatusCreated {
			t.Errorf("%s, with a token, which no browser adds by itself: %s", c.what, w.Status)
		}
	}
}

// Goal: the headers that OWASP's list of secure headers and the content security policy of the W3C (CSP level 3) ask for.
func TestHeadersOfEveryAnswer(t *testing.T) {
	h := newHouse(t)
	for _, path := range []string{"/login", "/static/app.css", "/", "/api/v1/who", "/boom", "/metrics"} {
		w := h.browser(t).get(path)
		csp := w.Header.Get("Content-Security-Policy")
		for _, part := range []string{"default-src 'self'", "img-src 'self' data:", "frame-ancestors 'none'", "form-action 'self'", "base-uri 'none'"} {
			if !strings.Contains(csp, part) {
				t.Errorf("%s: the policy lacks %q", path, part)
			}
		}
		if strings.Contains(csp, "unsafe") || strings.Contains(csp, "*") {
			t.Errorf("%s: the policy lets through what stands in the page: %s", path, csp)
		}
		for name, want := range map[string]string{"X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin", "Cross-Origin-Opener-Policy": "same-origin", "Strict-Transport-Security": ""} {
			if got := w.Header.Get(name); got != want {
				t.Errorf("%s: %s is %q, want %q", path, name, got, want)
			}
		}
		if w.Header.Get("Permissions-Policy") == "" || w.Header.Get("X-Request-Id") == "" {
			t.Errorf("%s: %v", path, w.Header)
		}
		if cached := w.Header.Get("Cache-Control"); !strings.HasPrefix(path, "/static") && path != "/metrics" && !strings.Contains(cached, "no-store") {
			t.Errorf("%s may be kept: %q", path, cached)
		}
	}
}

func TestLocal(t *testing.T) {
	for to, want := range map[string]string{
		"/": "/", "/jobs/2107": "/jobs/2107", "/jobs?late=1#2107": "/jobs?late=1#2107", "/jobs/A%2F7": "/jobs/A%2F7", "/jobs?to=https://evil.example": "/jobs?to=https://evil.example",
		"": "/", "jobs": "/", "https://evil.example": "/", "//evil.example": "/", "///evil.example": "/", `/\evil.example`: "/", `\\evil.example`: "/", "/%5cevil.example": "/",
		"http:evil.example": "/", "javascript:alert(1)": "/", "/\t/evil.example": "/", "/\n/evil.example": "/", "\x20//evil.example": "/", "/%2f/evil.example": "/",
		"https:/evil.example": "/", "//user@evil.example": "/", "/login": "/", "/login/oidc": "/", "/\x00": "/", "%2f%2fevil.example": "/",
	} {
		if got := Local(to); got != want {
			t.Errorf("%q leads to %q, want %q", to, got, want)
		}
	}
}
