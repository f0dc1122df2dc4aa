package api

import (
	"context"
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
)

type floorIn struct {
	Named
	Body *struct {
		Folder string `json:"folder,omitempty" doc:"Where it runs; without it where it is pinned, else where the order given has it."`
	} `nameHint:"OnFolder"`
}

func (in *floorIn) folder() string {
	if in.Body == nil {
		return ""
	}
	return in.Body.Folder
}

func (a *API) floor() {
	register(a, call{id: "start-job", method: http.MethodPost, path: "/jobs/{name}/start", tag: "floor", says: "Say that a job is made ready and runs: it is first on its folder, which is set for it, its sets stand in their stations", need: access.Record, open: true},
		func(ctx context.Context, in *floorIn) (*thingOut, error) {
			return a.job(ctx)(a.desk.Start(ctx, in.Name, in.folder()))
		})
	register(a, call{id: "finish-job", method: http.MethodPost, path: "/jobs/{name}/finish", tag: "floor", says: "Say that all sheets of a job are folded: it is done, its sets have served it", need: access.Record, open: true},
		func(ctx context.Context, in *floorIn) (*thingOut, error) {
			return a.oneOf(ctx, kindOf(ledger.OfDone))(a.desk.Finish(ctx, in.Name, in.folder()))
		})
}
