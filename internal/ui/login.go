package ui

import (
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/words"
)

func (p *pages) logInRoutes() []route {
	return []route{
		{pattern: "GET " + gate.LogInPath, serve: p.logIn},
		{pattern: "POST " + gate.LogInPath, serve: p.loggedIn, call: "log-in"},
		{pattern: "GET " + gate.WelcomePath, serve: p.welcome},
		{pattern: "POST " + gate.WelcomePath, serve: p.welcomed, call: "log-in"},
		{pattern: "POST /logout", serve: p.logOut, deed: access.See, call: "log-out"},
	}
}

// logInBody is what the log-in page shows.
type logInBody struct {
	To, Name           string
	Faults             fault.List
	SignOn, SignOnPath string // of another system that vouches for people
}

func (p *pages) logIn(w http.ResponseWriter, r *http.Request) error {
	if access.From(r.Context()).Role != access.Nobody {
		p.redirect(w, r, local(r.FormValue("to")))
		return nil
	}
	return p.showLogIn(w, r, logInBody{To: r.FormValue("to")}, http.StatusOK)
}

func (p *pages) showLogIn(w http.ResponseWriter, r *http.Request, b logInBody, status int) error {
	b.SignOn, b.SignOnPath = p.gate.SignOnLabel()
	return p.show(w, r, page{name: "login", title: words.T("Log in"), body: b, bare: true, status: status})
}

// loggedIn lets somebody in. What was typed as a name stays, the password does not.
func (p *pages) loggedIn(w http.ResponseWriter, r *http.Request) error {
	name, to := r.PostFormValue("name"), r.PostFormValue("to")
	err := p.gate.LogIn(w, r, name, r.PostFormValue("password"))
	if found := fault.All(err); len(found) > 0 {
		return p.showLogIn(w, r, logInBody{To: to, Name: name, Faults: found}, gate.Status(err))
	}
	if err != nil {
		return err
	}
	p.redirect(w, r, local(to))
	return nil
}

func (p *pages) logOut(w http.ResponseWriter, r *http.Request) error {
	if err := p.gate.LogOut(r); err != nil {
		return err
	}
	p.redirect(w, r, gate.LogInPath)
	return nil
}

// welcomeBody is what somebody sees who comes by a link that is good once.
type welcomeBody struct {
	Secret string
	For    string // the account; empty: the first admin chooses a name
	Name   string
	Faults fault.List
}

// First says whether it is the very first account that is made.
func (b welcomeBody) First() bool { return b.For == "" }

func (p *pages) welcome(w http.ResponseWriter, r *http.Request) error {
	secret := r.FormValue("secret")
	name, err := p.desk.Invited(r.Context(), secret)
	if err != nil {
		return err
	}
	return p.showWelcome(w, r, welcomeBody{Secret: secret, For: name}, http.StatusOK)
}

func (p *pages) showWelcome(w http.ResponseWriter, r *http.Request, b welcomeBody, status int) error {
	title := words.T("Choose a password")
	if b.First() {
		title = words.T("The first account")
	}
	return p.show(w, r, page{name: "welcome", title: title, body: b, bare: true, status: status})
}

// welcomed takes the password that somebody chose.
func (p *pages) welcomed(w http.ResponseWriter, r *http.Request) error {
	b := welcomeBody{Secret: r.PostFormValue("secret"), Name: r.PostFormValue("name")}
	var err error
	if b.For, err = p.desk.Invited(r.Context(), b.Secret); err != nil {
		return err
	}
	password, err := newPassword(r)
	if err == nil {
		err = p.gate.Welcome(w, r, b.Secret, b.Name, password)
	}
	if b.Faults = fault.All(err); len(b.Faults) > 0 {
		return p.showWelcome(w, r, b, gate.Status(err))
	}
	if err != nil {
		return err
	}
	p.redirect(w, r, "/")
	return nil
}

// CodeRepeat is the code of a password that was typed two ways.
const CodeRepeat fault.Code = "password-repeat"

// newPassword reads a password that was to be typed twice.
func newPassword(r *http.Request) (string, error) {
	password := r.PostFormValue("password")
	if password != r.PostFormValue("again") {
		return "", fault.Fault{Kind: fault.Input, Code: CodeRepeat, Field: "again", Wrong: "the two are not the same", Right: "type the new password twice"}
	}
	return password, nil
}
