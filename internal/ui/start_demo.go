package ui

import (
	"net/http"

	"foldwright/internal/demo"
	"foldwright/internal/words"
)

// beginWithDemo puts the demo's shop into a database that has none yet, for whoever wants to look around first.
func (p *pages) beginWithDemo(w http.ResponseWriter, r *http.Request) error {
	whole, err := demo.Shop()
	if err != nil {
		return err
	}
	if _, err := p.desk.Import(r.Context(), whole, false); err != nil {
		return err
	}
	return p.done(w, r, "/day", 0, words.T("%s is imported.", whole.Name))
}
