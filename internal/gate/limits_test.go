package gate

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"strings"
	"testing"

	"foldwright/internal/access"
)

func TestTooManyLogInsOfAnAddress(t *testing.T) {
	h := newHouse(t, func(c *Config) { c.Limits = Limits{LogInsByAddress: 3, LogInsByName: -1} })
	h.moveIn(t, "ada", access.Lead)
	for i := range 3 {
		if w := h.browser(t).post("/login", "name", "ada", "password", "guess"); w.StatusCode != http.StatusForbidden {
			t.Fatalf("guess %d: %s", i, w.Status)
		}
	}
	w := h.browser(t).post("/login", "name", "ada", "password", good)
	if w.StatusCode != http.StatusTooManyRequests || w.Header.Get("Retry-After") != "60" {
		t.Errorf("the fourth try: %s, Retry-After %q", w.Status, w.Header.Get("Retry-After"))
	}
	// Asking for another's word does not help: no proxy was named, so nothing that the header says counts.
	if w := h.browser(t).ask("POST", "/login", "name=ada&password="+good, "X-Forwarded-For", "203.0.113.9"); w.StatusCode != http.StatusTooManyRequests {
		t.Errorf("with a forged address: %s", w.Status)
	}
	if w := h.browser(t).post("/welcome", "secret", "guess", "name", "x", "password", good); w.StatusCode != http.StatusTooManyRequests {
		t.Errorf("guessing invitations instead: %s", w.Status)
	}
}

func TestTooManyLogInsForAName(t *testing.T) {
	h := newHouse(t, func(c *Config) {
		c.Limits, c.Proxies = Limits{LogInsByName: 3}, []netip.Prefix{netip.MustParsePrefix("127.0.0.0/8")}
	})
	h.moveIn(t, "ada", access.Lead)
	h.moveIn(t, "bob", access.Lead)
	for i, name := range []string{"%20ADA", "ada", "%EF%BD%81da"} { // the last with a wide a, which is the same account
		from := fmt.Sprintf("203.0.113.%d", i)
		if w := h.browser(t).ask("POST", "/login", "name="+name+"&password=guess", "X-Forwarded-For", from); w.StatusCode != http.StatusForbidden {
			t.Fatalf("guess %d: %s", i, w.Status)
		}
	}
	if w := h.browser(t).ask("POST", "/login", "name=ada&password=guess", "X-Forwarded-For", "203.0.113.4"); w.StatusCode != http.StatusTooManyRequests {
		t.Errorf("from everywhere: %s", w.Status)
	}
	if w := h.browser(t).post("/login", "name", "bob", "password", good); w.StatusCode != http.StatusSeeOther {
		t.Errorf("somebody else is locked out, too: %s", w.Status)
	}
}

func TestTooManyCalls(t *testing.T) {
	h := newHouse(t, func(c *Config) { c.Limits = Limits{Calls: 5} })
	h.moveIn(t, "ada", access.Lead)
	h.moveIn(t, "bob", access.Lead)
	mine, theirs := h.token(t, "ada", access.Lead), h.token(t, "bob", access.Lead)
	for range 5 {
		if w := h.browser(t).get("/api/v1/who", "Authorization", "Bearer "+mine); w.StatusCode != http.StatusOK {
			t.Fatal(w.Status)
		}
	}
	if w := h.browser(t).get("/api/v1/who", "Authorization", "Bearer "+mine); w.StatusCode != http.StatusTooManyRequests || w.Header.Get("Retry-After") == "" {
		t.Errorf("the sixth call: %s, %v", w.Status, w.Header)
	}
	if w := h.browser(t).get("/api/v1/who", "Authorization", "Bearer "+theirs); w.StatusCode != http.StatusOK {
		t.Errorf("somebody else's: %s", w.Status)
	}
}

func TestClientAddress(t *testing.T) {
	for _, c := range []struct {
		remote, said, proxies, want string
		direct                      bool
	}{
		{"127.0.0.1:5", "", "", "127.0.0.1", true},
		{"127.0.0.1:5", "203.0.113.9", "", "127.0.0.1", false},
		{"127.0.0.1:5", "203.0.113.9", "127.0.0.1/32", "203.0.113.9", false},
		{"127.0.0.1:5", "198.51.100.7, 203.0.113.9", "127.0.0.1/32", "203.0.113.9", false}, // the first may be forged
		{"127.0.0.1:5", "198.51.100.7, 10.0.0.2", "127.0.0.0/8 10.0.0.0/8", "198.51.100.7", false},
		{"203.0.113.9:5", "10.0.0.2", "127.0.0.1/32", "203.0.113.9", false},
		{"[::ffff:127.0.0.1]:5", "::1", "127.0.0.1/32", "::1", false},
		{"[::1]:5", "", "", "::1", true},
		{"127.0.0.1:5", "rubbish", "127.0.0.1/32", "127.0.0.1", false},
		{"127.0.0.1:5", strings.Repeat("1.1.1.1,", 1000) + "203.0.113.9", "127.0.0.1/32", "203.0.113.9", false},
	} {
		g := &Gate{}
		for _, p := range strings.Fields(c.proxies) {
			g.proxies = append(g.proxies, netip.MustParsePrefix(p))
		}
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.RemoteAddr = c.remote
		if c.said != "" {
			r.Header.Set("X-Forwarded-For", c.said)
		}
		if got := g.clientOf(r).String(); got != c.want || direct(r) != c.direct {
			t.Errorf("%s says %.40q: %s, direct %v; want %s, %v", c.remote, c.said, got, direct(r), c.want, c.direct)
		}
	}
}
