package api

import (
	"context"
	"encoding/json"
	"net/http"
	"net/url"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/shop"
)

type (
	// PersonNamed is one account.
	PersonNamed struct {
		Name string `path:"name" maxLength:"200" doc:"Of the account."`
	}

	getPersonIn struct {
		PersonNamed
		IfNoneMatch
	}

	putPersonIn struct {
		PersonNamed
		IfMatch
		Sent
	}

	inviteIn struct {
		PersonNamed
		Body *struct {
			Role string `json:"role,omitempty" enum:"viewer,operator,lead,admin" doc:"Of a new account; left out: a new password for one that is there."`
			Lang string `json:"lang,omitempty" enum:"en,de,es,fr"`
		} `nameHint:"InvitationAsk"`
	}

	inviteOut struct {
		Body struct {
			Secret string `json:"secret" doc:"Told this once."`
			Link   string `json:"link" doc:"Where the password is chosen."`
			Hours  int    `json:"hours" doc:"How long the link may be used, once."`
		} `nameHint:"Invitation"`
	}

	putMeIn struct {
		IfMatch
		Sent
	}

	passwordIn struct {
		Body struct {
			Old string `json:"old" maxLength:"1000" doc:"The password so far."`
			New string `json:"new" maxLength:"1000" doc:"The password from now on."`
		} `nameHint:"PasswordChange"`
	}
)

func (a *API) people() {
	register(a, call{id: "list-people", method: http.MethodGet, path: "/people", tag: "people", says: "List the accounts", need: access.Rule, answers: "AccountPage"}, a.listPeople)
	register(a, call{id: "get-person", method: http.MethodGet, path: "/people/{name}", tag: "people", says: "Read an account", need: access.Rule, answers: "Account"}, a.getPerson)
	register(a, call{id: "put-person", method: http.MethodPut, path: "/people/{name}", tag: "people", says: "Change an account: its role, or that it lets nobody in any more", need: access.Rule, body: "Account", answers: "Account"}, a.putPerson)
	register(a, call{id: "invite-person", method: http.MethodPost, path: "/people/{name}/invitation", tag: "people", says: "Make a link by which somebody chooses a password, once", need: access.Rule, open: true, status: http.StatusCreated}, a.invite)
	register(a, call{id: "get-me", method: http.MethodGet, path: "/me", tag: "people", says: "Read your own account", need: access.See, answers: "Account"}, a.getMe)
	register(a, call{id: "put-me", method: http.MethodPut, path: "/me", tag: "people", says: "Change your own account: language, units", need: access.See, body: "Account", answers: "Account"}, a.putMe)
	register(a, call{id: "put-my-password", method: http.MethodPut, path: "/me/password", tag: "people", says: "Choose another password; your other sessions end", need: access.See},
		func(ctx context.Context, in *passwordIn) (*struct{}, error) {
			if err := inPerson(ctx); err != nil {
				return nil, err
			}
			return nil, a.gate.ChangePassword(writerOf(ctx), requestOf(ctx), in.Body.Old, in.Body.New)
		})
}

func (a *API) listPeople(ctx context.Context, in *listIn) (*listOut, error) {
	all, s, err := a.accounts(ctx)
	if err != nil {
		return nil, err
	}
	part, more, err := page(all, in.Paging, func(p desk.Account) string { return p.Name })
	if err != nil {
		return nil, err
	}
	next := ""
	if more {
		next = nextPage("/people", in.Paging, part[len(part)-1].Name, nil)
	}
	return pageOfDocuments(part, next, func(p desk.Account) json.RawMessage { return exchange.Accounts().Write(exchange.Account(p), s) })
}

func (a *API) accounts(ctx context.Context) ([]desk.Account, *shop.Shop, error) {
	all, err := a.desk.Accounts(ctx)
	if err != nil {
		return nil, nil, err
	}
	s, err := a.shopIfAny(ctx)
	return all, s, err
}

// shopIfAny is the shop, none as long as there is none: people come before it.
func (a *API) shopIfAny(ctx context.Context) (*shop.Shop, error) {
	s, err := a.desk.Shop(ctx)
	if found := fault.All(err); len(found) > 0 && found[0].Kind == fault.Missing {
		return nil, nil
	}
	return s, err
}

func (a *API) person(ctx context.Context, name string) (desk.Account, *shop.Shop, error) {
	all, s, err := a.accounts(ctx)
	if err != nil {
		return desk.Account{}, nil, err
	}
	for _, p := range all {
		if p.Name == name {
			return p, s, nil
		}
	}
	return desk.Account{}, nil, fault.Fault{Kind: fault.Missing, Code: shop.CodeUnknownName, Field: "name", Wrong: "there is no account " + clip(name), Right: "GET " + Prefix + "/people lists them"}
}

func (a *API) getPerson(ctx context.Context, in *getPersonIn) (*valueOut, error) {
	p, s, err := a.person(ctx, in.Name)
	if err != nil {
		return nil, err
	}
	return accountAnswer(p, s, in.IfNoneMatch), nil
}

func accountAnswer(p desk.Account, s *shop.Shop, has IfNoneMatch) *valueOut {
	out := &valueOut{Status: http.StatusOK, ETag: etag(p.Version), Body: exchange.Accounts().Write(exchange.Account(p), s)}
	if has.has(out.ETag) {
		out.Status, out.Body = http.StatusNotModified, nil
	}
	return out
}

func (a *API) putPerson(ctx context.Context, in *putPersonIn) (*valueOut, error) {
	p, s, err := a.person(ctx, in.Name)
	if err != nil {
		return nil, err
	}
	return a.putAccount(ctx, p, s, in.IfMatch, in.RawBody)
}

// putAccount changes an account; its name and what the program fills in stay.
func (a *API) putAccount(ctx context.Context, p desk.Account, s *shop.Shop, m IfMatch, body []byte) (*valueOut, error) {
	version, err := m.version()
	if err != nil {
		return nil, err
	}
	sent, err := exchange.Accounts().Read(body, s)
	if err != nil {
		return nil, err
	}
	if sent.Name != p.Name {
		return nil, fault.Fault{Kind: fault.Input, Code: desk.CodeAccountName, Field: "name", Wrong: "an account keeps its name", Right: p.Name}
	}
	p.Role, p.Lang, p.Inch, p.Ended, p.Version = sent.Role, sent.Lang, sent.Inch, sent.Ended, version
	if p, err = a.desk.PutAccount(ctx, p); err != nil {
		return nil, stale(err)
	}
	return accountAnswer(p, s, IfNoneMatch{}), nil
}

func (a *API) invite(ctx context.Context, in *inviteIn) (*inviteOut, error) {
	role, lang := access.Nobody, ""
	if in.Body != nil {
		role, _ = access.RoleNamed(in.Body.Role)
		lang = in.Body.Lang
	}
	secret, err := a.desk.Invite(ctx, in.Name, role, lang)
	if err != nil {
		return nil, err
	}
	out := &inviteOut{}
	out.Body.Secret, out.Body.Hours = secret, int(desk.InvitationLasts/time.Hour)
	out.Body.Link = string(a.reached(ctx)) + gate.WelcomePath + "?secret=" + url.QueryEscape(secret)
	return out, nil
}

func (a *API) me(ctx context.Context) (desk.Account, *shop.Shop, error) {
	p, err := a.desk.Myself(ctx)
	if err != nil {
		return p, nil, err
	}
	s, err := a.shopIfAny(ctx)
	return p, s, err
}

func (a *API) getMe(ctx context.Context, in *IfNoneMatch) (*valueOut, error) {
	p, s, err := a.me(ctx)
	if err != nil {
		return nil, err
	}
	return accountAnswer(p, s, *in), nil
}

func (a *API) putMe(ctx context.Context, in *putMeIn) (*valueOut, error) {
	if err := inPersonOrRule(ctx); err != nil {
		return nil, err
	}
	p, s, err := a.me(ctx)
	if err != nil {
		return nil, err
	}
	return a.putAccount(ctx, p, s, in.IfMatch, in.RawBody)
}
