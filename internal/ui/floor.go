package ui

import (
	"fmt"
	"net/http"
	"slices"

	"foldwright/internal/access"
	"foldwright/internal/changeover"
	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/plan"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// The page that the code on a set-up card opens, at the folder: what to set in the order of the hands, and a record of how it
// went, told by large buttons.
func (p *pages) floorRoutes() []route {
	return []route{
		{pattern: "GET /floor/jobs/{job}", serve: p.floorJob, deed: access.See, call: "job-card"},
		{pattern: "POST /floor/jobs/{job}/begin", serve: p.floorBegin, deed: access.Record, call: "add-record"},
		{pattern: "POST /floor/jobs/{job}/good", serve: p.floorGood, deed: access.Record, call: "put-record"},
		{pattern: "POST /floor/jobs/{job}/end", serve: p.floorEnd, deed: access.Record, call: "put-record"},
		{pattern: "POST /floor/jobs/{job}/note", serve: p.floorNote, deed: access.Record, call: "put-record"},
	}
}

// floorBody is what the page of a job at its folder shows.
type floorBody struct {
	docketView
	Folder   string
	Page     string
	Task     plan.Task
	Planned  bool
	Started  bool
	Done     bool
	Set      *setView
	Feed     *draw.Picture
	Cautions []words.Text
	Record   *recordRow // that is not ended; nil when there is none
	Earlier  []recordRow
	AsRun    []asRunInput
	Step     string     // of the buttons beside the places
	Next     string     // the job after this one on its folder
	Stale    fault.List // somebody else told first
	Refused  fault.List // what the shop did not take, though the record is kept
	Wrong    fault.List // in what was typed
}

// asRunInput is a place with where it is to stand and where it stood.
type asRunInput struct {
	ID       string
	Name     words.Text
	Set, Was string // bare, in the reader's unit
}

func (p *pages) floorJob(w http.ResponseWriter, r *http.Request) error {
	b, err := p.floorBody(r)
	if err != nil {
		return err
	}
	return p.showFloor(w, r, b, http.StatusOK)
}

func (p *pages) showFloor(w http.ResponseWriter, r *http.Request, b *floorBody, status int) error {
	return p.show(w, r, page{name: "floor", title: words.T("%s on %s", b.Name, b.Folder), body: b, status: status, shop: true})
}

func (p *pages) floorBody(r *http.Request) (*floorBody, error) {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return nil, err
	}
	given, err := p.desk.Draft(r.Context(), desk.GivenDraft)
	if err != nil {
		return nil, err
	}
	name := r.PathValue("job")
	records, err := p.recordsOf(r, s, ledger.RecordQuery{Job: name, Most: 20})
	if err != nil {
		return nil, err
	}
	folder := r.FormValue("folder")
	open := slices.IndexFunc(records, func(x recordRow) bool { return x.Record.End.IsZero() })
	if folder == "" && open >= 0 {
		folder = records[open].Folder
	}
	card, err := p.floorCard(r, given.Plan, name, folder)
	if err != nil {
		return nil, err
	}
	b := p.viewFloor(r, s, card)
	b.Next = nextOn(given.Plan, b.Folder, name)
	for i := range records {
		if i == open {
			b.Record = &records[i]
		} else {
			b.Earlier = append(b.Earlier, records[i])
		}
	}
	b.AsRun = b.asRunInputs(p.gate.Speaker(r))
	return b, nil
}

// floorCard is how the job is set up: as the order given has it, else as if it came next.
func (p *pages) floorCard(r *http.Request, given *plan.Plan, name, folder string) (*desk.Card, error) {
	cards, err := p.desk.Cards(r.Context(), given)
	if err != nil {
		return nil, err
	}
	i := slices.IndexFunc(cards, func(c *desk.Card) bool {
		return c.Job.Name == name && (folder == "" || c.Folder.Name == folder)
	})
	if i >= 0 {
		return cards[i], nil
	}
	return p.desk.Card(r.Context(), name, folder)
}

// viewFloor lays a card out for the floor.
func (p *pages) viewFloor(r *http.Request, s *shop.Shop, card *desk.Card) *floorBody {
	b := &floorBody{
		docketView: viewDocket(s, card.Job, card.Folded), Folder: card.Folder.Name, Page: "/floor" + jobPath(card.Job.Name),
		Task: card.Task, Planned: card.Planned, Cautions: cautionTexts(), Started: card.Job.Pin.Started, Step: "0.1",
	}
	say := p.gate.Speaker(r)
	if say.Inch {
		b.Step = "0.005"
	}
	b.Done = !slices.Contains(waitingNames(s), card.Job.Name)
	b.Feed = (&draw.Card{Shop: s, Job: card.Job, Folded: card.Folded, Folder: card.Folder, Task: card.Task}).FeedPicture(say)
	b.Set = viewSettings(s, card.Task.Settings, card.Task.Before, say, func(name string) (words.Text, bool) { return handsAt(card, name) })
	return b
}

// handsAt is what the operator does at a station, and whether all stays there.
func handsAt(c *desk.Card, station string) (words.Text, bool) {
	i := slices.IndexFunc(c.Task.Stations, func(s plan.Station) bool { return s.Station == station })
	if i < 0 {
		return words.T("leave it as it is"), true
	}
	at := c.Places[i]
	switch s := c.Task.Stations[i]; s.Mode {
	case changeover.Shift:
		return words.T("%s stays, move the guide", s.Set), true
	case changeover.Swap, changeover.Plain:
		return fetchText(s.Set, at), false
	case changeover.Built:
		return words.T("fetch %s from the bench, built for this job", s.Set), false
	case changeover.InFolder:
		if at == (tooling.Place{}) {
			return words.T("strip and fit at the folder, on %s", s.Set), false
		}
		return words.T("%s; then strip and fit it at the folder", fetchText(s.Set, at)), false
	default:
		if s.Set == "" {
			return words.T("leave it as it is"), true
		}
		return words.T("%s stays", s.Set), true
	}
}

// fetchText says where a set is. One that was on another station before may lie anywhere by now.
func fetchText(set string, at tooling.Place) words.Text {
	if at.Folder != "" {
		return words.T("fetch %s, last on %s", set, placeText(at))
	}
	return words.T("fetch %s from %s", set, placeText(at))
}

// nextOn is the job that the order given has after this one on its folder.
func nextOn(given *plan.Plan, folder, name string) string {
	for _, lane := range given.Folders {
		if lane.Name != folder {
			continue
		}
		i := slices.IndexFunc(lane.Tasks, func(t plan.Task) bool { return t.Job == name })
		if i+1 < len(lane.Tasks) {
			return lane.Tasks[i+1].Job // the first one when this is not among them any more
		}
	}
	return ""
}

// Fetches are the stations at which something is fetched, fitted or stripped.
func (b *floorBody) Fetches() (list []setStation) {
	for _, u := range b.Set.Units {
		for _, st := range u.Stations {
			if !st.Stays {
				list = append(list, st)
			}
		}
	}
	return list
}

// NextPage is the page of the next job.
func (b *floorBody) NextPage() string { return "/floor" + jobPath(b.Next) }

// placeView is a place that the record can tell of.
type placeView struct {
	ledger.AsRun
	Name words.Text
	Stop bool // of a plate, a knife or a guide; else of a tool
}

// places are what is set, as records name it: stops and guides, then tools.
func (b *floorBody) places() (stops []placeView) {
	var tools []placeView
	for i := range b.Set.Settings.Units {
		u := &b.Set.Settings.Units[i]
		if !u.Engaged && !u.Passes {
			continue
		}
		stops = append(stops, unitStops(u)...)
		for _, st := range u.Stations {
			for _, t := range st.Tools {
				tools = append(tools, placeView{ledger.AsRun{Where: st.Name + " " + t.Type.String(), Set: t.At, Was: t.At}, words.T("%s %s", st.Name, t.Type), false})
			}
		}
	}
	return append(stops, tools...)
}

func unitStops(u *settings.Unit) (list []placeView) {
	add := func(where string, name words.Text, at units.Length) {
		where = fmt.Sprintf("unit %d %s", u.Number, where)
		list = append(list, placeView{ledger.AsRun{Where: where, Set: at, Was: at}, words.T("unit %d: %s", u.Number, name), true})
	}
	add("side guide", words.T("side guide"), u.Guide.At)
	for _, pl := range u.Plates {
		if !pl.Closed {
			add(fmt.Sprintf("plate %d", pl.Number), words.T("plate %d", pl.Number), pl.Stop)
		}
	}
	if u.Knife != nil && u.Engaged {
		add("knife", words.T("knife stop"), u.Knife.Stop)
	}
	return list
}

// asRunInputs are the places with what the record has of them.
func (b *floorBody) asRunInputs(say *words.Speaker) (list []asRunInput) {
	var told []ledger.AsRun
	if b.Record != nil {
		told = slices.Concat(b.Record.Plates, b.Record.Tools)
	}
	for i, at := range b.places() {
		in := asRunInput{ID: fmt.Sprintf("was-%d", i), Name: at.Name, Set: say.Bare(at.Set), Was: say.Bare(at.Set)}
		for _, x := range told {
			if x.Where == at.Where && x.Set == at.Set {
				in.Was = say.Bare(x.Was)
			}
		}
		list = append(list, in)
	}
	return list
}
