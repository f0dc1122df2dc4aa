// Package api is the door for programs: everything below /api/v1, described by an OpenAPI document that is made from the very
// code that answers.
//
// A file a noun, thin handlers: decode, ask the desk, answer. Who asks has been found out before (the gate signs the context) and
// the desk decides what they may; here it is asked once more, before a body is read, so that nobody learns from a
// fault in their input what they may not see. Every error is a problem document that names the fields.
package api

import (
	"net/http"

	"github.com/danielgtaylor/huma/v2"
	"github.com/danielgtaylor/huma/v2/adapters/humago"

	"foldwright/internal/desk"
	"foldwright/internal/gate"
)

// Prefix is where the API stands.
const Prefix = "/api/v1"

// API answers programs.
type API struct {
	desk *desk.Desk
	gate *gate.Gate
	mux  *http.ServeMux
	huma huma.API
	doc  document
}

// New makes the door to a desk. The gate does log-in, sessions and what goes on in the background.
func New(d *desk.Desk, g *gate.Gate) *API {
	a := &API{desk: d, gate: g, mux: http.NewServeMux()}
	a.huma = humago.NewWithPrefix(a.mux, Prefix, config())
	a.huma.UseMiddleware(withLine, mayCome, wantsMedia)
	a.things()
	a.jobs()
	a.floor()
	a.pins()
	a.cards()
	a.drawings()
	a.sets()
	a.rack()
	a.plans()
	a.searches()
	a.records()
	a.changes()
	a.people()
	a.tokens()
	a.sessions()
	a.shopFile()
	a.backups()
	a.doc = a.describe()
	a.mux.HandleFunc("GET "+Prefix+"/openapi.json", a.doc.serveJSON)
	a.mux.HandleFunc("GET "+Prefix+"/openapi.yaml", a.doc.serveYAML)
	a.mux.HandleFunc("GET "+Prefix+"/{$}", a.doc.servePage)
	return a
}

// ServeHTTP answers a request; what nothing is registered for gets a problem document, too.
func (a *API) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h, pattern := a.mux.Handler(r)
	if pattern == "" {
		answerUnknown(w, r, h)
		return
	}
	a.mux.ServeHTTP(w, r)
}
