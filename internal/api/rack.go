package api

import (
	"context"
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/exchange"
	"foldwright/internal/tooling"
)

type (
	rackIn struct {
		Paging
		Serves string `query:"serves" maxLength:"200" doc:"Only what serves this job, on every folder, and the nearest sets that do not."`
	}

	rackOut struct {
		Link string `header:"Link"`
		Body any
	}
)

func (a *API) rack() {
	register(a, call{id: "rack", method: http.MethodGet, path: "/rack", tag: "rack", says: "The sets; or those that serve a job, on every folder and station", need: access.See, answers: "RackAnswers"}, a.listRack)
}

func (a *API) listRack(ctx context.Context, in *rackIn) (*rackOut, error) {
	if in.Serves != "" {
		found, err := a.matches(ctx, in.Serves, "")
		if err != nil {
			return nil, err
		}
		return &rackOut{Body: found.Body}, nil
	}
	sets, err := a.desk.Rack(ctx)
	if err != nil {
		return nil, err
	}
	part, more, err := page(sets, in.Paging, func(s tooling.Set) string { return s.Label })
	if err != nil {
		return nil, err
	}
	out := &rackOut{Body: exchange.Rack(part)}
	if more {
		out.Link = link(nextPage("/rack", in.Paging, part[len(part)-1].Label, nil))
	}
	return out, nil
}
