package api

import (
	"net/http"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"foldwright/internal/desk"
)

// told is a search of whose progress the test decides.
type told struct {
	mu      sync.Mutex
	at      desk.SearchState
	changed chan struct{}
}

func (s *told) state() (desk.SearchState, <-chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.at, s.changed
}

func (s *told) tell(change func(*desk.SearchState)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	change(&s.at)
	close(s.changed)
	s.changed = make(chan struct{})
}

// heard is a writer that notes what came when.
type heard struct {
	mu   sync.Mutex
	text strings.Builder
	at   []time.Time
}

func (h *heard) Header() http.Header { return http.Header{} }
func (h *heard) WriteHeader(int)     {}
func (h *heard) Flush()              {}
func (h *heard) Write(p []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.at = append(h.at, time.Now())
	return h.text.Write(p)
}

func (h *heard) count(what string) int {
	h.mu.Lock()
	defer h.mu.Unlock()
	return strings.Count(h.text.String(), what)
}

// listen runs a stream until it ends.
func listen(s *told, gone, stopping <-chan struct{}) (*heard, *sync.WaitGroup) {
	h := &heard{}
	var over sync.WaitGroup
	over.Go(func() {
		stream{w: h, state: s.state, shape: func(at desk.SearchState) Search { return Search{Iterations: at.Iterations} }, gone: gone, stopping: stopping}.run()
	})
	return h, &over
}

// Goal: at most five events a second, however fast a search tells, and the last one is told. Method: a search that tells a thousand
// times in a second, on a clock of the test.
func TestEventsComeInMeasure(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := &told{changed: make(chan struct{})}
		h, over := listen(s, nil, nil)
		for range 1000 {
			time.Sleep(time.Millisecond)
			s.tell(func(at *desk.SearchState) { at.Iterations++ })
		}
		if n := h.count("event: progress"); n < 4 || n > 6 {
			t.Errorf("%d events in a second", n)
		}
		s.tell(func(at *desk.SearchState) { at.Done, at.Iterations = true, 1001 })
		over.Wait()
		if h.count("event: done") != 1 || !strings.Contains(h.text.String(), `"iterations":1001`) {
			t.Errorf("the end was not told: %s", h.text.String())
		}
		for i := 1; i < len(h.at); i++ {
			if apart := h.at[i].Sub(h.at[i-1]); apart > 0 && apart < eventsApart-time.Millisecond {
				t.Errorf("two events %v apart", apart)
			}
		}
	})
}

// A search that says nothing gives a sign of life every 15 seconds.
func TestSilenceHasAPulse(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := &told{changed: make(chan struct{})}
		gone := make(chan struct{})
		h, over := listen(s, gone, nil)
		time.Sleep(time.Minute + time.Second)
		if n := h.count(": still searching\n\n"); n != 4 {
			t.Errorf("%d signs of life in a minute", n)
		}
		close(gone) // the client leaves
		over.Wait()
		if h.count("event: done") != 0 {
			t.Error("somebody who left was told an end")
		}
	})
}

func TestStreamsEndWhenTheServerStops(t *testing.T) {
	synctest.Test(t, func(_ *testing.T) {
		s := &told{changed: make(chan struct{})}
		stopping := make(chan struct{})
		_, over := listen(s, nil, stopping)
		time.Sleep(time.Second)
		close(stopping)
		over.Wait() // or the test hangs
	})
}
