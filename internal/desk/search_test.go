package desk_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/plan"
)

// searched runs a search to its end and gives the draft that it made.
func searched(t testing.TB, d *desk.Desk, ask desk.SearchAsk) string {
	t.Helper()
	s, err := d.Search(as(t, access.Lead), ask)
	ok(t, err)
	s.Run(t.Context())
	at, _ := s.State()
	if !at.Done || at.Err != nil || at.Cancelled || at.Share != 1 || at.Draft == "" {
		t.Fatalf("the search ended as %+v", at)
	}
	return at.Draft
}

func TestASearchKeepsWhatItFound(t *testing.T) {
	d := kept(t)
	given := draft(t, d, desk.GivenDraft)
	id := searched(t, d, desk.SearchAsk{Iterations: 300, Options: plan.Options{Seed: 1}})
	found := draft(t, d, id)
	if found.Plan.Figures.Cost >= given.Plan.Figures.Cost || len(found.Plan.Unplaced) > len(given.Plan.Unplaced) {
		t.Errorf("300 orders from a cost of %v led to %v", given.Plan.Figures.Cost, found.Plan.Figures.Cost)
	}
	if found.How != "search" || found.Who != "ada" || found.Parent != "" || !strings.HasPrefix(found.Note, "300 orders") {
		t.Errorf("the draft says %+v", found.Draft)
	}
	again := draft(t, d, searched(t, d, desk.SearchAsk{Iterations: 300, Options: plan.Options{Seed: 1}}))
	if diff := cmp.Diff(found.Order, again.Order); diff != "" {
		t.Errorf("the same search found another order:\n%s", diff)
	}
	further := draft(t, d, searched(t, d, desk.SearchAsk{From: id, Iterations: 100, Options: plan.Options{Seed: 2}}))
	if further.Plan.Figures.Cost > found.Plan.Figures.Cost || further.Parent != id {
		t.Errorf("a search from %s came from %q and found %v, worse than %v", id, further.Parent, further.Plan.Figures.Cost, found.Plan.Figures.Cost)
	}
}

// A search can be watched, and stopped: the best so far is kept.
func TestASearchIsWatchedAndCancelled(t *testing.T) {
	d := kept(t)
	s, err := d.Search(as(t, access.Lead), desk.SearchAsk{Time: desk.SearchLongest})
	ok(t, err)
	seen, err := d.Searching(as(t, access.Viewer), s.ID)
	if err != nil || seen != s {
		t.Fatalf("the search is not found: %v", err)
	}
	done := make(chan struct{})
	go func() { s.Run(t.Context()); close(done) }()
	at, more := s.State()
	for !at.Known { // until it tells of orders
		<-more
		at, more = s.State()
	}
	_, err = d.CancelSearch(as(t, access.Operator), s.ID)
	refused(t, err, fault.Denied, access.CodeDenied)
	_, err = d.CancelSearch(as(t, access.Lead), s.ID)
	ok(t, err)
	<-done
	at, _ = s.State()
	if !at.Done || !at.Cancelled || at.Err != nil {
		t.Errorf("cancelled, it ended as %+v", at)
	}
	if got := draft(t, d, at.Draft); !strings.HasSuffix(got.Note, "stopped by hand") {
		t.Errorf("the draft says %q", got.Note)
	}
	list, err := d.Searchings(as(t, access.Viewer))
	if err != nil || len(list) != 1 || list[0] != s {
		t.Errorf("%d searches are listed: %v", len(list), err)
	}
}

// When the server stops, what was found is kept and nobody is said to have stopped it.
func TestASearchEndsWithTheServer(t *testing.T) {
	d := kept(t)
	s, err := d.Search(as(t, access.Lead), desk.SearchAsk{Time: time.Minute})
	ok(t, err)
	ctx, stop := context.WithCancel(t.Context())
	stop()
	s.Run(ctx)
	at, _ := s.State()
	if !at.Done || at.Cancelled || at.Err != nil {
		t.Errorf("the search ended as %+v", at)
	}
	draft(t, d, at.Draft)
}

func TestSearchRefuses(t *testing.T) {
	d := kept(t)
	lead := as(t, access.Lead)
	for _, ask := range []desk.SearchAsk{{}, {Time: -1}, {Time: desk.SearchLongest + 1}, {Iterations: -1}, {Iterations: -1, Time: time.Second}, {Iterations: 1, Time: -1}} {
		_, err := d.Search(lead, ask)
		refused(t, err, fault.Input, desk.CodeSearchTime)
	}
	for _, percentile := range []int{-1, 49, 100} { // told at once, not by a search that fails
		_, err := d.Search(lead, desk.SearchAsk{Iterations: 1, Options: plan.Options{Percentile: percentile}})
		refused(t, err, fault.Input, plan.CodePercentile)
	}
	_, err := d.Search(as(t, access.Operator), desk.SearchAsk{Iterations: 1})
	refused(t, err, fault.Denied, access.CodeDenied)
	_, err = d.Searching(lead, "none")
	refused(t, err, fault.Missing, desk.CodeSearchGone)
	_, err = d.CancelSearch(lead, "none")
	refused(t, err, fault.Missing, desk.CodeSearchGone)

	// Two at once, and no third until one of them is over.
	one, err := d.Search(lead, desk.SearchAsk{Iterations: 1})
	ok(t, err)
	_, err = d.Search(lead, desk.SearchAsk{Iterations: 1})
	ok(t, err)
	_, err = d.Search(lead, desk.SearchAsk{Iterations: 1})
	refused(t, err, fault.Conflict, desk.CodeSearchBusy)
	one.Run(t.Context())
	_, err = d.Search(lead, desk.SearchAsk{Iterations: 1})
	ok(t, err)
}

// Only the last searches are remembered, and never is one forgotten that goes on.
func TestOldSearchesAreForgotten(t *testing.T) {
	d := kept(t)
	goesOn, err := d.Search(as(t, access.Lead), desk.SearchAsk{Iterations: 1})
	ok(t, err)
	var ended []string
	for range 60 {
		s, err := d.Search(as(t, access.Lead), desk.SearchAsk{Iterations: 1})
		ok(t, err)
		ctx, stop := context.WithCancel(t.Context())
		stop()
		s.Run(ctx)
		ended = append(ended, s.ID)
	}
	if _, err := d.Searching(signed(t), goesOn.ID); err != nil {
		t.Error(err)
	}
	if _, err := d.Searching(signed(t), ended[59]); err != nil {
		t.Error(err)
	}
	_, err = d.Searching(signed(t), ended[0])
	refused(t, err, fault.Missing, desk.CodeSearchGone)
	list, err := d.Searchings(signed(t))
	if err != nil || len(list) != 50 {
		t.Errorf("%d searches are remembered: %v", len(list), err)
	}
}
