// Package ui is the web app: pages made on the server, over the same use cases as the API, with all they need embedded.
//
// A page is a template, a handler and lines in two tables: the route, which names the least deed and the operation of the
// API that does the same, and the catalogue of words, which holds every text. Whoever has no script reads and types all
// the same; scripts only spare a reload and let a hand move things. How to add a page stands in README.md.
//
// Handlers return errors; one place makes an answer of them. Nothing here decides anything of the trade.
package ui

import (
	"context"
	"net/http"
	"net/url"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/words"
)

// Gate is what the pages ask of the gate, which has signed the request's context with who asks; a [gate.Gate] is one.
type Gate interface {
	Speaker(r *http.Request) *words.Speaker // in the reader's language and unit
	LogIn(w http.ResponseWriter, r *http.Request, name, password string) error
	Welcome(w http.ResponseWriter, r *http.Request, secret, name, password string) error
	ChangePassword(w http.ResponseWriter, r *http.Request, old, password string) error
	LogOut(r *http.Request) error
	LoggedIn(ctx context.Context, account string) ([]gate.LoggedIn, error)
	EndLogIn(ctx context.Context, id string) error
	SignOnLabel() (label, path string)
	Reached(r *http.Request) string // where the reader reached the app: what codes on paper lead back to
	Streams(w http.ResponseWriter)  // before an answer that goes on and on
	Background(run func(ctx context.Context))
	Stopping() <-chan struct{}
	ShowTrouble(show func(w http.ResponseWriter, r *http.Request, err error))
}

// pages is the app.
type pages struct {
	desk   *desk.Desk
	gate   Gate
	assets *assets
	prints *prints
	routes []route
}

// New makes the pages. They are to be served behind the gate.
func New(d *desk.Desk, g Gate) http.Handler {
	p := &pages{desk: d, gate: g, assets: loadAssets()}
	p.prints = newPrints(p.assets)
	p.routes = p.table()
	g.ShowTrouble(p.trouble)
	mux := http.NewServeMux()
	for _, rt := range p.routes {
		mux.Handle(rt.pattern, p.handle(rt))
	}
	mux.Handle("GET /static/", p.assets)
	mux.Handle("/", p.handle(route{serve: func(http.ResponseWriter, *http.Request) error {
		return fault.Fault{Kind: fault.Missing, Code: CodePage, Wrong: "there is no such page", Right: "go on from the start page"}
	}}))
	return mux
}

// CodePage is the code of a page that does not exist.
const CodePage fault.Code = "no-page"

// handle checks the deed, serves, and answers what went wrong.
func (p *pages) handle(rt route) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		who := access.From(r.Context())
		if rt.deed != "" && who.Role == access.Nobody {
			p.toLogIn(w, r)
			return
		}
		err := error(nil)
		if rt.deed != "" {
			err = who.May(rt.deed)
		}
		if err == nil {
			err = rt.serve(w, r)
		}
		switch {
		case err == nil:
		case isNoShop(err) && !partial(r):
			p.noShop(w, r)
		default:
			p.trouble(w, r, err)
		}
	})
}

// toLogIn asks for a log-in, and remembers where the reader wanted to go.
func (p *pages) toLogIn(w http.ResponseWriter, r *http.Request) {
	to := gate.LogInPath
	if r.Method == http.MethodGet && !partial(r) && r.URL.Path != "/" {
		to += "?to=" + url.QueryEscape(r.URL.RequestURI())
	}
	p.redirect(w, r, to)
}

// partial says whether a script asks for a piece of a page.
func partial(r *http.Request) bool { return r.Header.Get("HX-Request") == "true" }

// redirect sends the browser to another page, also when a script asked.
func (p *pages) redirect(w http.ResponseWriter, r *http.Request, to string) {
	if partial(r) {
		w.Header().Set("HX-Redirect", to)
		w.WriteHeader(http.StatusOK)
		return
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}
