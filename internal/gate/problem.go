package gate

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"

	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
)

// statuses are the answers to what a gate refuses, where the kind of the fault does not tell it.
var statuses = map[fault.Code]int{
	CodeNeedLogIn:   http.StatusUnauthorized,
	CodeTooMany:     http.StatusTooManyRequests,
	CodeTooLarge:    http.StatusRequestEntityTooLarge,
	CodeKeyFormat:   http.StatusBadRequest,
	CodeKeyReused:   http.StatusUnprocessableEntity,
	CodeUnavailable: http.StatusServiceUnavailable,
	desk.CodeToken:  http.StatusUnauthorized,
}

// problem gives what was refused the shape of every problem.
func problem(err error) exchange.ProblemDocument {
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		err = tooLarge(large.Limit)
	}
	p := exchange.Problem(err)
	if all := fault.All(err); len(all) > 0 && statuses[all[0].Code] != 0 {
		p.Status = statuses[all[0].Code]
	}
	return p
}

// Status is what HTTP answers to an error, of the gate's own or of any other room.
func Status(err error) int { return problem(err).Status }

// Refuse tells a program what went wrong.
func Refuse(w http.ResponseWriter, r *http.Request, err error) {
	p := problem(err)
	noteOf(r).failed(p.Status, err)
	h := w.Header()
	h.Set("Content-Type", exchange.ProblemMedia)
	if p.Status == http.StatusUnauthorized {
		h.Set("WWW-Authenticate", `Bearer realm="foldwright"`)
	}
	w.WriteHeader(p.Status)
	if r.Method != http.MethodHead {
		_ = json.NewEncoder(w).Encode(p) // the asker may be gone
	}
}

// plainTrouble tells people in plain text what a gate refused.
func plainTrouble(w http.ResponseWriter, r *http.Request, err error) {
	p := problem(err)
	noteOf(r).failed(p.Status, err)
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(p.Status)
	fmt.Fprintf(w, "%s\n%s\n", p.Title, p.Detail)
}

// CodeTooLarge is the code of a request that is longer than is taken.
const CodeTooLarge fault.Code = "too-large"

// CodeUnavailable is the code of something that does not answer just now.
const CodeUnavailable fault.Code = "unavailable"

func tooLarge(most int64) fault.Fault {
	return fault.Fault{Kind: fault.Denied, Code: CodeTooLarge, Wrong: "the request is too long", Right: fmt.Sprintf("at most %d kB", most/1024)}
}
