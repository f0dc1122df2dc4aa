package ui

import (
	"net/http"
	"strings"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/tooling"
	"foldwright/internal/words"
)

func (p *pages) rackWorkRoutes() []route {
	return []route{
		{pattern: "POST /rack/{set}/move", serve: p.moveSet, deed: access.Record, call: "move-set"},
		{pattern: "POST /rack/{set}/build", serve: p.buildSet, deed: access.Record, call: "build-set"},
		{pattern: "POST /rack/{set}/strip", serve: p.stripSet, deed: access.Record, call: "strip-set"},
		{pattern: "POST /rack/{set}/retire", serve: p.retireSet, deed: access.Arrange, call: "retire-set"},
	}
}

// moveSet says where a set is now: "bench", "slot" with its name, or "folder/station".
func (p *pages) moveSet(w http.ResponseWriter, r *http.Request) error {
	label := r.PathValue("set")
	to, err := placeOf(r.PostFormValue("to"), strings.TrimSpace(r.PostFormValue("slot")))
	if err != nil {
		return err
	}
	t, err := p.desk.MoveSet(r.Context(), label, to)
	return p.afterWork(w, r, t, err, words.T("%s: %s", label, placeWords(to)))
}

// placeOf reads a place as the form of a set sends it.
func placeOf(to, slot string) (tooling.Place, error) {
	folder, station, mounted := strings.Cut(to, "/")
	switch {
	case to == "bench":
		return tooling.Place{Bench: true}, nil
	case to == "slot" && slot != "":
		return tooling.Place{Slot: slot}, nil
	case to == "slot":
		return tooling.Place{}, fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "slot", Wrong: "no slot is named", Right: "the slot of the rack where the set hangs"}
	case mounted:
		return tooling.Place{Folder: folder, Station: station}, nil
	}
	return tooling.Place{}, fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "to", Wrong: "no place is chosen", Right: "a slot, the bench, or a station of a folder"}
}

// buildSet says that a set was made into what a job wants.
func (p *pages) buildSet(w http.ResponseWriter, r *http.Request) error {
	label, job := r.PathValue("set"), strings.TrimSpace(r.PostFormValue("job"))
	t, err := p.desk.BuildSet(r.Context(), label, job, r.PostFormValue("folder"), r.PostFormValue("station"))
	return p.afterWork(w, r, t, err, words.T("%s is built for %s.", label, job))
}

func (p *pages) stripSet(w http.ResponseWriter, r *http.Request) error {
	label := r.PathValue("set")
	t, err := p.desk.StripSet(r.Context(), label)
	return p.afterWork(w, r, t, err, words.T("%s is stripped; its tools lie loose.", label))
}

// afterWork goes back to the set and says what was done.
func (p *pages) afterWork(w http.ResponseWriter, r *http.Request, t desk.Thing, err error, what words.Text) error {
	if err != nil {
		return err
	}
	return p.done(w, r, rackPath(r.PathValue("set")), t.Version, what)
}

func (p *pages) retireSet(w http.ResponseWriter, r *http.Request) error {
	label := r.PathValue("set")
	if err := p.desk.RetireSet(r.Context(), label); err != nil {
		return err
	}
	undo, err := p.lastChange(r)
	if err != nil {
		return err
	}
	return p.done(w, r, "/rack", undo, words.T("%s is retired; its tools lie loose.", label))
}
