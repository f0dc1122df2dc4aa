package gate

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"runtime/debug"
	"strconv"
	"sync/atomic"
	"time"
)

// note is what is remembered of a request for log and figures.
type note struct {
	id    string
	who   string
	route string
	err   error // why it was refused or failed
	gone  bool  // the asker left before there was an answer: no fault of the server's
}

// outcome is how the figures count a request.
func (n *note) outcome(status int) string {
	if n.gone {
		return "gone"
	}
	return strconv.Itoa(status)
}

type noteKey struct{}

// noteOf is the note of a request; one that nobody reads when the request did not come through the gate.
func noteOf(r *http.Request) *note {
	if n, ok := r.Context().Value(noteKey{}).(*note); ok {
		return n
	}
	return new(note)
}

func (n *note) failed(status int, err error) {
	if status >= http.StatusInternalServerError {
		n.err = err
	}
}

// Failed notes for the log why a request could not be answered. It is for doors that tell people only that it could not.
func Failed(r *http.Request, err error) { noteOf(r).err = err }

// requestNumbers number the requests since the start.
type requestNumbers struct {
	begun string
	last  atomic.Int64
}

// RequestID is the name of a request in the log, which the header X-Request-Id tells the asker.
func RequestID(r *http.Request) string { return noteOf(r).id }

// outside is around everything: headers, log, figures, and an answer even when something breaks.
func (g *Gate) outside(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		begun := time.Now() // a length of time, by the monotonic clock
		n := &note{id: g.newRequestID(), route: "none"}
		r = r.WithContext(context.WithValue(r.Context(), noteKey{}, n))
		seen := &seenWriter{ResponseWriter: w}
		g.safe(seen)
		seen.Header().Set("X-Request-Id", n.id)
		g.metrics.inFlight.Inc()
		defer func() {
			g.metrics.inFlight.Dec()
			again := g.broken(seen, r, n, recover())
			took := time.Since(begun)
			n.gone = seen.code() >= http.StatusInternalServerError && r.Context().Err() != nil
			g.metrics.observe(n.route, r.Method, n.outcome(seen.code()), took)
			g.logged(r, n, seen, took)
			if again != nil {
				panic(again)
			}
		}()
		next.ServeHTTP(seen, r)
	})
}

func (g *Gate) newRequestID() string {
	return g.requestNo.begun + strconv.FormatInt(g.requestNo.last.Add(1), 36)
}

// broken answers when a handler panicked. What began to be answered already cannot be taken back: the connection is cut, so that nobody
// takes a half for the whole.
func (g *Gate) broken(w *seenWriter, r *http.Request, n *note, reason any) (again any) {
	if reason == nil {
		return nil
	}
	if err, ok := reason.(error); ok && errors.Is(err, http.ErrAbortHandler) {
		return reason
	}
	g.metrics.panics.Inc()
	n.err = fmt.Errorf("panic: %v", reason)
	g.log.ErrorContext(r.Context(), "panic", "request", n.id, "reason", fmt.Sprint(reason), "stack", string(debug.Stack()))
	if w.status != 0 {
		return http.ErrAbortHandler
	}
	g.refuse(w, r, n.err)
	return nil
}

// caught keeps a panic of background work from ending the server.
func (g *Gate) caught(ctx context.Context, what string) {
	if reason := recover(); reason != nil {
		g.metrics.panics.Inc()
		g.log.ErrorContext(ctx, "panic", "in", what, "reason", fmt.Sprint(reason), "stack", string(debug.Stack()))
	}
}

// logged writes a line about a request: no query, no header, no body, so nothing secret.
func (g *Gate) logged(r *http.Request, n *note, w *seenWriter, took time.Duration) {
	level := slog.LevelInfo
	switch {
	case w.code() >= http.StatusInternalServerError && !n.gone:
		level = slog.LevelError
	case open(quiet, r.URL.Path):
		level = slog.LevelDebug
	}
	fields := []slog.Attr{
		slog.String("request", n.id), slog.String("method", short(r.Method, 20)), slog.String("path", short(r.URL.Path, 300)), slog.Int("status", w.code()),
		slog.Int64("bytes", w.bytes), slog.Duration("took", took.Round(time.Microsecond)), slog.String("from", g.clientOf(r).String()),
	}
	if n.who != "" {
		fields = append(fields, slog.String("who", n.who))
	}
	if n.gone {
		fields = append(fields, slog.Bool("gone", true))
	}
	if n.err != nil {
		fields = append(fields, slog.String("error", n.err.Error()))
	}
	g.log.LogAttrs(r.Context(), level, "request", fields...)
}

// quiet are paths that are asked all the time and tell nothing.
var quiet = []string{staticPath, "/healthz", "/readyz", "/metrics"}

// seenWriter remembers what was answered.
type seenWriter struct {
	http.ResponseWriter
	status int
	bytes  int64
}

// WriteHeader notes the first status that is an answer.
func (w *seenWriter) WriteHeader(status int) {
	if w.status == 0 && status >= 200 {
		w.status = status
	}
	w.ResponseWriter.WriteHeader(status)
}

// Write counts.
func (w *seenWriter) Write(p []byte) (int, error) {
	if w.status == 0 {
		w.status = http.StatusOK
	}
	n, err := w.ResponseWriter.Write(p)
	w.bytes += int64(n)
	return n, err
}

// Unwrap lets a response controller through.
func (w *seenWriter) Unwrap() http.ResponseWriter { return w.ResponseWriter }

func (w *seenWriter) code() int {
	if w.status == 0 {
		return http.StatusOK
	}
	return w.status
}
