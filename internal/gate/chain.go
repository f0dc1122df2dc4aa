package gate

import (
	"net/http"
	"slices"
	"strings"

	"foldwright/internal/access"
	"foldwright/internal/fault"
)

// The paths that the gate knows of.
const (
	LogInPath   = "/login"   // takes "to", where to go on
	WelcomePath = "/welcome" // takes "secret", of an invitation
	signOnPath  = "/login/oidc"
	staticPath  = "/static/"
	apiPath     = "/api/v1"
)

// openPages are the pages for which nobody has to be logged in; one that ends in / stands for all below it.
var openPages = []string{LogInPath, WelcomePath, signOnPath, signOnPath + "/back", "/theme", "/favicon.ico"}

// openCalls are the calls of the API for which nobody has to be logged in: its description, and the log-in.
var openCalls = []string{apiPath + "/", apiPath + "/openapi.json", apiPath + "/openapi.yaml", apiPath + "/session"}

// Pages wraps the web app. Who is not logged in is sent to the log-in from all pages but those it needs.
func (g *Gate) Pages(app http.Handler) http.Handler {
	h := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case r.URL.Path == signOnPath && r.Method == http.MethodGet:
			g.answer(w, r, g.beginSignOn(w, r))
		case r.URL.Path == signOnPath+"/back" && r.Method == http.MethodGet:
			g.answer(w, r, g.endSignOn(w, r))
		case access.From(r.Context()).Role == access.Nobody && !open(openPages, r.URL.Path):
			g.toLogIn(w, r)
		default:
			g.pass(app, w, r)
		}
	})
	inside := g.sameOrigin(g.sessions.LoadAndSave(g.signed(h)))
	return g.outside(g.limited(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path, staticPath) { // the same for everybody, and kept by the browser
			g.pass(app, w, r)
			return
		}
		w.Header().Set("Cache-Control", "no-store")
		inside.ServeHTTP(w, r)
	})))
}

// API wraps the calls under /api/v1.
func (g *Gate) API(calls http.Handler) http.Handler {
	h := g.once(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { g.pass(calls, w, r) }))
	guarded := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if access.From(r.Context()).Role == access.Nobody && !slices.Contains(openCalls, r.URL.Path) {
			Refuse(w, r, needLogIn)
			return
		}
		if err := g.tooMany(w, r); err != nil {
			Refuse(w, r, err)
			return
		}
		h.ServeHTTP(w, r)
	})
	person := g.sameOrigin(g.sessions.LoadAndSave(g.signed(guarded)))
	program := g.signed(guarded)
	return g.outside(g.limited(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "no-store")
		if r.Header.Get("Authorization") != "" {
			program.ServeHTTP(w, r)
			return
		}
		person.ServeHTTP(w, r)
	})))
}

// Watched wraps what is served beside pages and calls, such as whether the server lives: with log and headers, without
// anybody being asked who they are.
func (g *Gate) Watched(h http.Handler) http.Handler {
	return g.outside(g.limited(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { g.pass(h, w, r) })))
}

// pass hands a request on and notes which route took it.
func (g *Gate) pass(to http.Handler, w http.ResponseWriter, r *http.Request) {
	r.Pattern = ""
	defer func() { noteOf(r).route = r.Pattern }()
	to.ServeHTTP(w, r)
}

// open says whether a path is one of those.
func open(list []string, path string) bool {
	for _, p := range list {
		if path == p || strings.HasSuffix(p, "/") && strings.HasPrefix(path, p) {
			return true
		}
	}
	return false
}

// CodeNeedLogIn is the code of a request of somebody who is not logged in.
const CodeNeedLogIn fault.Code = "log-in-needed"

var needLogIn = fault.Fault{Kind: fault.Denied, Code: CodeNeedLogIn, Wrong: "nobody is logged in", Right: "log in, or send a token in the header Authorization: Bearer …"}

// toLogIn asks for a log-in, and remembers where somebody wanted to go.
func (g *Gate) toLogIn(w http.ResponseWriter, r *http.Request) {
	to := LogInPath
	if r.Method == http.MethodGet && r.URL.Path != "/" {
		to += "?to=" + escaped(r.URL.RequestURI())
	}
	if r.Header.Get("HX-Request") == "true" { // a script follows no redirect out of its piece of the page
		w.Header().Set("HX-Redirect", LogInPath)
		w.WriteHeader(http.StatusUnauthorized)
		return
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}

// answer tells people what went wrong, if anything did.
func (g *Gate) answer(w http.ResponseWriter, r *http.Request, err error) {
	if err != nil {
		g.refuse(w, r, err)
	}
}

// refuse tells people or programs, by what was asked for.
func (g *Gate) refuse(w http.ResponseWriter, r *http.Request, err error) {
	if r.URL.Path == apiPath || strings.HasPrefix(r.URL.Path, apiPath+"/") {
		Refuse(w, r, err)
		return
	}
	g.trouble(w, r, err)
}
