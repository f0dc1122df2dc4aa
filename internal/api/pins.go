package api

import (
	"context"
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
)

type pinIn struct {
	Named
	Body struct {
		Folder  string `json:"folder" minLength:"1" doc:"The folder on which it must run."`
		Place   int    `json:"place,omitempty" minimum:"0" maximum:"10000" doc:"Its place there, 1 for the first; those held there already make room. Without it: anywhere."`
		Started bool   `json:"started,omitempty" doc:"Whether it is made ready and running."`
	} `nameHint:"Pin"`
}

func (a *API) pins() {
	path := "/jobs/{name}/pin"
	register(a, call{id: "pin-job", method: http.MethodPut, path: path, tag: "jobs", says: "Hold a job on a folder, at a place of it if one is given", need: access.Arrange},
		func(ctx context.Context, in *pinIn) (*thingOut, error) {
			b := in.Body
			return a.job(ctx)(a.desk.Pin(ctx, in.Name, job.Pin{Folder: b.Folder, Position: b.Place, Started: b.Started}))
		})
	register(a, call{id: "unpin-job", method: http.MethodDelete, path: path, tag: "jobs", says: "Let a job go wherever the plan puts it", need: access.Arrange, status: http.StatusOK},
		func(ctx context.Context, in *Named) (*thingOut, error) {
			return a.job(ctx)(a.desk.Unpin(ctx, in.Name))
		})
}

// job answers with a waiting job.
func (a *API) job(ctx context.Context) func(desk.Thing, error) (*thingOut, error) {
	return a.oneOf(ctx, kindOf(ledger.OfJob))
}

// oneOf answers with a thing of a kind, when there was no error.
func (a *API) oneOf(ctx context.Context, k kind) func(desk.Thing, error) (*thingOut, error) {
	return func(t desk.Thing, err error) (*thingOut, error) {
		if err != nil {
			return nil, err
		}
		return a.thing(ctx, k, t)
	}
}
