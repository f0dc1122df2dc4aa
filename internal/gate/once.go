package gate

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"net/http"
	"slices"
	"strings"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// The codes of idempotency keys.
const (
	CodeKeyFormat fault.Code = "key-format"
	CodeKeyReused fault.Code = "key-reused"
	CodeKeyOpen   fault.Code = "key-open"
)

const keyHeader = "Idempotency-Key"

// once does a write that is sent again under the same key only once, and answers as it did the first time. (The header follows the
// IETF draft draft-ietf-httpapi-idempotency-key-header.)
func (g *Gate) once(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		key := r.Header.Get(keyHeader)
		nobody := access.From(r.Context()).Role == access.Nobody // may change nothing, so nothing of theirs is kept
		if key == "" || nobody || !changes(r.Method) || slices.ContainsFunc(keyless, func(end string) bool { return strings.HasSuffix(r.URL.Path, end) }) {
			next.ServeHTTP(w, r)
			return
		}
		a, err := attemptOf(r, key)
		if err != nil {
			Refuse(w, r, err)
			return
		}
		standing, answer, err := g.keys.Begin(r.Context(), a)
		switch {
		case err != nil:
			Refuse(w, r, err)
		case standing == ledger.Other:
			Refuse(w, r, fault.Fault{Kind: fault.Conflict, Code: CodeKeyReused, Field: keyHeader, Wrong: "this key was used for another request", Right: "a new key for each new request; the same only to send the very same again"})
		case standing == ledger.Open:
			Refuse(w, r, fault.Fault{Kind: fault.Conflict, Code: CodeKeyOpen, Field: keyHeader, Wrong: "the first request with this key has not reported its end: it is being worked on, or broke off", Right: "try again in a moment; when it stays so, look whether it was done, then use a new key"})
		case standing == ledger.Answered:
			w.Header().Set("Idempotent-Replay", "true")
			give(w, answer)
		default:
			g.first(w, r, next, a)
		}
	})
}

// keyless are the ends of paths where a key means nothing: what they take or answer is secret and must not be kept for a day,
// or, of a backup, too large.
var keyless = []string{"/session", "/password", "/tokens", "/invitation", "/restore"}

func changes(method string) bool {
	return method != http.MethodGet && method != http.MethodHead && method != http.MethodOptions
}

// attemptOf reads the body, which is then still there to be read.
func attemptOf(r *http.Request, key string) (ledger.Attempt, error) {
	odd := func(c rune) bool { return c <= ' ' || c > '~' }
	if len(key) > 200 || strings.ContainsFunc(key, odd) || len(r.Header.Values(keyHeader)) > 1 {
		return ledger.Attempt{}, fault.Fault{Kind: fault.Input, Code: CodeKeyFormat, Field: keyHeader, Wrong: "this is no key", Right: "one header with 1 to 200 visible ASCII characters, such as a UUID"}
	}
	body, err := io.ReadAll(r.Body)
	if err != nil {
		return ledger.Attempt{}, unread(err)
	}
	r.Body = io.NopCloser(bytes.NewReader(body))
	sum := sha256.Sum256(body)
	return ledger.Attempt{Who: access.From(r.Context()).String(), Key: key, What: r.Method + " " + r.URL.RequestURI(), Digest: hex.EncodeToString(sum[:])}, nil
}

// unread is the fault of a body that did not arrive whole.
func unread(err error) error {
	if Status(err) == http.StatusRequestEntityTooLarge {
		return err
	}
	return fault.Fault{Kind: fault.Input, Code: CodeKeyFormat, Wrong: "the request did not arrive whole", Right: "send it again"}
}

// first does a request and keeps its answer before anybody hears it. Who was not let through did nothing, so the key is free
// again. An answer that tells of a fault of the server leaves open whether anything was done, and so does the key.
func (g *Gate) first(w http.ResponseWriter, r *http.Request, next http.Handler, a ledger.Attempt) {
	held := &heldWriter{head: w.Header()}
	next.ServeHTTP(held, r)
	answer := held.answer()
	ctx := context.WithoutCancel(r.Context()) // whoever went away may ask again
	var err error
	switch {
	case answer.Status >= http.StatusInternalServerError:
	case answer.Status == http.StatusUnauthorized || answer.Status == http.StatusForbidden || answer.Status == http.StatusTooManyRequests:
		err = g.keys.Drop(ctx, a)
	default:
		err = g.keys.End(ctx, a, answer)
	}
	if err != nil { // it was done; only sending it again will not be told so
		g.log.ErrorContext(ctx, "an answer was not kept", "request", noteOf(r).id, "error", err)
	}
	w.WriteHeader(answer.Status)
	_, _ = w.Write(answer.Body) // the asker may be gone
}

// heldWriter holds an answer back. Its header is that of the writer in front.
type heldWriter struct {
	head   http.Header
	status int
	body   bytes.Buffer
}

// Header is that of the writer in front.
func (h *heldWriter) Header() http.Header { return h.head }

// WriteHeader notes the first status.
func (h *heldWriter) WriteHeader(status int) {
	if h.status == 0 && status >= 200 {
		h.status = status
	}
}

// Write holds it.
func (h *heldWriter) Write(p []byte) (int, error) {
	h.WriteHeader(http.StatusOK)
	return h.body.Write(p)
}

// keptHeaders are those of an answer that belong to what was done, not to this one way of telling it.
var keptHeaders = []string{"Content-Type", "Location", "Etag", "Link", "Content-Language", "Last-Modified"}

func (h *heldWriter) answer() ledger.Answer {
	a := ledger.Answer{Status: max(h.status, http.StatusOK), Header: map[string][]string{}, Body: h.body.Bytes()}
	for _, name := range keptHeaders {
		if v := h.head.Values(name); len(v) > 0 {
			a.Header[name] = v
		}
	}
	return a
}

func give(w http.ResponseWriter, a ledger.Answer) {
	for name, values := range a.Header {
		w.Header()[name] = values
	}
	w.WriteHeader(a.Status)
	_, _ = w.Write(a.Body) // the asker may be gone
}
