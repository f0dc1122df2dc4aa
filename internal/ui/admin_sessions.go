package ui

import (
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/words"
)

func (p *pages) sessionRoutes() []route {
	return []route{
		{pattern: "GET /admin/sessions", serve: p.sessions, deed: access.Rule, call: "list-sessions"},
		{pattern: "POST /admin/sessions/end", serve: p.endSession, deed: access.Rule, call: "end-session"},
	}
}

func (p *pages) sessions(w http.ResponseWriter, r *http.Request) error {
	list, err := p.gate.LoggedIn(r.Context(), "")
	if err != nil {
		return err
	}
	p.byShopClock(r, list)
	return p.show(w, r, page{name: "admin_sessions", title: words.T("Sessions"), body: list})
}

func (p *pages) endSession(w http.ResponseWriter, r *http.Request) error {
	if err := p.gate.EndLogIn(r.Context(), r.PostFormValue("id")); err != nil {
		return err
	}
	return p.done(w, r, "/admin/sessions", 0, words.T("Ended."))
}
