package ui

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/plan"
	"foldwright/internal/words"
)

func (p *pages) daySearchRoutes() []route {
	return []route{
		{pattern: "POST /day/drafts/{draft}/search", serve: p.daySearch, deed: access.Arrange, call: "begin-search"},
		{pattern: "GET /day/searches", serve: p.daySearches, deed: access.See, call: "list-searches"},
		{pattern: "GET /day/searches/{search}", serve: p.daySearchPage, deed: access.See, call: "get-search"},
		{pattern: "GET /day/searches/{search}/events", serve: p.daySearchEvents, deed: access.See, call: "search-events"},
		{pattern: "POST /day/searches/{search}/cancel", serve: p.dayCancelSearch, deed: access.Arrange, call: "cancel-search"},
	}
}

// searchView is a search as the page tells of it.
type searchView struct {
	ID, Who  string
	From     string // the draft it began with
	Began    time.Time
	Wanted   time.Duration
	At       desk.SearchState
	Percent  int
	Better   time.Duration // than the order given, in the cost
	Failed   fault.List
	Mine     bool
	On       string // the draft that the reader looks at
	Follow   bool   // its finder is led to what was found
	MayPlan  bool
	Keeps    bool // the near future
	Unplaced bool
}

// DraftPath is where what was found is shown.
func (v searchView) DraftPath() string { return draftPath(v.At.Draft) }

// Events is where its progress comes from.
func (v searchView) Events() string {
	at := "/day/searches/" + v.ID + "/events?on=" + url.QueryEscape(v.On)
	if v.Follow {
		at += "&follow=1"
	}
	return at
}

// viewSearch tells how far a search is, to somebody who looks at a draft.
func viewSearch(r *http.Request, s *desk.Searching, on string) searchView {
	who := access.From(r.Context())
	at, _ := s.State()
	v := searchView{
		ID: s.ID, Who: s.Who, From: s.Ask.From, Began: s.Began, Wanted: s.Ask.Time, At: at, Percent: int(100 * at.Share), Mine: s.Who == who.String(),
		On: on, MayPlan: who.Role.Allows(access.Arrange), Keeps: s.Ask.Options.Stable.Price > 0,
	}
	if at.Known {
		v.Better = at.Given.Cost - at.Best.Cost
	}
	if at.Err != nil {
		v.Failed = fault.All(at.Err)
	}
	v.Follow = v.Mine && !at.Done && v.From == on // whoever has moved a job meanwhile is not led away from it
	return v
}

// endedKept is how long a search that ended is told of.
const endedKept = 15 * time.Minute

// searchList is what the page of a draft tells of searches.
type searchList struct {
	On   string // the draft
	List []searchView
}

// Again is where the page asks whether there are others by now.
func (l *searchList) Again() string {
	return "/day/searches?" + url.Values{"on": {l.On}, "seen": {l.seen()}}.Encode()
}

func (l *searchList) seen() string {
	ids := make([]string, len(l.List))
	for i, v := range l.List {
		ids[i] = v.ID
	}
	return strings.Join(ids, ",")
}

// daySearches tells of the searches when there are others than the page has: those that somebody else began, too, are seen
// without a reload.
func (p *pages) daySearches(w http.ResponseWriter, r *http.Request) error {
	l, err := p.searchViews(r, r.FormValue("on"))
	if err != nil {
		return err
	}
	if partial(r) && l.seen() == r.FormValue("seen") {
		w.WriteHeader(http.StatusNoContent)
		return nil
	}
	return p.part(w, r, "day", "day-searches", l)
}

// searchViews lists the searches that go on, and the last one that ended lately.
func (p *pages) searchViews(r *http.Request, on string) (*searchList, error) {
	all, err := p.desk.Searchings(r.Context())
	if err != nil {
		return nil, err
	}
	out := &searchList{On: on}
	ended := false
	for _, s := range all {
		v := viewSearch(r, s, on)
		if v.At.Done {
			if ended || v.At.Draft == on || p.desk.Now().Sub(v.Began) > endedKept+v.Wanted {
				continue
			}
			ended = true
		}
		out.List = append(out.List, v)
	}
	return out, nil
}

// searchTimes are the times one can search for, in seconds.
var searchTimes = []int{5, 20, 60, 300}

// daySearch begins a search and goes on at once; it runs in the background.
func (p *pages) daySearch(w http.ResponseWriter, r *http.Request) error {
	seconds, err := strconv.Atoi(r.FormValue("seconds"))
	if err != nil || !slices.Contains(searchTimes, seconds) {
		return fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "seconds", Wrong: "is no time to search", Right: "choose one from the list"}
	}
	ask := desk.SearchAsk{From: draftID(r), Time: time.Duration(seconds) * time.Second, Options: plan.Options{Seed: 1}}
	if ask.Options.Stable, err = p.keepAsked(r); err != nil {
		return err
	}
	if ask.Options.Percentile, err = strconv.Atoi(cmp.Or(r.FormValue("safe"), "0")); err != nil {
		return fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "safe", Wrong: "is no number", Right: "choose one from the list"}
	}
	s, err := p.desk.Search(r.Context(), ask)
	if err != nil {
		return err
	}
	p.gate.Background(s.Run)
	if !partial(r) {
		p.redirect(w, r, "/day/searches/"+s.ID)
		return nil
	}
	views, err := p.searchViews(r, draftID(r))
	if err != nil {
		return err
	}
	return p.part(w, r, "day", "day-searches", views)
}

// keepAsked is what of the near future is to be kept.
func (p *pages) keepAsked(r *http.Request) (plan.Stable, error) {
	if r.FormValue("near") == "" || r.FormValue("near") == "0" {
		return plan.Stable{}, nil
	}
	long, err := strconv.Atoi(r.FormValue("near"))
	price, wrong := strconv.Atoi(r.FormValue("price"))
	if err = errors.Join(err, wrong); err != nil || long < 0 || long > 7*24*60 || price < 1 || price > 24*60 {
		return plan.Stable{}, fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "price", Wrong: "is no number of minutes", Right: "minutes that a move has to save, such as 15"}
	}
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return plan.Stable{}, err
	}
	return plan.Stable{Until: p.clock(s).Add(time.Duration(long) * time.Minute), Price: time.Duration(price) * time.Minute}, nil
}

// daySearchPage shows one search: for those without a script, who load it again.
func (p *pages) daySearchPage(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Searching(r.Context(), r.PathValue("search"))
	if err != nil {
		return err
	}
	return p.show(w, r, page{name: "day_search", title: words.T("Search for a better order"), body: viewSearch(r, s, s.Ask.From)})
}

// dayCancelSearch ends a search; what it found is kept.
func (p *pages) dayCancelSearch(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.CancelSearch(r.Context(), r.PathValue("search"))
	if err != nil {
		return err
	}
	if partial(r) { // the stream tells the rest
		w.WriteHeader(http.StatusNoContent)
		return nil
	}
	p.redirect(w, r, "/day/searches/"+s.ID)
	return nil
}

// progressPause is the least time between two words about a search.
const progressPause = 200 * time.Millisecond

// daySearchEvents tells how far a search is, as often as there is something new, until it is done.
func (p *pages) daySearchEvents(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Searching(r.Context(), r.PathValue("search"))
	if err != nil {
		return err
	}
	out := http.NewResponseController(w)
	p.gate.Streams(w)
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	for listens := true; listens; {
		at, more := s.State()
		listens = p.tellSearch(w, r, s) && out.Flush() == nil && !at.Done && p.waitFor(r.Context(), more)
	}
	return nil
}

// waitFor waits until there is more to tell, and a moment longer; false when nobody listens any more.
func (p *pages) waitFor(ctx context.Context, more <-chan struct{}) bool {
	pause := time.After(progressPause)
	for range 2 { // each of the two once
		select {
		case <-more:
			more = nil
		case <-pause:
			pause = nil
		case <-ctx.Done():
			return false
		case <-p.gate.Stopping():
			return false
		}
	}
	return true
}

// tellSearch writes one message of the stream, the last one closes it; false when that fails, which nobody can be told any
// more: the answer has begun.
func (p *pages) tellSearch(w http.ResponseWriter, r *http.Request, s *desk.Searching) bool {
	v := viewSearch(r, s, r.FormValue("on"))
	v.Follow = r.FormValue("follow") != "" && v.Mine
	var text bytes.Buffer
	t, err := p.prints.page(p.gate.Speaker(r), "day")
	if err == nil {
		err = t.ExecuteTemplate(&text, "day-search-state", &view{Body: v})
	}
	if err != nil {
		return false
	}
	for line := range strings.Lines(text.String()) {
		fmt.Fprintf(w, "data: %s\n", strings.TrimRight(line, "\r\n"))
	}
	fmt.Fprint(w, "\n")
	if v.At.Done {
		fmt.Fprint(w, "event: done\ndata: done\n\n")
	}
	return true
}
