package ui

import (
	"net/http"
	"net/url"
	"strconv"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/words"
)

func (p *pages) peopleRoutes() []route {
	return []route{
		{pattern: "GET /admin/people", serve: p.people, deed: access.Rule, call: "list-people"},
		{pattern: "POST /admin/people", serve: p.invite, deed: access.Rule, call: "invite-person"},
		{pattern: "POST /admin/people/{name}", serve: p.putPerson, deed: access.Rule, call: "put-person"},
		{pattern: "POST /admin/people/{name}/link", serve: p.newLink, deed: access.Rule, call: "invite-person"},
	}
}

// peopleBody is the list of people.
type peopleBody struct {
	People []personRow
	Roles  []choice
	Name   string // as it was typed
	Faults fault.List
	Link   string // shown once
	For    string // whom it is for
}

type personRow struct {
	desk.Account
	Roles []choice
	Self  bool
}

func (p *pages) people(w http.ResponseWriter, r *http.Request) error {
	return p.showPeople(w, r, peopleBody{}, http.StatusOK)
}

func (p *pages) showPeople(w http.ResponseWriter, r *http.Request, b peopleBody, status int) error {
	accounts, err := p.desk.Accounts(r.Context())
	if err != nil {
		return err
	}
	self := access.From(r.Context()).Name
	for _, a := range accounts {
		b.People = append(b.People, personRow{a, roleChoices(a.Role), a.Name == self})
	}
	if b.Roles == nil {
		b.Roles = roleChoices(access.Viewer)
	}
	return p.show(w, r, page{name: "admin_people", title: words.T("People"), body: b, status: status})
}

// invite makes an account and the link by which its person chooses a password.
func (p *pages) invite(w http.ResponseWriter, r *http.Request) error {
	name := r.PostFormValue("name")
	role, _ := access.RoleNamed(r.PostFormValue("role"))
	b := peopleBody{Name: name, Roles: roleChoices(role)}
	if role == access.Nobody {
		role = access.Viewer
	}
	return p.link(w, r, b, name, role)
}

// newLink makes a link for somebody who is there already.
func (p *pages) newLink(w http.ResponseWriter, r *http.Request) error {
	return p.link(w, r, peopleBody{}, r.PathValue("name"), access.Nobody)
}

// link shows a new link, once: it is kept nowhere.
func (p *pages) link(w http.ResponseWriter, r *http.Request, b peopleBody, name string, role access.Role) error {
	secret, err := p.desk.Invite(r.Context(), name, role, "")
	if b.Faults = fault.All(err); len(b.Faults) > 0 {
		return p.showPeople(w, r, b, gate.Status(err))
	}
	if err != nil {
		return err
	}
	b = peopleBody{Link: p.gate.Reached(r) + gate.WelcomePath + "?secret=" + url.QueryEscape(secret), For: name}
	return p.showPeople(w, r, b, http.StatusOK)
}

// putPerson changes somebody's role, or whether they may come in, as the form saw them.
func (p *pages) putPerson(w http.ResponseWriter, r *http.Request) error {
	accounts, err := p.desk.Accounts(r.Context())
	if err != nil {
		return err
	}
	version, err := strconv.ParseInt(r.PostFormValue("version"), 10, 64)
	if err != nil {
		return fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "version", Wrong: "is no number of a version", Right: "open the page again"}
	}
	for _, a := range accounts {
		if a.Name != r.PathValue("name") {
			continue
		}
		a.Version = version
		if role, ok := access.RoleNamed(r.PostFormValue("role")); ok {
			a.Role = role
		}
		switch r.PostFormValue("ended") {
		case "yes":
			a.Ended = true
		case "no":
			a.Ended = false
		}
		if _, err := p.desk.PutAccount(r.Context(), a); err != nil {
			return err
		}
		return p.done(w, r, "/admin/people", 0, words.T("%s is saved.", a.Name))
	}
	return fault.Fault{Kind: fault.Missing, Code: CodePage, Field: "name", Wrong: "there is no account of that name", Right: "one from the list of people"}
}
