package ui

import (
	"net/http"

	"foldwright/internal/words"
)

// dayBoundBody is what is known of the least possible.
type dayBoundBody struct {
	Back string
	Said words.Text
}

// dayBound tells how much make-ready no order can undercut; that takes a moment, so it is asked for.
func (p *pages) dayBound(w http.ResponseWriter, r *http.Request) error {
	bound, needs, err := p.desk.Bound(r.Context(), draftID(r))
	if err != nil {
		return err
	}
	said := words.T("A job that could run has no place, so nothing can be said of the least possible.")
	if bound > 0 {
		said = words.T("Any order of these jobs needs at least %s of make-ready; this one needs %s. The least possible lies between the two: the bound lets every set be everywhere at once.", bound, needs)
	}
	body := dayBoundBody{draftPath(draftID(r)), said}
	if partial(r) {
		return p.part(w, r, "day_bound", "day-bound", body)
	}
	return p.show(w, r, page{name: "day_bound", title: words.T("How near is that to the least possible?"), body: body})
}

// dayAgain leads back to a draft from the address of taking it over, at which somebody is after that was refused.
func (p *pages) dayAgain(w http.ResponseWriter, r *http.Request) error {
	p.redirect(w, r, draftPath(draftID(r)))
	return nil
}
