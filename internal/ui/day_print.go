package ui

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/fault"
	"foldwright/internal/press"
	"foldwright/internal/words"
)

func (p *pages) dayPrintRoutes() []route {
	return []route{
		{pattern: "GET /day/drafts/{draft}/cards.pdf", serve: p.dayCards, deed: access.See, call: "plan-cards"},
		{pattern: "GET /day/drafts/{draft}/day.pdf", serve: p.dayPDF, deed: access.See, call: "plan-day-drawing"},
		{pattern: "GET /day/drafts/{draft}/picture", serve: p.dayPicture, deed: access.See, call: "plan-day-drawing"},
	}
}

// dayCards prints the set-up cards of a draft, or of one job of it.
func (p *pages) dayCards(w http.ResponseWriter, r *http.Request) error {
	d, err := p.desk.Draft(r.Context(), draftID(r))
	if err != nil {
		return err
	}
	cards, err := p.desk.Cards(r.Context(), d.Plan)
	if err != nil {
		return err
	}
	if name := r.FormValue("job"); name != "" {
		cards = slices.DeleteFunc(cards, func(c *desk.Card) bool { return c.Job.Name != name })
	}
	if len(cards) == 0 {
		return fault.Fault{Kind: fault.Missing, Code: CodePage, Wrong: "there is no card to print", Right: "a job with a place in the order"}
	}
	say, paper := p.gate.Speaker(r), draw.A4
	if r.FormValue("paper") == "Letter" {
		paper = draw.Letter
	}
	all, err := press.Cards(cards, press.Address(p.gate.Reached(r)), paper, say)
	if err != nil {
		return err
	}
	return sendPDF(w, "cards", words.T("Set-up cards: %s", d.Plan.Shop), d.Plan.From, say, all)
}

// dayPDF prints the picture of the days, one page a day.
func (p *pages) dayPDF(w http.ResponseWriter, r *http.Request) error {
	d, pictures, err := p.dayPictures(r)
	if err != nil {
		return err
	}
	return sendPDF(w, "day", words.T("Plan for %s", d.Plan.From.Format(time.DateOnly)), d.Plan.From, p.gate.Speaker(r), pictures)
}

// dayPicture shows the same picture, to be hung up or read from afar.
func (p *pages) dayPicture(w http.ResponseWriter, r *http.Request) error {
	d, pictures, err := p.dayPictures(r)
	if err != nil {
		return err
	}
	body := struct {
		Back, PDF string
		Pictures  []*draw.Picture
	}{draftPath(d.ID), "/day/drafts/" + url.PathEscape(d.ID) + "/day.pdf", pictures}
	return p.show(w, r, page{name: "day_picture", title: words.T("Picture of the day"), body: body})
}

func (p *pages) dayPictures(r *http.Request) (*desk.Draft, []*draw.Picture, error) {
	d, err := p.desk.Draft(r.Context(), draftID(r))
	if err != nil {
		return nil, nil, err
	}
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return nil, nil, err
	}
	return d, draw.Timeline(d.Plan, s, p.gate.Speaker(r)), nil
}

// sendPDF sends pages to be printed; they open in the browser.
func sendPDF(w http.ResponseWriter, name string, title words.Text, made time.Time, say *words.Speaker, pictures []*draw.Picture) error {
	data, err := draw.PDF(draw.Document{Title: say.Text(title), Lang: string(say.Lang), Created: made}, pictures)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/pdf")
	w.Header().Set("Content-Disposition", `inline; filename="`+name+"-"+made.Format(time.DateOnly)+`.pdf"`)
	w.Header().Set("Content-Length", strconv.Itoa(len(data)))
	_, _ = w.Write(data) // whoever has left does not read it
	return nil
}
