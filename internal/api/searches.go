package api

import (
	"context"
	"net/http"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/plan"
)

// Search is a search that goes on or ended lately.
type Search struct {
	ID         string         `json:"id"`
	Who        string         `json:"who"`
	Began      time.Time      `json:"began"`
	From       string         `json:"from,omitempty" doc:"The draft that it began with; left out: the order given."`
	Iterations int            `json:"iterations" doc:"Orders looked at so far."`
	Share      float64        `json:"share" doc:"Of the time or the iterations asked for, 0 to 1."`
	Given      *SearchFigures `json:"given_order,omitempty" doc:"What the order given comes to; left out until it is known."`
	Best       *SearchFigures `json:"best,omitempty" doc:"The best so far."`
	State      string         `json:"state" enum:"running,done,cancelled,failed"`
	Draft      string         `json:"draft,omitempty" doc:"The draft that holds what was found, once it is over."`
	Plan       string         `json:"plan,omitempty" doc:"Where that draft stands."`
	Error      string         `json:"error,omitempty" doc:"Why it failed."`
}

// SearchFigures are what an order costs, in minutes.
type SearchFigures struct {
	CostMin      float64   `json:"cost_min"`
	LateMin      float64   `json:"late_min"`
	LatePlainMin float64   `json:"late_plain_min"`
	LateJobs     int       `json:"late_jobs"`
	MakereadyMin float64   `json:"makeready_min"`
	WaitingMin   float64   `json:"waiting_min"`
	BenchMin     float64   `json:"bench_min"`
	End          time.Time `json:"end"`
}

// Stable says what of the order given a search keeps.
type Stable struct {
	Until    time.Time `json:"until" doc:"What is made ready before then is near."`
	PriceMin float64   `json:"price_min" minimum:"0" maximum:"100000" doc:"What a near job has to save to be moved, in minutes of the plan's cost."`
}

type (
	searchIDIn struct {
		ID string `path:"id" maxLength:"60"`
	}

	beginIn struct {
		Body struct {
			From       string  `json:"from,omitempty" doc:"The draft to begin with; without it the order given."`
			Seconds    float64 `json:"seconds,omitempty" exclusiveMinimum:"0" maximum:"600" doc:"How long to search."`
			Iterations int     `json:"iterations,omitempty" minimum:"1" maximum:"1000000000" doc:"Look at so many orders instead: the same plan on every machine."`
			Seed       uint64  `json:"seed,omitempty" default:"1" doc:"Where the search begins; another seed may find another plan."`
			Percentile int     `json:"percentile,omitempty" minimum:"50" maximum:"99" doc:"Search with minutes that suffice in so many of 100 cases; without it with those in the middle."`
			Stable     *Stable `json:"stable,omitempty" doc:"Keep the near future as it is unless moving it pays."`
		} `nameHint:"SearchAsk"`
	}

	searchOut struct {
		Location string `header:"Location"`
		Body     Search
	}

	searchesOut struct {
		Body struct {
			Items []Search `json:"items" doc:"Newest first; the last fifty are remembered."`
		} `nameHint:"SearchList"`
	}
)

func (a *API) searches() {
	register(a, call{id: "begin-search", method: http.MethodPost, path: "/searches", tag: "plans", says: "Begin to search a better order; what is found becomes a draft", need: access.Arrange, status: http.StatusAccepted}, a.begin)
	register(a, call{id: "list-searches", method: http.MethodGet, path: "/searches", tag: "plans", says: "List the searches that go on and those that ended lately", need: access.See}, a.listSearches)
	register(a, call{id: "get-search", method: http.MethodGet, path: "/searches/{id}", tag: "plans", says: "How far a search is", need: access.See},
		func(ctx context.Context, in *searchIDIn) (*searchOut, error) {
			s, err := a.desk.Searching(ctx, in.ID)
			return searchAnswer(s, err)
		})
	register(a, call{id: "cancel-search", method: http.MethodDelete, path: "/searches/{id}", tag: "plans", says: "End a search; the best so far is kept as a draft", need: access.Arrange, status: http.StatusOK},
		func(ctx context.Context, in *searchIDIn) (*searchOut, error) {
			s, err := a.desk.CancelSearch(ctx, in.ID)
			return searchAnswer(s, err)
		})
	register(a, call{id: "search-events", method: http.MethodGet, path: "/searches/{id}/events", tag: "plans", says: "Progress of a search as server-sent events: progress, at most five a second, then done", need: access.See, media: "text/event-stream"}, a.events)
}

func (a *API) begin(ctx context.Context, in *beginIn) (*searchOut, error) {
	b := in.Body
	if b.Seconds > 0 && b.Iterations > 0 {
		return nil, fault.Fault{Kind: fault.Input, Code: desk.CodeSearchTime, Field: "iterations", Wrong: "both seconds and iterations", Right: "one of the two"}
	}
	ask := desk.SearchAsk{From: b.From, Time: time.Duration(b.Seconds * float64(time.Second)), Iterations: b.Iterations, Options: plan.Options{Seed: b.Seed, Percentile: b.Percentile}}
	if b.Stable != nil {
		ask.Options.Stable = plan.Stable{Until: b.Stable.Until, Price: time.Duration(b.Stable.PriceMin * float64(time.Minute))}
	}
	s, err := a.desk.Search(ctx, ask)
	if err != nil {
		return nil, err
	}
	a.gate.Background(s.Run)
	return searchAnswer(s, nil)
}

func (a *API) listSearches(ctx context.Context, _ *struct{}) (*searchesOut, error) {
	list, err := a.desk.Searchings(ctx)
	if err != nil {
		return nil, err
	}
	out := &searchesOut{}
	out.Body.Items = make([]Search, len(list))
	for i, s := range list {
		at, _ := s.State()
		out.Body.Items[i] = searchOf(s, at)
	}
	return out, nil
}

func searchAnswer(s *desk.Searching, err error) (*searchOut, error) {
	if err != nil {
		return nil, err
	}
	at, _ := s.State()
	return &searchOut{Location: Prefix + "/searches/" + s.ID, Body: searchOf(s, at)}, nil
}

// searchOf gives a search its shape.
func searchOf(s *desk.Searching, at desk.SearchState) Search {
	out := Search{ID: s.ID, Who: s.Who, Began: s.Began, From: s.Ask.From, Iterations: at.Iterations, Share: at.Share, State: "running", Draft: at.Draft}
	if at.Known {
		given, best := figuresOf(at.Given), figuresOf(at.Best)
		out.Given, out.Best = &given, &best
	}
	if at.Draft != "" {
		out.Plan = planAddress(at.Draft)
	}
	switch {
	case at.Done && at.Err != nil:
		out.State, out.Error = "failed", exchange.Problem(at.Err).Title
	case at.Done && at.Cancelled:
		out.State = "cancelled"
	case at.Done:
		out.State = "done"
	}
	return out
}

func figuresOf(f plan.Figures) SearchFigures {
	return SearchFigures{
		CostMin: f.Cost.Minutes(), LateMin: f.Late.Minutes(), LatePlainMin: f.LatePlain.Minutes(), LateJobs: f.LateJobs,
		MakereadyMin: f.Makeready.Minutes(), WaitingMin: f.Waiting.Minutes(), BenchMin: f.Bench.Minutes(), End: f.End,
	}
}
