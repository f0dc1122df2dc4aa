package api

import (
	"context"
	"net/http"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/press"
)

type (
	cardIn struct {
		Named
		PaperOf
		Folder string `query:"folder" doc:"On this folder; without it on the best one."`
	}

	planCardsIn struct {
		DraftID
		PaperOf
	}
)

func (a *API) cards() {
	register(a, call{id: "job-card", method: http.MethodGet, path: "/jobs/{name}/card.pdf", tag: "prints", says: "Set-up card of a job, if it came next", need: access.See, media: mediaPDF}, a.card)
	register(a, call{id: "plan-cards", method: http.MethodGet, path: "/plans/{id}/cards.pdf", tag: "prints", says: "Set-up cards of all jobs of a plan, in the order of their make-readies", need: access.See, media: mediaPDF}, a.planCards)
	register(a, call{id: "plan-bench-cards", method: http.MethodGet, path: "/plans/{id}/bench.pdf", tag: "prints", says: "Bench cards of everything that the bench builds for a plan", need: access.See, media: mediaPDF}, a.planBench)
}

// planBench prints what the bench does for a plan, by start.
func (a *API) planBench(ctx context.Context, in *planCardsIn) (*fileOut, error) {
	d, err := a.desk.Draft(ctx, in.ID)
	if err != nil {
		return nil, err
	}
	builds, err := a.desk.Builds(ctx, d.Plan)
	if err != nil {
		return nil, err
	}
	if len(builds) == 0 {
		return nil, fault.Fault{Kind: fault.No, Code: "no-pages", Wrong: "the plan leaves the bench nothing to build", Right: "the plan tells which sets serve"}
	}
	say := a.speaker(ctx, in.Reader)
	pages, err := press.BenchCards(builds, a.reached(ctx), in.paper(), say)
	if err != nil {
		return nil, err
	}
	name := "bench-" + builds[0].By.Format(time.DateOnly)
	return a.pdf(builds[0].Shop, say, name, say.Say("Bench cards: %s", builds[0].Shop.Name), pages, in.IfNoneMatch)
}

func (a *API) card(ctx context.Context, in *cardIn) (*fileOut, error) {
	card, err := a.desk.Card(ctx, in.Name, in.Folder)
	if err != nil {
		return nil, err
	}
	say := a.speaker(ctx, in.Reader)
	pages, err := press.Cards([]*desk.Card{card}, a.reached(ctx), in.paper(), say)
	if err != nil {
		return nil, err
	}
	return a.pdf(card.Shop, say, "card-"+in.Name, pages[0].Title, pages, in.IfNoneMatch)
}

func (a *API) planCards(ctx context.Context, in *planCardsIn) (*fileOut, error) {
	d, err := a.desk.Draft(ctx, in.ID)
	if err != nil {
		return nil, err
	}
	cards, err := a.desk.Cards(ctx, d.Plan)
	if err != nil {
		return nil, err
	}
	if len(cards) == 0 {
		return nil, fault.Fault{Kind: fault.No, Code: "no-pages", Wrong: "no job found a place, so there is no card", Right: "the plan tells why"}
	}
	say := a.speaker(ctx, in.Reader)
	pages, err := press.Cards(cards, a.reached(ctx), in.paper(), say)
	if err != nil {
		return nil, err
	}
	name := "cards-" + cards[0].Task.MakereadyStart.Format(time.DateOnly)
	return a.pdf(cards[0].Shop, say, name, say.Say("Set-up cards: %s", cards[0].Shop.Name), pages, in.IfNoneMatch)
}
