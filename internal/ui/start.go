package ui

import (
	"net/http"
	"strconv"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/words"
)

func (p *pages) startRoutes() []route {
	return []route{
		{pattern: "GET /{$}", serve: p.start, deed: access.See},
		{pattern: "POST /begin", serve: p.beginWithDemo, deed: access.Rule, call: "import-shop"},
		{pattern: "POST /undo", serve: p.undo, deed: access.See, call: "undo-change"},
	}
}

// start leads to the day.
func (p *pages) start(w http.ResponseWriter, r *http.Request) error {
	if _, err := p.desk.Shop(r.Context()); err != nil {
		return err
	}
	p.redirect(w, r, p.nav(r, access.From(r.Context()).Role)[0].Path) // a viewer sees places, too
	return nil
}

// noShop tells how to get one, on every page that would show it.
func (p *pages) noShop(w http.ResponseWriter, r *http.Request) {
	if err := p.show(w, r, page{name: "start", title: words.T("There is no shop yet"), status: http.StatusNotFound}); err != nil {
		p.trouble(w, r, err)
	}
}

// undo takes a change back.
func (p *pages) undo(w http.ResponseWriter, r *http.Request) error {
	revision, err := strconv.ParseInt(r.FormValue("revision"), 10, 64)
	if err != nil {
		return fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "revision", Wrong: "is no number of a change", Right: "take one from the audit trail"}
	}
	if _, err := p.desk.Undo(r.Context(), revision); err != nil {
		return err
	}
	return p.done(w, r, local(r.FormValue("back")), 0, words.T("Taken back."))
}

// CodeForm is the code of a form that was not filled in by our page.
const CodeForm fault.Code = "form"
