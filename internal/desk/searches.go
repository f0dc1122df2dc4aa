package desk

import (
	"context"
	"fmt"
	"slices"
	"sync"

	"foldwright/internal/access"
	"foldwright/internal/fault"
)

// searches are those that go on and the last that ended.
type searches struct {
	mu  sync.Mutex
	all []*Searching
}

// searchesKept is how many are remembered after they ended.
const searchesKept = 50

// add takes a search in, when there is room for one more.
func (l *searches) add(s *Searching) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	running := 0
	for _, o := range l.all {
		if !o.over() {
			running++
		}
	}
	if running >= searchesMost {
		return fault.Fault{Kind: fault.Conflict, Code: CodeSearchBusy, Wrong: fmt.Sprintf("%d searches are going on already", running), Right: "wait for one to end, or cancel it"}
	}
	if len(l.all) >= searchesKept {
		if oldest := slices.IndexFunc(l.all, (*Searching).over); oldest >= 0 {
			l.all = slices.Delete(l.all, oldest, oldest+1)
		}
	}
	l.all = append(l.all, s)
	return nil
}

// Searching returns a search that goes on or ended lately.
func (d *Desk) Searching(ctx context.Context, id string) (*Searching, error) {
	if err := access.From(ctx).May(access.See); err != nil {
		return nil, err
	}
	d.searches.mu.Lock()
	defer d.searches.mu.Unlock()
	for _, s := range d.searches.all {
		if s.ID == id {
			return s, nil
		}
	}
	return nil, fault.Fault{Kind: fault.Missing, Code: CodeSearchGone, Field: "search", Wrong: fmt.Sprintf("there is no search %q", id), Right: "begin a new one; searches do not outlive the server, the drafts they made do"}
}

// Searchings lists the searches that go on, and the last ones that ended, newest first.
func (d *Desk) Searchings(ctx context.Context) ([]*Searching, error) {
	if err := access.From(ctx).May(access.See); err != nil {
		return nil, err
	}
	d.searches.mu.Lock()
	defer d.searches.mu.Unlock()
	list := slices.Clone(d.searches.all)
	slices.Reverse(list)
	return list, nil
}

// CancelSearch ends a search; what it found so far is kept.
func (d *Desk) CancelSearch(ctx context.Context, id string) (*Searching, error) {
	if err := access.From(ctx).May(access.Arrange); err != nil {
		return nil, err
	}
	s, err := d.Searching(ctx, id)
	if err == nil {
		s.Cancel()
	}
	return s, err
}
