package ui

import (
	"net/http"
	"strings"
	"testing"

	"foldwright/internal/access"
)

// The list draws every folder; the page of one tells its plates, stations, hours and what stands on it. Only who rules is
// offered to change them.
func TestFolders(t *testing.T) {
	h := demoPages(t)
	for _, c := range []struct {
		role    access.Role
		target  string
		status  int
		has     []string
		without []string
	}{
		{access.Viewer, "/folders", http.StatusOK, []string{"alder", "birch", "<svg", `href="/folders/alder"`}, []string{"/new/folder"}},
		{access.Admin, "/folders", http.StatusOK, []string{"/new/folder", "/edit/standards"}, nil},
		{access.Viewer, "/folders/alder", http.StatusOK, []string{"plate 1", "folds up", "Station 1A", "locked out"}, []string{"/edit/folder", "/edit/present"}},
		{access.Operator, "/folders/alder", http.StatusOK, []string{"/edit/present"}, []string{"/edit/folder"}},
		{access.Admin, "/folders/alder", http.StatusOK, []string{"/edit/folder", "/edit/calendar"}, nil},
		{access.Viewer, "/folders/aldr", http.StatusNotFound, []string{"alder"}, nil},
	} {
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
