package api

import (
	"context"
	"fmt"
	"net/http"
	"net/url"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

type (
	// DraftID is one draft.
	DraftID struct {
		ID string `path:"id" maxLength:"60" doc:"Of the draft; given is the order given."`
	}

	draftsOut struct {
		Link string `header:"Link"`
		Body struct {
			Items []exchange.DraftDocument `json:"items"`
			Next  string                   `json:"next,omitempty"`
		} `nameHint:"DraftPage"`
	}

	draftOut struct {
		Location string `header:"Location"`
		Body     exchange.DraftDocument
	}

	acceptIn struct {
		DraftID
		Revision int64 `query:"revision" minimum:"0" doc:"The revision that the draft told when you looked at it; when the shop is another one by then, that is a conflict. Without it nothing is compared."`
	}

	chancesOut struct {
		Body *exchange.PlanChances
	}

	boundOut struct {
		Body struct {
			MakereadyMin float64 `json:"makeready_min" doc:"What the draft needs."`
			BoundMin     float64 `json:"makeready_bound_min" doc:"No order of all jobs needs less; 0 when the draft leaves out a job that could run, since nothing is known then."`
		} `nameHint:"PlanBound"`
	}

	rescuesIn struct {
		DraftID
		Job string `path:"job" maxLength:"200" doc:"A late job of the draft."`
	}

	rescuesOut struct {
		Body struct {
			Items []exchange.PlanRescue `json:"items" doc:"Ways to bring it in on time, all else as it is; empty when it is not late."`
		} `nameHint:"RescueList"`
	}

	arrangeIn struct {
		DraftID
		Body struct {
			Job    string `json:"job" minLength:"1"`
			Folder string `json:"folder" minLength:"1" doc:"The folder that it moves to."`
			Place  int    `json:"place" minimum:"1" maximum:"100000" doc:"Its place there, 1 for the first."`
		} `nameHint:"MoveAsk"`
	}
)

// draftsMost is how many drafts are looked through: older ones are reached by their id.
const draftsMost = 10_000

func (a *API) plans() {
	register(a, call{id: "list-plans", method: http.MethodGet, path: "/plans", tag: "plans", says: "List the drafts of plans, newest first, without what they come to", need: access.See}, a.listPlans)
	register(a, call{id: "get-plan", method: http.MethodGet, path: "/plans/{id}", tag: "plans", says: "A draft with what it comes to in the shop as it is now; the order given has the id given", need: access.See},
		func(ctx context.Context, in *DraftID) (*draftOut, error) {
			return a.draft(ctx)(a.desk.Draft(ctx, in.ID))
		})
	register(a, call{id: "rescue-job", method: http.MethodGet, path: "/plans/{id}/jobs/{job}/rescues", tag: "plans", says: "What would bring a late job of a draft in on time", need: access.See}, a.rescues)
	register(a, call{id: "plan-chances", method: http.MethodGet, path: "/plans/{id}/chances", tag: "plans", says: "How likely each job of a draft is on time when minutes scatter as the shop says they do, by simulation", need: access.See},
		func(ctx context.Context, in *DraftID) (*chancesOut, error) {
			c, err := a.desk.Chances(ctx, in.ID)
			if err != nil {
				return nil, err
			}
			return &chancesOut{exchange.Chances(c)}, nil
		})
	register(a, call{id: "plan-bound", method: http.MethodGet, path: "/plans/{id}/bound", tag: "plans", says: "How much make-ready no order of the jobs can undercut", need: access.See},
		func(ctx context.Context, in *DraftID) (*boundOut, error) {
			bound, needs, err := a.desk.Bound(ctx, in.ID)
			if err != nil {
				return nil, err
			}
			out := &boundOut{}
			out.Body.BoundMin, out.Body.MakereadyMin = bound.Minutes(), needs.Minutes()
			return out, nil
		})
	register(a, call{id: "move-in-plan", method: http.MethodPost, path: "/plans/{id}/moves", tag: "plans", says: "A new draft of another, with one job moved", need: access.Arrange, status: http.StatusCreated},
		func(ctx context.Context, in *arrangeIn) (*draftOut, error) {
			return a.draft(ctx)(a.desk.Arrange(ctx, in.ID, in.Body.Job, in.Body.Folder, in.Body.Place))
		})
	register(a, call{id: "accept-plan", method: http.MethodPost, path: "/plans/{id}/accept", tag: "plans", says: "Make a draft the order given", need: access.Arrange},
		func(ctx context.Context, in *acceptIn) (*draftOut, error) {
			return a.draft(ctx)(a.desk.Accept(ctx, in.ID, in.Revision))
		})
}

func (a *API) listPlans(ctx context.Context, in *listIn) (*draftsOut, error) {
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return nil, err
	}
	all, err := a.desk.Drafts(ctx, draftsMost)
	if err != nil {
		return nil, err
	}
	part, more, err := page(all, in.Paging, func(d ledger.Draft) string { return d.ID })
	if err != nil {
		return nil, err
	}
	out := &draftsOut{}
	out.Body.Items = exchange.Drafts(part, s.Zone)
	if more {
		out.Body.Next = nextPage("/plans", in.Paging, part[len(part)-1].ID, nil)
		out.Link = link(out.Body.Next)
	}
	return out, nil
}

func (a *API) rescues(ctx context.Context, in *rescuesIn) (*rescuesOut, error) {
	list, err := a.desk.Rescues(ctx, in.ID, in.Job)
	if err != nil {
		return nil, err
	}
	out := &rescuesOut{}
	out.Body.Items = make([]exchange.PlanRescue, len(list))
	for i, r := range list {
		out.Body.Items[i] = exchange.PlanRescueOf(r)
	}
	return out, nil
}

// draft answers with a draft worked out.
func (a *API) draft(ctx context.Context) func(*desk.Draft, error) (*draftOut, error) {
	return func(d *desk.Draft, err error) (*draftOut, error) {
		if err != nil {
			return nil, err
		}
		s, err := a.desk.Shop(ctx)
		if err != nil {
			return nil, err
		}
		out := &draftOut{Location: planAddress(d.ID), Body: exchange.Draft(d.Draft, d.Plan, d.Revision, d.Lost, s.Zone)}
		out.Body.Adapted = d.Adapted
		return out, nil
	}
}

func planAddress(id string) string { return Prefix + "/plans/" + url.PathEscape(id) }

// noSuchDay is the fault of a day behind the last of a plan.
func noSuchDay(day, days int) error {
	return fault.Fault{Kind: fault.Input, Code: CodeRequest, Field: "day", Wrong: fmt.Sprintf("day %d of a plan of %d", day, days), Right: fmt.Sprintf("1 to %d, or none for all", days)}
}
