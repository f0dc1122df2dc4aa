package api

import (
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"strconv"
	"strings"

	"github.com/danielgtaylor/huma/v2"

	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/ledger"
)

// The codes of requests that cannot be answered, whatever they are about.
const (
	CodeRequest fault.Code = "request"       // a field, a parameter or a body that cannot be read
	CodeMedia   fault.Code = "request-media" // a body of another sort
	CodeRoute   fault.Code = "request-route" // nothing there, or not with this method
	CodeMatch   fault.Code = "if-match"      // a change that does not say which version it was made on

	CodeInPerson fault.Code = "in-person" // what only somebody can do who has logged in
)

// problem is a problem document on its way out.
type problem struct{ exchange.ProblemDocument }

func (p problem) Error() string { return p.Detail }

// GetStatus is the status of the answer.
func (p problem) GetStatus() int { return p.Status }

// ContentType is that of problem documents, whatever was asked for.
func (p problem) ContentType(string) string { return exchange.ProblemMedia }

// Huma has no other way to be told how its own errors look, and that a list of ours is never null.
func init() {
	huma.DefaultArrayNullable = false
	huma.NewError = func(status int, what string, errs ...error) huma.StatusError { return own(status, what, errs) }
	huma.NewErrorWithContext = func(_ huma.Context, status int, what string, errs ...error) huma.StatusError {
		return own(status, what, errs)
	}
}

// own gives what the reading of requests found the shape of everything else. What a client sent is not sent back.
func own(status int, what string, errs []error) problem {
	title := "The request cannot be read"
	if status >= http.StatusInternalServerError {
		return problem{exchange.Problem(nil)}
	}
	var list fault.List
	for _, err := range errs {
		f := fault.Fault{Kind: fault.Input, Code: CodeRequest, Wrong: clip(err.Error())}
		if d, ok := err.(huma.ErrorDetailer); ok {
			detail := d.ErrorDetail()
			f.Field, f.Wrong = inBody(detail.Location), clip(detail.Message)
		}
		list.Add(f)
	}
	if len(list) == 0 {
		list.Add(fault.Fault{Kind: fault.Input, Code: CodeRequest, Wrong: what})
	}
	p := problem{exchange.Problem(list)}
	p.Status, p.Title = status, title
	return p
}

// inBody is a place as the body itself would name it.
func inBody(location string) string {
	if location == "body" {
		return ""
	}
	return strings.TrimPrefix(location, "body.")
}

// asProblem is what a use case refused. What is no fault is the program's own: it is logged and nobody's to read.
func asProblem(ctx context.Context, err error) problem {
	var p problem
	if errors.As(err, &p) {
		return p
	}
	p = problem{exchange.Problem(err)}
	if len(fault.All(err)) == 0 {
		gate.Failed(requestOf(ctx), err)
		return p
	}
	if at := gate.Status(err); at != p.Status && fault.All(err)[0].Kind == fault.Denied {
		p.Status, p.Title = at, http.StatusText(at) // why somebody was not let in the gate knows better
	}
	return p
}

// problemOf is a problem with one fault and a status of its own.
func problemOf(status int, title string, f fault.Fault) problem {
	p := problem{exchange.Problem(f)}
	p.Status, p.Title = status, title
	return p
}

// stale turns the conflict of a change made on an older version into the answer to a condition that did not hold.
func stale(err error) error {
	found := fault.All(err)
	if len(found) == 0 || found[0].Code != ledger.CodeStale {
		return err
	}
	p := problem{exchange.Problem(err)}
	p.Status = http.StatusPreconditionFailed
	return p
}

// write sends a problem from outside a handler.
func write(ctx huma.Context, p problem) {
	ctx.SetHeader("Content-Type", exchange.ProblemMedia)
	ctx.SetStatus(p.Status)
	_ = json.NewEncoder(ctx.BodyWriter()).Encode(p.ProblemDocument) // the asker may be gone
}

// answerUnknown says that nothing is there, or not with this method, as the multiplexer found.
func answerUnknown(w http.ResponseWriter, r *http.Request, found http.Handler) {
	seen := seen{header: http.Header{}}
	found.ServeHTTP(&seen, r)
	f := fault.Fault{Kind: fault.Missing, Code: CodeRoute, Wrong: "there is nothing at " + clip(r.URL.Path), Right: "GET " + Prefix + "/ lists what there is"}
	title := "There is no such thing"
	if allow := seen.header.Get("Allow"); seen.status == http.StatusMethodNotAllowed && allow != "" {
		w.Header().Set("Allow", allow)
		title, f.Wrong, f.Right = "Not with this method", clip(r.Method)+" means nothing here", allow
	}
	p := problemOf(seen.status, title, f)
	w.Header().Set("Content-Type", exchange.ProblemMedia)
	w.WriteHeader(p.Status)
	if r.Method != http.MethodHead {
		_ = json.NewEncoder(w).Encode(p.ProblemDocument) // as above
	}
}

// seen is an answer that is looked at and thrown away.
type seen struct {
	header http.Header
	status int
}

// Header is that of the answer.
func (s *seen) Header() http.Header { return s.header }

func (s *seen) Write(b []byte) (int, error) { return len(b), nil }

// WriteHeader notes the status.
func (s *seen) WriteHeader(status int) { s.status = status }

func problemResponse() *huma.Response {
	return &huma.Response{Description: "What is wrong (RFC 9457)", Content: map[string]*huma.MediaType{exchange.ProblemMedia: {Schema: ref("Problem").schema()}}}
}

func statusText(status int) string { return strconv.Itoa(status) }

// clip keeps what was sent short enough for a message.
func clip(text string) string {
	const most = 200
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most]) + "…"
	}
	return text
}
