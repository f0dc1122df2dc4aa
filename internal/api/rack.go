package api

import (
	"context"
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/exchange"
)

func (a *API) rack() {
	type rackIn struct {
		Serves string `query:"serves" doc:"Only what serves this job, on every folder, and the nearest sets that do not."`
	}
	register(a, call{id: "rack", method: http.MethodGet, path: "/rack", tag: "rack", says: "All sets; or those that serve a job, on every folder and station", need: access.See, answers: "RackAnswers"},
		func(ctx context.Context, in *rackIn) (*settingsOut, error) {
			if in.Serves != "" {
				found, err := a.matches(ctx, in.Serves, "")
				if err != nil {
					return nil, err
				}
				return &settingsOut{found.Body}, nil
			}
			sets, err := a.desk.Rack(ctx)
			if err != nil {
				return nil, err
			}
			return &settingsOut{exchange.Rack(sets)}, nil
		})
}
