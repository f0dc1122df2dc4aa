package ui

import (
	"net/http"
	"strings"
	"testing"

	"foldwright/internal/access"
)

// sight is a page as somebody sees it.
type sight struct {
	role    access.Role
	target  string
	status  int
	has     []string
	without []string
}

// holdSights asks for every page and holds it to what must and what must not stand on it.
func holdSights(t *testing.T, h http.Handler, sights []sight) {
	t.Helper()
	for _, c := range sights {
		got := ask(t, h, asked{role: c.role, target: c.target})
		if got.Code != c.status {
			t.Errorf("%s as %s: %d, want %d", c.target, c.role, got.Code, c.status)
		}
		for _, text := range c.has {
			if !strings.Contains(got.Body.String(), text) {
				t.Errorf("%s as %s: %q is missing", c.target, c.role, text)
			}
		}
		for _, text := range c.without {
			if strings.Contains(got.Body.String(), text) {
				t.Errorf("%s as %s: %q is there", c.target, c.role, text)
			}
		}
	}
}
