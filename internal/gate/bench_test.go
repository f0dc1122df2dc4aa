package gate

import (
	"net/http"
	"net/http/httptest"
	"testing"

	"foldwright/internal/access"
)

// What the gate costs a request, the network and the work behind it aside: a token, and a session.
func BenchmarkThroughTheGate(b *testing.B) {
	h := newHouse(b, func(c *Config) { c.Limits = Limits{LogInsByAddress: -1, LogInsByName: -1, Calls: -1} })
	h.moveIn(b, "ada", access.Lead)
	secret := h.token(b, "ada", access.Lead)
	browser := h.browser(b)
	browser.logIn("ada")
	cookie := browser.session()
	for name, door := range map[string]struct {
		h            http.Handler
		path, header string
		value        string
	}{
		"call by token":   {h.API(h.calls()), "/api/v1/who", "Authorization", "Bearer " + secret},
		"page by session": {h.Pages(h.pages()), "/jobs/2107", "Cookie", cookie.Name + "=" + cookie.Value},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				r := httptest.NewRequest(http.MethodGet, door.path, nil)
				r.Header.Set(door.header, door.value)
				w := httptest.NewRecorder()
				door.h.ServeHTTP(w, r)
				if w.Code != http.StatusOK {
					b.Fatalf("%d %s", w.Code, w.Body)
				}
			}
		})
	}
}
