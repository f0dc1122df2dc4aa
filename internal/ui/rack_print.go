package ui

import (
	"net/http"
	"strconv"
	"strings"

	"foldwright/internal/access"
	"foldwright/internal/draw"
	"foldwright/internal/fault"
	"foldwright/internal/press"
	"foldwright/internal/words"
)

func (p *pages) rackPrintRoutes() []route {
	return []route{
		{pattern: "GET /rack/labels.pdf", serve: p.rackLabels, deed: access.See, call: "labels"},
		{pattern: "GET /rack/{set}/bench.pdf", serve: p.setBench, deed: access.See, call: "set-bench-card"},
	}
}

// rackLabels prints the labels of the sets that are ticked, or of all.
func (p *pages) rackLabels(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return fault.Fault{Kind: fault.Input, Code: CodeForm, Wrong: "this is no form", Right: "use the form of the rack"}
	}
	stock, err := draw.StockNamed(r.FormValue("stock"))
	if err != nil {
		return err
	}
	skip, err := strconv.Atoi(strings.TrimSpace("0" + r.FormValue("skip")))
	if err != nil || skip > 1000 {
		return fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "skip", Wrong: "this is no number of labels", Right: "how many places of the first sheet are used already, 0 to 1000"}
	}
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	sets, err := p.desk.Labels(r.Context(), r.Form["set"])
	if err != nil {
		return err
	}
	if len(sets) == 0 {
		return fault.Fault{Kind: fault.Missing, Code: CodePage, Wrong: "there is no set yet", Right: "add one, then print its label"}
	}
	say := p.gate.Speaker(r)
	sheets, err := press.Labels(s, sets, press.Address(p.gate.Reached(r)), stock, skip, say)
	if err != nil {
		return err
	}
	return sendPDF(w, "labels", words.T("Labels: %s", s.Name), p.clock(s), say, sheets)
}

// setBench prints what the bench does to make a set into what a job wants.
func (p *pages) setBench(w http.ResponseWriter, r *http.Request) error {
	b, err := p.desk.Build(r.Context(), r.PathValue("set"), r.FormValue("job"), r.FormValue("folder"), r.FormValue("station"))
	if err != nil {
		return err
	}
	return p.sendBench(w, r, b)
}
