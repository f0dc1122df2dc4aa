package ui

import (
	"net/http"

	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/press"
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
	sheets, err := press.Cards([]*desk.Card{of}, press.Address(p.gate.Reached(r)), paperAsked(r), say)
	if err != nil {
		return err
	}
	return sendPDF(w, "card", words.T("Set-up card: job %s on %s", of.Job.Name, of.Folder.Name), p.clock(of.Shop), say, sheets)
}

// jobBench prints how the bench makes of a set what the job wants.
func (p *pages) jobBench(w http.ResponseWriter, r *http.Request) error {
	b, err := p.desk.Build(r.Context(), r.FormValue("set"), r.PathValue("job"), r.FormValue("folder"), r.FormValue("station"))
	if err != nil {
		return err
	}
	return p.sendBench(w, r, b)
}

// sendBench sends a bench card.
func (p *pages) sendBench(w http.ResponseWriter, r *http.Request, b *desk.Build) error {
	say := p.gate.Speaker(r)
	sheets, err := press.BenchCards([]*desk.Build{b}, press.Address(p.gate.Reached(r)), paperAsked(r), say)
	if err != nil {
		return err
	}
	return sendPDF(w, "bench", words.T("Bench card: set %s", b.Set.Label), p.clock(b.Shop), say, sheets)
}
