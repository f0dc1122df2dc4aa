package ui

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/press"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/words"
)

func (p *pages) rackRoutes() []route {
	return slices.Concat(
		[]route{
			{pattern: "GET /rack", serve: p.rack, deed: access.See, call: "rack"},
			{pattern: "GET /rack/{set}", serve: p.rackSet, deed: access.See, call: "get-sets"},
		},
		p.rackWorkRoutes(),
		p.rackPrintRoutes(),
	)
}

// rackBody is the list of the sets.
type rackBody struct {
	Sets    []*rackItem
	All     int    // that there are
	Found   int    // that are as was asked for; Sets may be only the first of them
	Text    string // that was searched for
	Class   string
	Place   string // "", "rack", "folder" or "bench"
	Job     string // whose sets are wanted
	Waiting []string
	Classes []string
	Serving []folderServing // for the job
	Loose   []shop.ToolStock
	Stocks  []string // what labels can be printed on
}

// rackItem is a set with what is known of it.
type rackItem struct {
	*tooling.Set
	Jobs    []string // it serves: those waiting first
	Page    string
	Picture *draw.Picture
}

// rackMost is how many sets a list shows: beyond that one looks for fewer.
const rackMost = 200

// Where is the place of a set in words.
func (v *rackItem) Where() words.Text { return placeWords(v.Place) }

func placeWords(at tooling.Place) words.Text {
	switch {
	case at.Folder != "":
		return words.T("%s, station %s", at.Folder, at.Station)
	case at.Slot != "":
		return words.T("slot %s", at.Slot)
	}
	return words.T("on the bench")
}

func (p *pages) rack(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	all, err := p.desk.Labels(r.Context(), nil)
	if err != nil {
		return err
	}
	b := rackBody{Text: strings.TrimSpace(r.FormValue("q")), Class: r.FormValue("class"), Place: r.FormValue("place"), Job: strings.TrimSpace(r.FormValue("job")), All: len(all), Loose: s.Tools, Stocks: draw.StockNames(), Waiting: s.JobNames()}
	for _, c := range s.Classes {
		b.Classes = append(b.Classes, c.Name)
	}
	for _, one := range all {
		v := rackItemOf(one)
		if !b.wants(v) {
			continue
		}
		if b.Found++; b.Found <= rackMost {
			v.Picture = press.Glance(s, v.Set)
			b.Sets = append(b.Sets, v)
		}
	}
	if b.Job != "" {
		if b.Serving, err = p.servingJob(r, b.Job); err != nil {
			return err
		}
	}
	if partial(r) {
		return p.part(w, r, "rack", "rack-sets", b)
	}
	return p.show(w, r, page{name: "rack", title: words.T("Rack"), body: b})
}

func rackItemOf(one desk.Labelled) *rackItem {
	return &rackItem{Set: one.Set, Jobs: one.Jobs, Page: rackPath(one.Set.Label)}
}

func rackPath(label string) string { return "/rack/" + url.PathEscape(label) }

// wants says whether a set is among those that were asked for. The text is looked for in label, tools, place and jobs.
func (b *rackBody) wants(v *rackItem) bool {
	at := "bench"
	switch {
	case v.Place.Folder != "":
		at = "folder"
	case v.Place.Slot != "":
		at = "rack"
	}
	if b.Class != "" && b.Class != v.Class || b.Place != "" && b.Place != at {
		return false
	}
	text := []string{v.Label, v.Place.Slot, v.Place.Folder, strings.Join(v.Jobs, " ")}
	for _, t := range v.Tools {
		text = append(text, t.Type.String())
	}
	return strings.Contains(strings.ToLower(strings.Join(text, " ")), strings.ToLower(b.Text))
}

// folderServing is what a folder would take from the rack for a job.
type folderServing struct {
	Folder   string
	Miss     *words.Text // why it cannot run the job
	Stations []desk.Station
}

// servingJob says for every folder which sets serve a job, best folder first.
func (p *pages) servingJob(r *http.Request, job string) ([]folderServing, error) {
	answers, err := p.desk.Settings(r.Context(), job, "")
	if answers == nil {
		return nil, err // there is no such job; that no folder can run it stands with the answers
	}
	list := make([]folderServing, len(answers))
	for i, a := range answers {
		list[i] = folderServing{Folder: a.Folder.Name, Stations: a.Stations}
		if a.Miss != nil {
			why := a.Miss.Why()
			list[i].Miss = &why
		}
	}
	return list, nil
}

// setBody is one set with everything that can be done with it.
type setBody struct {
	*rackItem
	Picture  *draw.Picture
	Version  int64
	Class    *tooling.Class
	Stations []stationChoice // where it could be mounted
	Slots    []string        // where sets stand, to write the next one alike
	Waiting  []string        // jobs
	For      string          // the job that it is to be made for
	Build    *desk.Build     // how
	Steps    []string
	Cautions []words.Text
	Stocks   []string
	Edit     string
	Back     string
}

// stationChoice is a station that takes the set.
type stationChoice struct {
	Folder, Station string
	Stands          string // the set that stands there
}

// rackSet is the page of a set; the QR code of its label opens it, so it is made for the bench.
func (p *pages) rackSet(w http.ResponseWriter, r *http.Request) error {
	label := r.PathValue("set")
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	found, err := p.desk.Labels(r.Context(), []string{label})
	if err != nil {
		return err
	}
	set := found[0].Set
	b := setBody{rackItem: rackItemOf(found[0]), Picture: press.Set(s, set, p.gate.Speaker(r)), Stocks: draw.StockNames()}
	b.rackItem.Class = set.Class
	b.Class, _ = s.Class(set.Class)
	b.Stations = stationsFor(s, set)
	b.Slots, b.Waiting = slotsOf(s), s.JobNames()
	b.Edit = "/edit/set?name=" + url.QueryEscape(label) + "&back=" + url.QueryEscape(rackPath(label))
	b.Back = rackPath(label)
	for _, text := range settings.BenchCautions() {
		b.Cautions = append(b.Cautions, words.T(text))
	}
	if b.For = strings.TrimSpace(r.FormValue("job")); b.For != "" {
		if b.Build, err = p.desk.Build(r.Context(), label, b.For, "", ""); err != nil {
			return err
		}
		for _, step := range b.Build.Steps {
			b.Steps = append(b.Steps, draw.StepWords(step, p.gate.Speaker(r)))
		}
	}
	return p.show(w, r, page{name: "rack_set", title: words.Plain(label), body: &b, shop: true})
}

// stationsFor lists the stations that take sets of this class.
func stationsFor(s *shop.Shop, set *tooling.Set) []stationChoice {
	var list []stationChoice
	for i := range s.Folders {
		f := &s.Folders[i]
		for _, name := range f.StationsOf(set.Class) {
			c := stationChoice{Folder: f.Name, Station: name}
			if at, ok := s.Mounted(f.Name, name); ok {
				c.Stands = at.Label
			}
			if c.Stands != set.Label {
				list = append(list, c)
			}
		}
	}
	return list
}

func slotsOf(s *shop.Shop) []string {
	var slots []string
	for i := range s.Sets {
		if slot := s.Sets[i].Place.Slot; slot != "" {
			slots = append(slots, slot)
		}
	}
	return slots
}
