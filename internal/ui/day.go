package ui

import (
	"cmp"
	"math"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/plan"
	"foldwright/internal/words"
)

func (p *pages) dayRoutes() []route {
	return slices.Concat([]route{
		{pattern: "GET /day", serve: p.day, deed: access.See, call: "get-plan"},
		{pattern: "GET /day/drafts/{draft}", serve: p.day, deed: access.See, call: "get-plan"},
		{pattern: "GET /day/drafts/{draft}/jobs/{job}", serve: p.dayJob, deed: access.See, call: "get-plan"},
		{pattern: "GET /day/drafts/{draft}/jobs/{job}/rescues", serve: p.dayRescues, deed: access.See, call: "rescue-job"},
		{pattern: "GET /day/drafts/{draft}/bound", serve: p.dayBound, deed: access.See, call: "plan-bound"},
		{pattern: "GET /day/drafts/{draft}/accept", serve: p.dayAgain, deed: access.See, call: "get-plan"},
		{pattern: "POST /day/drafts/{draft}/move", serve: p.dayMove, deed: access.Arrange, call: "move-in-plan"},
		{pattern: "POST /day/drafts/{draft}/accept", serve: p.dayAccept, deed: access.Arrange, call: "accept-plan"},
		{pattern: "GET /day/drafts", serve: p.dayDrafts, deed: access.See, call: "list-plans"},
	}, p.dayFloorRoutes(), p.daySearchRoutes(), p.dayPrintRoutes())
}

// dayBody is what the page of a day shows.
type dayBody struct {
	Draft    *desk.Draft
	Board    *dayBoard
	Figures  dayFigures
	Said     *words.Text // what the last move did
	Moves    []plan.Move // the one that gains most first
	Searches *searchList
	Nears    []near // until when the near future can be kept
	Undo     string // where the draft before is
	Redo     string // where the draft is that was undone last
	Filter   dayFilter
	Stale    *staleness // somebody changed the shop since the reader looked
}

// Given says whether this is the order given.
func (b *dayBody) Given() bool { return b.Draft.ID == desk.GivenDraft }

// LostSaid names what the draft has and the shop has not.
func (b *dayBody) LostSaid() string { return strings.Join(b.Draft.Lost, ", ") }

// Path is where this draft is shown.
func (b *dayBody) Path() string { return draftPath(b.Draft.ID) }

// Base is what the addresses of this draft begin with.
func (b *dayBody) Base() string { return "/day/drafts/" + url.PathEscape(b.Draft.ID) }

// Empty says whether there is nothing to plan.
func (b *dayBody) Empty() bool {
	return len(b.Draft.Plan.Unplaced) == 0 && !slices.ContainsFunc(b.Board.Lanes, func(l dayLane) bool { return len(l.Tasks) > 0 })
}

// draftPath is where a draft is shown; the order given where the day is.
func draftPath(id string) string {
	if id == desk.GivenDraft || id == "" {
		return "/day"
	}
	return "/day/drafts/" + url.PathEscape(id)
}

// draftID is the draft that a request is about.
func draftID(r *http.Request) string { return cmp.Or(r.PathValue("draft"), desk.GivenDraft) }

// day shows a draft, or the order given.
func (p *pages) day(w http.ResponseWriter, r *http.Request) error {
	b, err := p.dayBody(r, draftID(r))
	if err != nil {
		return err
	}
	if partial(r) && r.Header.Get("HX-History-Restore-Request") == "" { // a step back or forth, in place
		return p.part(w, r, "day", "day-live", b)
	}
	return p.showDay(w, r, b, http.StatusOK)
}

func (p *pages) showDay(w http.ResponseWriter, r *http.Request, b *dayBody, status int) error {
	title := words.T("Day")
	if !b.Given() {
		title = words.T("Draft of the day")
	}
	return p.show(w, r, page{name: "day", title: title, body: b, status: status})
}

// dayBody works out everything that the page of a draft shows.
func (p *pages) dayBody(r *http.Request, id string) (*dayBody, error) {
	d, err := p.desk.Draft(r.Context(), id)
	if err != nil {
		return nil, err
	}
	return p.dayOf(r, d)
}

func (p *pages) dayOf(r *http.Request, d *desk.Draft) (*dayBody, error) {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return nil, err
	}
	b := &dayBody{Draft: d, Filter: dayFilter{r.FormValue("find"), r.FormValue("late") != ""}, Moves: byGain(d.Plan.Moves)}
	b.Board = newDayBoard(s, d, b.Filter, p.clock(s))
	var before *plan.Plan
	if !b.Given() && d.Parent != "" {
		if parent, err := p.desk.Draft(r.Context(), d.Parent); err == nil { // an old one may not go with the shop any more
			before = parent.Plan
		}
	}
	b.Figures = figuresOf(d.Plan, before, b.Given())
	if d.How == "move" {
		was := &d.Plan.Given
		if before != nil {
			was = &before.Day
		}
		said := stepSaid(was, &d.Plan.Day)
		b.Said = &said
	}
	b.steps(r)
	b.Nears = nears(p.clock(s))
	b.Searches, err = p.searchViews(r, d.ID)
	return b, err
}

// byGain lists the moves, the one that gains most first.
func byGain(moves []plan.Move) []plan.Move {
	moves = slices.Clone(moves)
	slices.SortStableFunc(moves, func(a, b plan.Move) int { return cmp.Compare(b.Pays, a.Pays) })
	return moves
}

// draftName is what an id looks like.
var draftName = regexp.MustCompile(`^[a-z0-9]{1,40}$`)

// undoneMost is how many steps can be done again.
const undoneMost = 20

// steps sets where undo and redo lead. A move or a search made a new draft, so the way back is the draft it was made from;
// what was undone travels in the address.
func (b *dayBody) steps(r *http.Request) {
	var undone []string
	for _, id := range strings.Split(r.URL.Query().Get("undone"), ",") {
		if draftName.MatchString(id) && len(undone) < undoneMost {
			undone = append(undone, id)
		}
	}
	with := func(path string, undone []string) string {
		if len(undone) == 0 {
			return path
		}
		return path + "?" + url.Values{"undone": {strings.Join(undone, ",")}}.Encode()
	}
	if !b.Given() {
		b.Undo = with(draftPath(b.Draft.Parent), append([]string{b.Draft.ID}, undone...))
	}
	if len(undone) > 0 {
		b.Redo = with(draftPath(undone[0]), undone[1:])
	}
}

// dayJobBody is what is told of one job of a draft.
type dayJobBody struct {
	*dayBody
	Task     *dayTask // nil when it found no place
	Job      string
	Title    string
	Whys     []plan.Why // why it found no place
	Spots    []spotGroup
	Earlier  string // the spot before, empty when there is none
	Later    string
	HoldAt   int // the place at which it can be held; 0 = at none
	Stations []words.Text
	JobPage  string
	Chance   *words.Text // on how many days of 100 the job is on time; nil when it has no due time
	Here     bool        // in a dialog on the page of the day
}

// dayJob tells everything of a job in its place.
func (p *pages) dayJob(w http.ResponseWriter, r *http.Request) error {
	b, err := p.dayJobBody(r)
	if err != nil {
		return err
	}
	if partial(r) {
		b.Here = true
		return p.part(w, r, "day_job", "day-job-dialog", b)
	}
	return p.show(w, r, page{name: "day_job", title: words.T("Job %s", b.Job), body: b})
}

func (p *pages) dayJobBody(r *http.Request) (*dayJobBody, error) {
	day, err := p.dayBody(r, draftID(r))
	if err != nil {
		return nil, err
	}
	b := &dayJobBody{dayBody: day, Job: r.PathValue("job")}
	b.find()
	if b.Task == nil && len(b.Whys) == 0 {
		return nil, fault.Fault{Kind: fault.Missing, Code: CodePage, Field: "job " + b.Job, Wrong: "the draft does not have it", Right: "go back to the day; it may be done by now"}
	}
	b.spots()
	if b.Task != nil {
		for _, st := range b.Task.Stations {
			b.Stations = append(b.Stations, stationWords(st))
		}
		b.HoldAt = b.holdAt()
		if err := p.chanceOf(r, b); err != nil {
			return nil, err
		}
	}
	if p.has("GET /jobs/{job}") {
		b.JobPage = "/jobs/" + url.PathEscape(b.Job)
	}
	return b, nil
}

// chanceOf fills in how likely the job is on time.
func (p *pages) chanceOf(r *http.Request, b *dayJobBody) error {
	if b.Task.Due.IsZero() {
		return nil
	}
	all, err := p.desk.Chances(r.Context(), b.Draft.ID)
	if err != nil || all == nil {
		return err
	}
	for _, c := range all.Jobs {
		if c.Job == b.Job {
			said := words.T("on time on %d days of 100, when minutes scatter as usual", int(math.Round(100*c.OnTime)))
			b.Chance = &said
		}
	}
	return nil
}

// find finds the job among the tasks, else among those without a place.
func (b *dayJobBody) find() {
	for i := range b.Board.Lanes {
		for k := range b.Board.Lanes[i].Tasks {
			if t := &b.Board.Lanes[i].Tasks[k]; t.Job == b.Job {
				b.Task, b.Title = t, t.Title
			}
		}
	}
	for _, u := range b.Draft.Plan.Unplaced {
		if u.Job == b.Job {
			b.Whys = u.Whys
		}
	}
}

// holdAt is the place of its folder at which the job can be held: all in front of it are held there already.
func (b *dayJobBody) holdAt() int {
	held := 0
	for _, l := range b.Board.Lanes {
		for _, t := range l.Tasks {
			if l.Name == b.Task.Folder && t.Job != b.Job && (t.Pin.Position > 0 || t.Pin.Started) {
				held++
			}
		}
	}
	if b.Task.Place <= held+1 && b.Task.Pin.Position == 0 {
		return b.Task.Place
	}
	return 0
}

// near is a time until which the near future can be kept.
type near struct {
	Name words.Text
	Long time.Duration
}

// Minutes is how the form sends it.
func (n near) Minutes() int { return int(n.Long / time.Minute) }

func nears(now time.Time) []near {
	rest := time.Date(now.Year(), now.Month(), now.Day()+1, 0, 0, 0, 0, now.Location()).Sub(now)
	return []near{{words.T("the next hour"), time.Hour}, {words.T("the next 4 hours"), 4 * time.Hour}, {words.T("all of today"), rest}}
}

// dayRescuesBody is what would bring a late job in on time.
type dayRescuesBody struct {
	Back    string
	Rescues []plan.Rescue
}

// dayRescues works out what would bring a late job in on time; that takes a moment, so it is asked for job by job.
func (p *pages) dayRescues(w http.ResponseWriter, r *http.Request) error {
	found, err := p.desk.Rescues(r.Context(), draftID(r), r.PathValue("job"))
	if err != nil {
		return err
	}
	body := dayRescuesBody{draftPath(draftID(r)), found}
	if partial(r) {
		return p.part(w, r, "day_rescues", "day-rescues", body)
	}
	return p.show(w, r, page{name: "day_rescues", title: words.T("What would bring job %s in on time", r.PathValue("job")), body: body})
}
