package ui

import (
	"errors"
	"log/slog"
	"net/http"

	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/words"
)

// trouble answers what went wrong: as a page, or, when a script asked, as a notice at the head of the page it stands on.
func (p *pages) trouble(w http.ResponseWriter, r *http.Request, err error) {
	t := troubleOf(err)
	if t.Status == http.StatusInternalServerError {
		gate.Failed(r, err)
	}
	pg := page{name: "trouble", title: t.Title, body: t, status: t.Status}
	block := "layout"
	if partial(r) {
		w.Header().Set("HX-Retarget", "#trouble")
		w.Header().Set("HX-Reswap", "innerHTML")
		block = "notice"
	}
	if err := p.write(w, r, pg, block); err != nil {
		slog.ErrorContext(r.Context(), "the page that tells of trouble failed", "error", err)
		http.Error(w, http.StatusText(t.Status), t.Status)
	}
}

// trouble is what the reader is told.
type trouble struct {
	Status int
	Title  words.Text
	Advice words.Text
	Faults fault.List
}

// troubleOf turns an error into what is told of it. What is no fault of the reader's is told without details.
func troubleOf(err error) trouble {
	found := fault.All(err)
	var big *http.MaxBytesError
	switch {
	case errors.As(err, &big):
		return trouble{http.StatusRequestEntityTooLarge, words.T("That is too large"), words.T("Send less at once."), nil}
	case len(found) == 0:
		return trouble{http.StatusInternalServerError, words.T("Something went wrong here"), words.T("It is not your fault. What was wrong stands in the log of the server. Nothing of it was kept."), nil}
	}
	t := trouble{Status: gate.Status(err), Faults: found}
	switch t.Status {
	case http.StatusNotFound:
		t.Title, t.Advice = words.T("Not found"), words.T("It may have been removed or renamed since.")
	case http.StatusConflict:
		t.Title, t.Advice = words.T("Somebody else changed it first"), words.T("Nothing was overwritten. Look at how it is now, then try again.")
	case http.StatusForbidden:
		t.Title, t.Advice = words.T("You may not do that"), words.T("Ask somebody with a higher role, or have your role changed.")
	case http.StatusTooManyRequests:
		t.Title, t.Advice = words.T("That was too often"), words.T("Wait a while, then try again.")
	default:
		t.Title, t.Advice = words.T("That cannot be done"), words.T("The reasons:")
	}
	return t
}
