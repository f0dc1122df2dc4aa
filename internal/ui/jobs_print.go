package ui

import (
	"net/http"
	"net/url"

	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/words"
)

// paperAsked is the paper that a print is laid out for.
func paperAsked(r *http.Request) draw.Paper {
	if r.FormValue("paper") == "Letter" {
		return draw.Letter
	}
	return draw.A4
}

// jobCard prints the set-up card of a job on a folder, the best one when none is named, as if it came next.
func (p *pages) jobCard(w http.ResponseWriter, r *http.Request) error {
	of, err := p.desk.Card(r.Context(), r.PathValue("job"), r.FormValue("folder"))
	if err != nil {
		return err
	}
	say := p.gate.Speaker(r)
	sheets, err := setUpCard(r, of).Pages(paperAsked(r), say)
	if err != nil {
		return err
	}
	return sendPDF(w, "card", words.T("Set-up card: job %s on %s", of.Job.Name, of.Folder.Name), p.clock(of.Shop), say, sheets)
}

// setUpCard is a card as it is drawn; its code leads to the page of the floor.
func setUpCard(r *http.Request, of *desk.Card) *draw.Card {
	return &draw.Card{
		Shop: of.Shop, Job: of.Job, Folded: of.Folded, Folder: of.Folder, Task: of.Task, Planned: of.Planned, Places: of.Places,
		Address: originOf(r) + "/floor/jobs/" + url.PathEscape(of.Job.Name),
	}
}

// jobBench prints how the bench makes of a set what the job wants.
func (p *pages) jobBench(w http.ResponseWriter, r *http.Request) error {
	b, err := p.desk.Build(r.Context(), r.FormValue("set"), r.PathValue("job"), r.FormValue("folder"), r.FormValue("station"))
	if err != nil {
		return err
	}
	say := p.gate.Speaker(r)
	card := &draw.BenchCard{
		Shop: b.Shop, Set: b.Set, Place: b.Place, Job: b.Job, Folder: b.Folder, Station: b.Station, By: b.By, Frees: b.Frees, Work: b.Work,
		Have: b.Have, Want: b.Want, Steps: b.Steps, Address: originOf(r) + "/rack/" + url.PathEscape(b.Set.Label),
	}
	sheets, err := card.Pages(paperAsked(r), say)
	if err != nil {
		return err
	}
	return sendPDF(w, "bench", words.T("Bench card: set %s", b.Set.Label), p.clock(b.Shop), say, sheets)
}
