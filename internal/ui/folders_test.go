package ui

import (
	"net/http"
	"testing"

	"foldwright/internal/access"
)

// The list draws every folder; the page of one tells its plates, stations, hours and what stands on it. Only who rules is
// offered to change them.
func TestFolders(t *testing.T) {
	holdSights(t, demoPages(t), []sight{
		{access.Viewer, "/folders", http.StatusOK, []string{"alder", "birch", "<svg", `href="/folders/alder"`}, []string{"/new/folder"}},
		{access.Admin, "/folders", http.StatusOK, []string{"/new/folder", "/edit/standards"}, nil},
		{access.Viewer, "/folders/alder", http.StatusOK, []string{"plate 1", "folds up", "Station 1A", "locked out"}, []string{"/edit/folder", "/edit/present"}},
		{access.Operator, "/folders/alder", http.StatusOK, []string{"/edit/present"}, []string{"/edit/folder"}},
		{access.Admin, "/folders/alder", http.StatusOK, []string{"/edit/folder", "/edit/calendar"}, nil},
		{access.Viewer, "/folders/aldr", http.StatusNotFound, []string{"alder"}, nil},
	})
}
