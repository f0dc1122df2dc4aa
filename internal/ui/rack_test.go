package ui

import (
	"net/http"
	"testing"

	"foldwright/internal/access"
)

// The rack lists the sets and what serves a job; a set has its page, which the code on its label opens. What changes a set is
// offered to who may, and prints are PDFs.
func TestRack(t *testing.T) {
	holdSights(t, demoPages(t), []sight{
		{access.Viewer, "/rack", http.StatusOK, []string{"W-01", "N-01", "Loose tools", "perforate 12 tpi"}, []string{"/new/set"}},
		{access.Lead, "/rack", http.StatusOK, []string{"/new/set"}, nil},
		{access.Viewer, "/rack?q=W-0&place=folder", http.StatusOK, []string{">W-01<"}, []string{">N-01<"}},
		{access.Viewer, "/rack?q=no+such+thing", http.StatusOK, []string{"No set is like that"}, nil},
		{access.Viewer, "/rack?job=2101", http.StatusOK, []string{"What serves 2101", "alder"}, nil},
		{access.Viewer, "/rack?job=nonsense", http.StatusNotFound, nil, nil},
		{access.Viewer, "/rack/W-07", http.StatusOK, []string{"<svg", "cut even when they stand still", "Show how"}, []string{"/rack/W-07/move", "/edit/set"}},
		{access.Operator, "/rack/W-07", http.StatusOK, []string{"/rack/W-07/move", "birch/1A"}, []string{"/rack/W-07/retire"}},
		{access.Lead, "/rack/W-07", http.StatusOK, []string{"/rack/W-07/retire", "/edit/set"}, nil},
		{access.Operator, "/rack/W-07?job=2101", http.StatusOK, []string{"/rack/W-07/build", "bench.pdf?job=2101"}, nil},
		{access.Viewer, "/rack/W-99", http.StatusNotFound, []string{"W-0"}, nil},
		{access.Viewer, "/rack/labels.pdf?set=W-07&stock=A4+99.1+x+67.7", http.StatusOK, []string{"%PDF"}, nil},
		{access.Viewer, "/rack/labels.pdf?stock=wallpaper", http.StatusUnprocessableEntity, []string{"99.1"}, nil},
		{access.Viewer, "/rack/labels.pdf?stock=A4+99.1+x+67.7&skip=-1", http.StatusUnprocessableEntity, nil, nil},
		{access.Viewer, "/rack/W-07/bench.pdf?job=2101", http.StatusOK, []string{"%PDF"}, nil},
	})
}
