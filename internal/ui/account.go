package ui

import (
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/words"
)

func (p *pages) accountRoutes() []route {
	return []route{
		{pattern: "GET /account", serve: p.account, deed: access.See, call: "get-me"},
		{pattern: "POST /account", serve: p.putMyself, deed: access.See, call: "put-me"},
		{pattern: "POST /account/password", serve: p.changePassword, deed: access.See, call: "put-my-password"},
		{pattern: "POST /account/sessions/end", serve: p.endMySessions, deed: access.See, call: "end-session"},
	}
}

// accountBody is somebody's own account.
type accountBody struct {
	Me       desk.Account
	Langs    []choice
	Lengths  []choice
	Sessions []gate.LoggedIn
	Faults   fault.List // of the password
}

// choice is one of several values.
type choice struct {
	Value  string
	Text   words.Text
	Chosen bool
}

func (p *pages) account(w http.ResponseWriter, r *http.Request) error {
	return p.showAccount(w, r, nil, http.StatusOK)
}

func (p *pages) showAccount(w http.ResponseWriter, r *http.Request, faults fault.List, status int) error {
	me, err := p.desk.Myself(r.Context())
	if err != nil {
		return err
	}
	sessions, err := p.gate.LoggedIn(r.Context(), me.Name)
	if err != nil {
		return err
	}
	p.byShopClock(r, sessions)
	b := accountBody{Me: me, Langs: langChoices(me.Lang), Lengths: lengthChoices(me.Inch), Sessions: sessions, Faults: faults}
	return p.show(w, r, page{name: "account", title: words.T("Your account"), body: b, status: status})
}

// langChoices are the languages of the pages, each in its own.
func langChoices(now string) []choice {
	list := []choice{{"", words.T("as the browser wishes"), now == ""}}
	for _, l := range words.Langs() {
		list = append(list, choice{string(l), words.Plain(languages[l]), now == string(l)})
	}
	return list
}

var languages = map[words.Lang]string{words.English: "English", words.German: "Deutsch", words.Spanish: "español", words.French: "français"}

func lengthChoices(inch *bool) []choice {
	return []choice{
		{"", words.T("as the shop reads them"), inch == nil},
		{"mm", words.T("millimetres"), inch != nil && !*inch},
		{"inch", words.T("inches"), inch != nil && *inch},
	}
}

// putMyself keeps language and unit.
func (p *pages) putMyself(w http.ResponseWriter, r *http.Request) error {
	me, err := p.desk.Myself(r.Context())
	if err != nil {
		return err
	}
	me.Lang, me.Inch = r.PostFormValue("lang"), inchOf(r.PostFormValue("lengths"))
	if _, err := p.desk.PutAccount(r.Context(), me); err != nil {
		return err
	}
	return p.done(w, r, "/account", 0, words.T("Saved."))
}

func inchOf(text string) *bool {
	inch := text == "inch"
	if !inch && text != "mm" {
		return nil
	}
	return &inch
}

func (p *pages) changePassword(w http.ResponseWriter, r *http.Request) error {
	password, err := newPassword(r)
	if err == nil {
		err = p.gate.ChangePassword(w, r, r.PostFormValue("old"), password)
	}
	if found := fault.All(err); len(found) > 0 {
		return p.showAccount(w, r, found, gate.Status(err))
	}
	if err != nil {
		return err
	}
	return p.done(w, r, "/account", 0, words.T("The new password holds. All other sessions have ended."))
}

// endMySessions ends one session of the asker's, or all but this one.
func (p *pages) endMySessions(w http.ResponseWriter, r *http.Request) error {
	sessions, err := p.gate.LoggedIn(r.Context(), access.From(r.Context()).Name)
	if err != nil {
		return err
	}
	for _, s := range sessions {
		if id := r.PostFormValue("id"); s.This || id != "" && id != s.ID {
			continue
		}
		if err := p.gate.EndLogIn(r.Context(), s.ID); err != nil {
			return err
		}
	}
	return p.done(w, r, "/account", 0, words.T("Ended."))
}

// byShopClock tells the times of sessions by the clock of the shop, where there is one.
func (p *pages) byShopClock(r *http.Request, sessions []gate.LoggedIn) {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return
	}
	for i := range sessions {
		sessions[i].Since, sessions[i].Seen = sessions[i].Since.In(s.Zone), sessions[i].Seen.In(s.Zone)
	}
}
