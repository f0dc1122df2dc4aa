package gate

import (
	"context"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/coreos/go-oidc/v3/oidc"
	"golang.org/x/oauth2"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
)

// SignOn is how people log in by way of a system of the house that speaks OpenID Connect.
type SignOn struct {
	Label     string // what the log-in page calls it
	Issuer    string // its address
	ID        string // what it calls foldwright
	Secret    string
	NameClaim string                 // which claim is the name of the account; empty: preferred_username
	RoleClaim string                 // which claim, a text or a list of texts, tells the role; empty: roles are given here
	Roles     map[string]access.Role // what the values of that claim come to
	NewRole   access.Role            // of somebody who comes for the first time; Nobody: only accounts that are here
	Client    *http.Client           // nil: the usual, with a limit of time
}

// signOn asks that system. What it is able to is read when somebody comes first, so that the server starts without it.
type signOn struct {
	SignOn
	back string
	mu   sync.Mutex
	at   *oidc.Provider
}

func newSignOn(c SignOn, address string) (*signOn, error) {
	wrong := ""
	switch {
	case c.Issuer == "" || c.ID == "":
		wrong = "an issuer without a client id, or the other way round"
	case address == "":
		wrong = "nobody said where people reach this server, and the other system has to send them back"
	case c.RoleClaim != "" && len(c.Roles) == 0:
		wrong = "a claim for roles, and no role for any of its values"
	}
	if wrong != "" {
		return nil, fault.Fault{Kind: fault.Input, Code: CodeSignOn, Wrong: "log-in by OpenID Connect: " + wrong, Right: "an issuer, a client id and --address"}
	}
	if c.NameClaim == "" {
		c.NameClaim = "preferred_username"
	}
	if c.Client == nil {
		c.Client = &http.Client{Timeout: 10 * time.Second}
	}
	return &signOn{SignOn: c, back: strings.TrimSuffix(address, "/") + signOnPath + "/back"}, nil
}

// CodeSignOn is the code of a log-in by another system that does not come about.
const CodeSignOn fault.Code = "sign-on"

// SignOnLabel is what the log-in page calls the other system, and where its link leads; empty when there is none.
func (g *Gate) SignOnLabel() (label, path string) {
	if g.signOn == nil {
		return "", ""
	}
	return g.signOn.Label, signOnPath
}

// provider reads, once, what the other system is able to.
func (s *signOn) provider(ctx context.Context) (*oidc.Provider, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.at != nil {
		return s.at, nil
	}
	at, err := oidc.NewProvider(oidc.ClientContext(context.WithoutCancel(ctx), s.Client), s.Issuer)
	if err != nil {
		return nil, errors.Join(fault.Fault{Kind: fault.Denied, Code: CodeUnavailable, Wrong: "the system that would vouch for you does not answer", Right: "log in by name and password, or try again later"}, err)
	}
	s.at = at
	return at, nil
}

func (s *signOn) config(at *oidc.Provider) oauth2.Config {
	return oauth2.Config{ClientID: s.ID, ClientSecret: s.Secret, Endpoint: at.Endpoint(), RedirectURL: s.back, Scopes: []string{oidc.ScopeOpenID, "profile", "email"}}
}

// waiting is somebody who went to the other system and has not come back.
type waiting struct {
	State, Nonce, Verifier, To string
	Until                      time.Time
}

const inWaiting = "sign-on"

// waitsFor is how long somebody may take there.
const waitsFor = 10 * time.Minute

// text is how a session holds it: sessions are written by a coder that knows texts and numbers.
func (w waiting) text() (string, error) {
	text, err := json.Marshal(w)
	return string(text), err
}

// back reads it; nothing is waited for when there is none.
func back(text string) (w waiting) {
	if json.Unmarshal([]byte(text), &w) != nil {
		return waiting{}
	}
	return w
}

// beginSignOn sends somebody to the other system.
func (g *Gate) beginSignOn(w http.ResponseWriter, r *http.Request) error {
	if g.signOn == nil {
		return noSignOn
	}
	if err := g.tooManyLogIns(w, r, ""); err != nil {
		return err
	}
	at, err := g.signOn.provider(r.Context())
	if err != nil {
		return g.said(r, err)
	}
	sent := waiting{State: rand.Text(), Nonce: rand.Text(), Verifier: oauth2.GenerateVerifier(), To: Local(r.FormValue("to")), Until: g.now().Add(waitsFor)}
	text, err := sent.text()
	if err != nil {
		return err
	}
	g.sessions.Put(r.Context(), inWaiting, text)
	c := g.signOn.config(at)
	http.Redirect(w, r, c.AuthCodeURL(sent.State, oidc.Nonce(sent.Nonce), oauth2.S256ChallengeOption(sent.Verifier)), http.StatusSeeOther)
	return nil
}

var noSignOn = fault.Fault{Kind: fault.Missing, Code: CodeSignOn, Wrong: "no other system vouches for people here", Right: "log in by name and password"}

// endSignOn takes somebody in who comes back.
func (g *Gate) endSignOn(w http.ResponseWriter, r *http.Request) error {
	if g.signOn == nil {
		return noSignOn
	}
	if err := g.tooManyLogIns(w, r, ""); err != nil {
		return err
	}
	sent := back(g.sessions.PopString(r.Context(), inWaiting))
	a, err := g.vouchedFor(r, sent)
	if err != nil {
		g.metrics.refused.WithLabelValues("sign-on").Inc()
		return g.said(r, err)
	}
	if err := g.begin(r, a); err != nil {
		return err
	}
	http.Redirect(w, r, Local(sent.To), http.StatusSeeOther)
	return nil
}

// vouchedFor checks what the other system says.
func (g *Gate) vouchedFor(r *http.Request, sent waiting) (desk.Account, error) {
	no := func(why error) (desk.Account, error) {
		return desk.Account{}, errors.Join(fault.Fault{Kind: fault.Denied, Code: CodeSignOn, Wrong: "the other system did not vouch for you", Right: "begin the log-in again"}, why)
	}
	if sent.State == "" || r.FormValue("state") != sent.State || !g.now().Before(sent.Until) {
		return no(errors.New("state is missing, another one, or too old"))
	}
	if r.FormValue("code") == "" {
		return no(fmt.Errorf("no code: %.100q", r.FormValue("error")))
	}
	at, err := g.signOn.provider(r.Context())
	if err != nil {
		return desk.Account{}, err
	}
	ctx := oidc.ClientContext(r.Context(), g.signOn.Client)
	c := g.signOn.config(at)
	token, err := c.Exchange(ctx, r.FormValue("code"), oauth2.VerifierOption(sent.Verifier))
	if err != nil {
		return no(err)
	}
	raw, _ := token.Extra("id_token").(string)
	id, err := at.Verifier(&oidc.Config{ClientID: g.signOn.ID, Now: g.now}).Verify(ctx, raw)
	if err != nil {
		return no(err)
	}
	if id.Nonce != sent.Nonce {
		return no(errors.New("another nonce"))
	}
	var claims map[string]any
	if err := id.Claims(&claims); err != nil {
		return no(err)
	}
	name, role, err := g.signOn.read(claims)
	if err != nil {
		return desk.Account{}, err
	}
	return g.desk.Vouched(r.Context(), name, role, g.signOn.NewRole)
}

// read takes name and role from what the other system says. An e-mail address counts only when it was verified there.
func (s *signOn) read(claims map[string]any) (name string, role access.Role, err error) {
	name, _ = claims[s.NameClaim].(string)
	if verified, told := claims["email_verified"].(bool); s.NameClaim == "email" && (!told || !verified) {
		name = ""
	}
	if name == "" {
		return "", 0, fault.Fault{Kind: fault.Denied, Code: CodeSignOn, Wrong: fmt.Sprintf("the other system did not say your name (claim %s)", s.NameClaim), Right: "ask whoever looks after it"}
	}
	if s.RoleClaim == "" {
		return name, access.Nobody, nil
	}
	for _, value := range texts(claims[s.RoleClaim]) {
		role = max(role, s.Roles[value])
	}
	if role = max(role, s.NewRole); role == access.Nobody {
		err = fault.Fault{Kind: fault.Denied, Code: CodeSignOn, Wrong: fmt.Sprintf("the other system gives you no role here (claim %s)", s.RoleClaim), Right: "ask whoever looks after it"}
	}
	return name, role, err
}

// texts reads a claim that is a text or a list of texts.
func texts(claim any) []string {
	switch claim := claim.(type) {
	case string:
		return []string{claim}
	case []any:
		var list []string
		for _, c := range claim {
			if t, ok := c.(string); ok {
				list = append(list, t)
			}
		}
		slices.Sort(list)
		return list
	}
	return nil
}

// said keeps the technical reason for the log and tells people the fault.
func (g *Gate) said(r *http.Request, err error) error {
	g.log.WarnContext(r.Context(), "log-in by the other system failed", "request", noteOf(r).id, "error", err)
	if all := fault.All(err); len(all) > 0 {
		return all[0]
	}
	return err
}
