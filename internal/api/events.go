package api

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"time"

	"github.com/danielgtaylor/huma/v2"

	"foldwright/internal/desk"
)

// eventsApart is the least time between two events of a search, beatEvery how long a line stays silent at most, so that nothing
// in between takes it for dead.
const (
	eventsApart = 200 * time.Millisecond
	beatEvery   = 15 * time.Second
)

// streamOut is an answer that is written as it comes.
type streamOut struct{ Body func(huma.Context) }

// events tells how far a search is, as server-sent events, until it is over, the client leaves or the server stops.
func (a *API) events(ctx context.Context, in *searchIDIn) (*streamOut, error) {
	s, err := a.desk.Searching(ctx, in.ID)
	if err != nil {
		return nil, err
	}
	return &streamOut{func(c huma.Context) {
		r, w := requestOf(ctx), writerOf(ctx)
		a.gate.Streams(w)
		c.SetHeader("Content-Type", "text/event-stream")
		c.SetHeader("X-Accel-Buffering", "no") // proxies in front shall pass each on at once
		c.SetStatus(http.StatusOK)
		stream{
			w: w, state: s.State, shape: func(at desk.SearchState) Search { return searchOf(s, at) },
			gone: r.Context().Done(), stopping: a.gate.Stopping(),
		}.run()
	}}, nil
}

// stream is one who watches.
type stream struct {
	w              http.ResponseWriter
	state          func() (desk.SearchState, <-chan struct{})
	shape          func(desk.SearchState) Search
	gone, stopping <-chan struct{}
}

func (e stream) run() {
	beat, pause := time.NewTicker(beatEvery), time.NewTicker(eventsApart)
	defer beat.Stop()
	defer pause.Stop()
	for {
		at, more := e.state()
		if at.Done {
			_ = e.send("done", at)
			return
		}
		if e.send("progress", at) != nil {
			return
		}
		if !wait(e, more, beat.C) || !wait(e, pause.C, beat.C) {
			return
		}
	}
}

// wait returns true once there is something on the channel, with a sign of life as often as needed; false when nobody
// listens any more.
func wait[T any](e stream, told <-chan T, beat <-chan time.Time) bool {
	for {
		select {
		case <-told:
			return true
		case <-beat:
			if _, err := io.WriteString(e.w, ": still searching\n\n"); err != nil || e.flush() != nil {
				return false
			}
		case <-e.gone:
			return false
		case <-e.stopping:
			return false
		}
	}
}

// send writes an event.
func (e stream) send(name string, at desk.SearchState) error {
	data, err := json.Marshal(e.shape(at))
	if err != nil {
		return err
	}
	if _, err := fmt.Fprintf(e.w, "event: %s\ndata: %s\n\n", name, data); err != nil {
		return err
	}
	return e.flush()
}

func (e stream) flush() error { return http.NewResponseController(e.w).Flush() }
