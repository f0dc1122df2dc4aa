package api

import (
	"context"
	"net/http"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
)

// sessionCookie is the cookie of somebody who has logged in; over TLS it is called __Host-foldwright.
const sessionCookie = "foldwright"

// Session is somebody who is logged in.
type Session struct {
	ID      string    `json:"id"`
	Account string    `json:"account"`
	Since   time.Time `json:"since"`
	Seen    time.Time `json:"seen" doc:"About when there was a sign of life last."`
	From    string    `json:"from" doc:"The address at the log-in."`
	Agent   string    `json:"agent" doc:"What the browser called itself."`
	This    bool      `json:"this" doc:"Whether it is the one that asks."`
}

type (
	logInIn struct {
		Body struct {
			Name     string `json:"name,omitempty" maxLength:"1000" doc:"May be left out with a secret, unless it is the first one, which makes the first account."`
			Password string `json:"password" maxLength:"1000"`
			Secret   string `json:"secret,omitempty" maxLength:"1000" doc:"Of an invitation: the password is then the one chosen from now on."`
		} `nameHint:"LogIn"`
	}

	sessionsIn struct {
		Account string `query:"account" maxLength:"200" doc:"Whose; without it your own. * for all, for who rules."`
	}

	sessionsOut struct {
		Body struct {
			Items []Session `json:"items"`
		} `nameHint:"SessionList"`
	}

	endIn struct {
		ID string `query:"id" required:"true" maxLength:"100" doc:"The session to end."`
	}
)

func (a *API) sessions() {
	register(a, call{id: "log-in", method: http.MethodPost, path: "/session", tag: "people", says: "Log in, by a password or by an invitation: the answer sets a cookie"},
		func(ctx context.Context, in *logInIn) (*struct{}, error) {
			if err := inPerson(ctx); err != nil {
				return nil, err
			}
			if in.Body.Secret != "" {
				return nil, a.gate.Welcome(writerOf(ctx), requestOf(ctx), in.Body.Secret, in.Body.Name, in.Body.Password)
			}
			return nil, a.gate.LogIn(writerOf(ctx), requestOf(ctx), in.Body.Name, in.Body.Password)
		})
	register(a, call{id: "log-out", method: http.MethodDelete, path: "/session", tag: "people", says: "Log out", need: access.See},
		func(ctx context.Context, _ *struct{}) (*struct{}, error) {
			if err := inPerson(ctx); err != nil {
				return nil, err
			}
			return nil, a.gate.LogOut(requestOf(ctx))
		})
	register(a, call{id: "list-sessions", method: http.MethodGet, path: "/sessions", tag: "people", says: "List where you are logged in", need: access.See}, a.listSessions)
	register(a, call{id: "end-session", method: http.MethodDelete, path: "/sessions", tag: "people", says: "End a session", need: access.See},
		func(ctx context.Context, in *endIn) (*struct{}, error) { return nil, a.gate.EndLogIn(ctx, in.ID) })
}

func (a *API) listSessions(ctx context.Context, in *sessionsIn) (*sessionsOut, error) {
	who, account := access.From(ctx), in.Account
	if err := inPersonOrRule(ctx); err != nil {
		return nil, err
	}
	switch account {
	case "":
		account = who.Name
	case "*":
		account = ""
	}
	list, err := a.gate.LoggedIn(ctx, account)
	if err != nil {
		return nil, err
	}
	out := &sessionsOut{}
	out.Body.Items = make([]Session, len(list))
	for i, s := range list {
		out.Body.Items[i] = sessionOf(s)
	}
	return out, nil
}

// inPerson refuses programs: one that comes with a token has no session.
func inPerson(ctx context.Context) error {
	if requestOf(ctx).Header.Get("Authorization") == "" {
		return nil
	}
	return fault.Fault{Kind: fault.No, Code: CodeInPerson, Field: "Authorization", Wrong: "a program that comes with a token has no session and no password", Right: "leave the header out; a token is taken back with DELETE " + Prefix + "/tokens/{id}"}
}

// inPersonOrRule refuses programs what is one's own, but for those that rule over people anyway.
func inPersonOrRule(ctx context.Context) error {
	if access.From(ctx).May(access.Rule) == nil {
		return nil
	}
	return inPerson(ctx)
}

func sessionOf(s gate.LoggedIn) Session { return Session(s) }
