package api

import (
	"context"
	"net/http"
	"slices"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/press"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
)

type (
	buildIn struct {
		Named
		Body struct {
			Job     string `json:"job" minLength:"1" doc:"The job that it is built for."`
			Folder  string `json:"folder,omitempty" doc:"On this folder; without it on the best one."`
			Station string `json:"station,omitempty" doc:"For this station; without it the first that wants tools of the set's class."`
		} `nameHint:"BuildAsk"`
	}

	moveIn struct {
		Named
		Body struct {
			Slot    string `json:"slot,omitempty" doc:"Into this slot of the rack."`
			Folder  string `json:"folder,omitempty" doc:"Or into a station of this folder."`
			Station string `json:"station,omitempty"`
			Bench   bool   `json:"bench,omitempty" doc:"Or onto the bench."`
		} `nameHint:"PlaceOfSet"`
	}

	labelsIn struct {
		Reader
		Set   []string `query:"set,explode" maxItems:"1000" doc:"The sets whose labels are wanted; without it all of them."`
		Stock string   `query:"stock" default:"A4 99.1 x 67.7" doc:"What is in the printer."`
		Skip  int      `query:"skip" minimum:"0" maximum:"1000" doc:"Leave out so many places of the first sheet."`
	}

	labelIn struct {
		Named
		Reader
		Stock string `query:"stock" default:"A4 99.1 x 67.7" doc:"What is in the printer."`
	}

	setDrawingIn struct {
		Named
		Reader
	}

	benchIn struct {
		Named
		PaperOf
		Job     string `query:"job" required:"true" doc:"The job that the set is changed for."`
		Folder  string `query:"folder"`
		Station string `query:"station"`
	}
)

func (a *API) sets() {
	k, path := kindOf(ledger.OfSet), "/sets/{name}"
	register(a, call{id: "build-set", method: http.MethodPost, path: path + "/build", tag: "rack", says: "Say that a set was made into what a job wants; loose tools are counted", need: access.Record},
		func(ctx context.Context, in *buildIn) (*thingOut, error) {
			return a.oneOf(ctx, k)(a.desk.BuildSet(ctx, in.Name, in.Body.Job, in.Body.Folder, in.Body.Station))
		})
	register(a, call{id: "strip-set", method: http.MethodPost, path: path + "/strip", tag: "rack", says: "Say that all tools were taken off a set", need: access.Record},
		func(ctx context.Context, in *Named) (*thingOut, error) {
			return a.oneOf(ctx, k)(a.desk.StripSet(ctx, in.Name))
		})
	register(a, call{id: "move-set", method: http.MethodPost, path: path + "/move", tag: "rack", says: "Say where a set is now; one that stood in that station takes its slot, or lies on the bench", need: access.Record},
		func(ctx context.Context, in *moveIn) (*thingOut, error) {
			t, err := a.desk.MoveSet(ctx, in.Name, tooling.Place(in.Body))
			if err != nil {
				return nil, a.within(ctx, k, in.Name, err)
			}
			return a.thing(ctx, k, t)
		})
	register(a, call{id: "retire-set", method: http.MethodPost, path: path + "/retire", tag: "rack", says: "Take a set out of the shop; its tools lie loose from then on", need: access.Arrange},
		func(ctx context.Context, in *Named) (*struct{}, error) { return nil, a.desk.RetireSet(ctx, in.Name) })
	register(a, call{id: "labels", method: http.MethodGet, path: "/sets/labels.pdf", tag: "prints", says: "Labels of sets", need: access.See, media: mediaPDF},
		func(ctx context.Context, in *labelsIn) (*fileOut, error) {
			return a.labels(ctx, in.Set, "labels", in.Stock, in.Skip, in.Reader)
		})
	register(a, call{id: "set-label", method: http.MethodGet, path: path + "/label.pdf", tag: "prints", says: "Label of a set", need: access.See, media: mediaPDF},
		func(ctx context.Context, in *labelIn) (*fileOut, error) {
			return a.labels(ctx, []string{in.Name}, "label-"+in.Name, in.Stock, 0, in.Reader)
		})
	register(a, call{id: "set-drawing", method: http.MethodGet, path: path + "/drawing.svg", tag: "prints", says: "The pair of shafts with its tools, to scale", need: access.See, media: mediaSVG}, a.drawSet)
	register(a, call{id: "set-bench-card", method: http.MethodGet, path: path + "/bench.pdf", tag: "prints", says: "Bench card: what to take off, slide and fit, with the strip at full scale", need: access.See, media: mediaPDF}, a.benchCard)
}

func (a *API) labels(ctx context.Context, wanted []string, name, stockName string, skip int, r Reader) (*fileOut, error) {
	stock, err := draw.StockNamed(stockName)
	if err != nil {
		return nil, err
	}
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return nil, err
	}
	sets, err := a.desk.Labels(ctx, wanted)
	if err != nil {
		return nil, err
	}
	if len(sets) == 0 {
		return nil, fault.Fault{Kind: fault.No, Code: "no-pages", Wrong: "the shop has no set yet", Right: "add one, then print its label"}
	}
	say := a.speaker(ctx, r)
	pages, err := press.Labels(s, sets, a.reached(ctx), stock, skip, say)
	if err != nil {
		return nil, err
	}
	return a.pdf(s, say, name, pages[0].Title, pages, r.IfNoneMatch)
}

// drawSet draws a set as it stands, without a sheet.
func (a *API) drawSet(ctx context.Context, in *setDrawingIn) (*fileOut, error) {
	s, set, err := a.set(ctx, in.Name)
	if err != nil {
		return nil, err
	}
	p := press.Set(s, set, a.speaker(ctx, in.Reader))
	return svg("set-"+set.Label, p, in.IfNoneMatch), nil
}

// set finds a set of the rack.
func (a *API) set(ctx context.Context, label string) (*shop.Shop, *tooling.Set, error) {
	t, err := a.desk.Thing(ctx, ledger.OfSet, label)
	if err != nil {
		return nil, nil, err
	}
	s, err := a.desk.Shop(ctx)
	set := t.Value.(tooling.Set)
	set.Tools = slices.Clone(set.Tools)
	return s, &set, err
}

func (a *API) benchCard(ctx context.Context, in *benchIn) (*fileOut, error) {
	b, err := a.desk.Build(ctx, in.Name, in.Job, in.Folder, in.Station)
	if err != nil {
		return nil, err
	}
	say := a.speaker(ctx, in.Reader)
	pages, err := press.BenchCards([]*desk.Build{b}, a.reached(ctx), in.paper(), say)
	if err != nil {
		return nil, err
	}
	return a.pdf(b.Shop, say, "bench-"+in.Name, pages[0].Title, pages, in.IfNoneMatch)
}
