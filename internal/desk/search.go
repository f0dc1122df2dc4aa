package desk

import (
	"cmp"
	"context"
	"fmt"
	"runtime"
	"sync"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/plan"
)

// The codes of searches.
const (
	CodeSearchTime fault.Code = "search-time"
	CodeSearchBusy fault.Code = "search-busy"
	CodeSearchGone fault.Code = "search-gone"
)

// SearchLongest is the longest time that a search can be asked for.
const SearchLongest = 10 * time.Minute

// searchesMost is how many searches go on at once: each takes all the cores it can get.
const searchesMost = 2

// SearchAsk is a wish for a better order.
type SearchAsk struct {
	From       string // the draft to begin with; empty = the order given
	Time       time.Duration
	Iterations int          // so many orders at most; without a time as long as a search may take
	Options    plan.Options // seed and the rest; times, progress and iterations are filled in here
}

// Searching is a search that goes on. It may be watched and cancelled by several.
type Searching struct {
	ID    string
	Who   string
	Began time.Time
	Ask   SearchAsk

	desk    *Desk
	ready   *plan.Prepared
	start   plan.Order
	cancel  context.CancelFunc
	stopped context.Context

	mu      sync.Mutex
	at      SearchState
	changed chan struct{} // closed at every change of at
}

// SearchState is how far a search is.
type SearchState struct {
	Iterations  int
	Share       float64 // of the time or the iterations, 0 to 1
	Best, Given plan.Figures
	Known       bool // Best and Given are told already
	Done        bool
	Cancelled   bool
	Draft       string // what was found, once done
	Err         error
}

// Search prepares a search; whoever asked runs it with [Searching.Run], which takes as long as was asked for.
func (d *Desk) Search(ctx context.Context, ask SearchAsk) (*Searching, error) {
	if err := access.From(ctx).May(access.Arrange); err != nil {
		return nil, err
	}
	if ask.Iterations < 0 || ask.Time < 0 || ask.Time > SearchLongest || ask.Iterations == 0 && ask.Time == 0 {
		return nil, fault.Fault{Kind: fault.Input, Code: CodeSearchTime, Field: "seconds", Wrong: fmt.Sprintf("a search of %v", ask.Time), Right: fmt.Sprintf("more than nothing, at most %v", SearchLongest)}
	}
	from := ask.From
	if from == "" {
		from = GivenDraft
	}
	base, ready, err := d.ordered(ctx, from)
	if err != nil {
		return nil, err
	}
	if ask.Options.Percentile != 0 {
		if _, err := ready.At(ask.Options.Percentile); err != nil { // told now, not when it runs
			return nil, err
		}
	}
	s := &Searching{ID: d.newID(), Who: access.From(ctx).String(), Began: d.Now(), Ask: ask, desk: d, ready: ready, start: base.Order, changed: make(chan struct{})}
	s.stopped, s.cancel = context.WithCancel(context.WithoutCancel(ctx))
	if err := d.searches.add(s); err != nil {
		s.cancel()
		return nil, err
	}
	return s, nil
}

// Run searches until the time is over, somebody cancels, or the context ends (the server stops), and keeps what was found as a
// draft. A cancelled search keeps the best so far, too.
func (s *Searching) Run(ctx context.Context) {
	defer s.cancel()
	work, stop := context.WithCancel(s.stopped)
	defer stop()
	defer context.AfterFunc(ctx, stop)()
	work, end := context.WithTimeout(work, cmp.Or(s.Ask.Time, SearchLongest))
	defer end()
	o := s.Ask.Options
	o.Iterations = s.Ask.Iterations
	o.Used = func() int {
		runtime.Gosched() // people who ask for a page come first: a search asks every few hundred microseconds
		return int(1000 * s.share(0))
	}
	o.Progress = func(p plan.Progress) {
		s.tell(func(at *SearchState) {
			at.Iterations, at.Best, at.Given, at.Known = p.Iterations, p.Best, p.From, true
			at.Share = s.share(p.Iterations)
		})
	}
	found, err := s.ready.Search(work, s.start, o)
	s.ready, s.start = nil, nil // what ended is remembered for a while, and these are large
	cancelled := s.stopped.Err() != nil
	if err == nil {
		err = s.keep(found, cancelled)
	}
	s.tell(func(at *SearchState) {
		at.Done, at.Cancelled, at.Err = true, cancelled, err
		if err == nil {
			at.Best, at.Given, at.Known, at.Iterations, at.Share = found.Figures, found.Given.Figures, true, found.Search.Iterations, 1
		}
	})
}

// keep writes down what was found, even when the server is about to stop.
func (s *Searching) keep(found *plan.Plan, cancelled bool) error {
	note := fmt.Sprintf("%d orders in %.0f s", found.Search.Iterations, s.desk.Now().Sub(s.Began).Seconds())
	if cancelled {
		note += ", stopped by hand"
	}
	ctx := context.WithoutCancel(s.stopped)
	kept := s.desk.newDraft(ctx, s.Ask.From, "search", note, found.Order())
	if err := s.desk.Books.AddDraft(ctx, kept); err != nil {
		return err
	}
	s.tell(func(at *SearchState) { at.Draft = kept.ID })
	return nil
}

// share is the part of the search that is over.
func (s *Searching) share(iterations int) float64 {
	if s.Ask.Iterations > 0 {
		return min(1, float64(iterations)/float64(s.Ask.Iterations))
	}
	return min(1, s.desk.Now().Sub(s.Began).Seconds()/s.Ask.Time.Seconds())
}

// Cancel ends the search soon; the best so far is kept.
func (s *Searching) Cancel() { s.cancel() }

// State tells how far it is, and gives a channel that is closed when there is more to tell.
func (s *Searching) State() (SearchState, <-chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.at, s.changed
}

func (s *Searching) tell(change func(*SearchState)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	change(&s.at)
	close(s.changed)
	s.changed = make(chan struct{})
}

func (s *Searching) over() bool {
	at, _ := s.State()
	return at.Done
}
