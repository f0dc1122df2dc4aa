package ui

import (
	"net/http"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/words"
)

func (p *pages) tokenRoutes() []route {
	return []route{
		{pattern: "GET /admin/tokens", serve: p.tokens, deed: access.Rule, call: "list-tokens"},
		{pattern: "POST /admin/tokens", serve: p.makeToken, deed: access.Rule, call: "add-token"},
		{pattern: "POST /admin/tokens/remove", serve: p.removeToken, deed: access.Rule, call: "remove-token"},
	}
}

// tokensBody is the list of tokens.
type tokensBody struct {
	Tokens  []desk.Token
	People  []choice
	Roles   []choice
	Name    string // as it was typed
	Until   string
	Faults  fault.List
	Secret  string // shown once
	Program string // what it is for
}

func (p *pages) tokens(w http.ResponseWriter, r *http.Request) error {
	return p.showTokens(w, r, tokensBody{}, access.From(r.Context()).Name, access.Viewer, http.StatusOK)
}

func (p *pages) showTokens(w http.ResponseWriter, r *http.Request, b tokensBody, account string, role access.Role, status int) error {
	var err error
	if b.Tokens, err = p.desk.Tokens(r.Context()); err != nil {
		return err
	}
	accounts, err := p.desk.Accounts(r.Context())
	if err != nil {
		return err
	}
	for _, a := range accounts {
		if !a.Ended {
			b.People = append(b.People, choice{a.Name, words.Plain(a.Name), a.Name == account})
		}
	}
	b.Roles = roleChoices(role)
	return p.show(w, r, page{name: "admin_tokens", title: words.T("Tokens"), body: b, status: status})
}

// makeToken shows the secret of a new token, once: only a digest of it is kept.
func (p *pages) makeToken(w http.ResponseWriter, r *http.Request) error {
	account := r.PostFormValue("account")
	role, _ := access.RoleNamed(r.PostFormValue("role"))
	b := tokensBody{Name: r.PostFormValue("name"), Until: r.PostFormValue("until")}
	until, err := p.endOfDay(r, b.Until)
	var secret string
	if err == nil {
		secret, _, err = p.desk.MakeToken(r.Context(), account, b.Name, role, until)
	}
	if b.Faults = fault.All(err); len(b.Faults) > 0 {
		return p.showTokens(w, r, b, account, role, gate.Status(err))
	}
	if err != nil {
		return err
	}
	return p.showTokens(w, r, tokensBody{Secret: secret, Program: b.Name}, account, role, http.StatusOK)
}

// endOfDay reads the last day of something, by the clock of the shop; nothing is the zero time.
func (p *pages) endOfDay(r *http.Request, day string) (time.Time, error) {
	if day == "" {
		return time.Time{}, nil
	}
	zone := time.UTC
	if s, err := p.desk.Shop(r.Context()); err == nil {
		zone = s.Zone
	}
	t, err := time.ParseInLocation(time.DateOnly, day, zone)
	if err != nil {
		return t, fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "until", Wrong: "this is no date", Right: "write it as 2026-12-24"}
	}
	return t.AddDate(0, 0, 1), nil
}

func (p *pages) removeToken(w http.ResponseWriter, r *http.Request) error {
	if err := p.desk.RemoveToken(r.Context(), r.PostFormValue("id")); err != nil {
		return err
	}
	return p.done(w, r, "/admin/tokens", 0, words.T("The token lets nobody in any more."))
}
