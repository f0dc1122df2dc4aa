package gate

import (
	"io"
	"net/http"
	"strings"
	"time"

	"foldwright/internal/access"
)

// How much is taken, by what the last part of the path says it is for.
const (
	bodyMost    = 1 << 20
	importMost  = 10 << 20  // a path that ends in /import
	restoreMost = 200 << 20 // a path that ends in /restore, from who may
)

// How long a request may take to arrive, and its answer to be taken. Without a body nothing has to arrive.
const (
	arrives      = 30 * time.Second
	arrivesLarge = 10 * time.Minute
	taken        = 2 * time.Minute
)

// limited bounds the size of a request, and how long it may take to arrive and its answer to be taken.
func (g *Gate) limited(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		most := int64(bodyMost)
		switch path := strings.TrimSuffix(r.URL.Path, "/"); {
		case strings.HasSuffix(path, "/import"):
			most = importMost
		case strings.HasSuffix(path, "/restore"):
			most = restoreMost
		}
		if r.ContentLength > most {
			g.refuse(w, r, tooLarge(most))
			return
		}
		control := http.NewResponseController(w)
		within(control, r, g.arrives)
		if r.Body != nil && r.Body != http.NoBody {
			r.Body = &arriving{ReadCloser: http.MaxBytesReader(w, r.Body, most), here: func() { _ = control.SetReadDeadline(time.Time{}) }}
		}
		next.ServeHTTP(w, r)
	})
}

// within is how long a request may take to arrive from now on, and its answer to be taken.
func within(control *http.ResponseController, r *http.Request, wait time.Duration) {
	now := time.Now()                                   // deadlines of a connection are by the wall clock
	_ = control.SetWriteDeadline(now.Add(taken + wait)) // a writer without deadlines has nobody slow at its other end
	if r.Body != nil && r.Body != http.NoBody {
		_ = control.SetReadDeadline(now.Add(wait))
	}
}

// arriving is a body that lifts the deadline once it is here: work on it may take longer.
type arriving struct {
	io.ReadCloser
	here func()
}

func (a *arriving) Read(p []byte) (int, error) {
	n, err := a.ReadCloser.Read(p)
	if err == io.EOF {
		a.here()
	}
	return n, err
}

// Streams lets an answer take as long as it takes: events that go on, a backup. Whoever writes one ends it when [Gate.Stopping]
// says so.
func (g *Gate) Streams(w http.ResponseWriter) {
	control := http.NewResponseController(w)
	_ = control.SetWriteDeadline(time.Time{}) // as above
	_ = control.SetReadDeadline(time.Time{})
}

// bounded gives who may not send something large no room for it, and who may restore a backup the time that one takes.
func bounded(w http.ResponseWriter, r *http.Request, who access.Who) {
	path := strings.TrimSuffix(r.URL.Path, "/")
	restores := strings.HasSuffix(path, "/restore") && who.May(access.Rule) == nil
	imports := strings.HasSuffix(path, "/import") && who.May(access.Arrange) == nil
	switch {
	case restores:
		within(http.NewResponseController(w), r, arrivesLarge)
	case !imports && r.Body != nil && r.Body != http.NoBody:
		r.Body = http.MaxBytesReader(w, r.Body, bodyMost)
	}
}
