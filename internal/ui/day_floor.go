package ui

import (
	"net/http"
	"strconv"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/words"
)

func (p *pages) dayFloorRoutes() []route {
	return []route{
		{pattern: "POST /day/jobs/{job}/pin", serve: p.dayPin, deed: access.Arrange, call: "pin-job"},
		{pattern: "POST /day/jobs/{job}/unpin", serve: p.dayUnpin, deed: access.Arrange, call: "unpin-job"},
		{pattern: "POST /day/jobs/{job}/start", serve: p.dayStart, deed: access.Record, call: "start-job"},
		{pattern: "POST /day/jobs/{job}/finish", serve: p.dayFinish, deed: access.Record, call: "finish-job"},
	}
}

// dayPin holds a job on a folder, at a place of it when one is given.
func (p *pages) dayPin(w http.ResponseWriter, r *http.Request) error {
	name, pin := r.PathValue("job"), job.Pin{Folder: r.FormValue("folder")}
	if at := r.FormValue("place"); at != "" {
		var err error
		if pin.Position, err = strconv.Atoi(at); err != nil || pin.Position < 1 {
			return fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "place", Wrong: "is no place", Right: "a place from 1 on"}
		}
	}
	if pin.Folder == "" {
		return fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "folder", Wrong: "no folder is named", Right: "the folder that the job is to stay on"}
	}
	t, err := p.desk.Pin(r.Context(), name, pin)
	return p.afterFloor(w, r, t, err, words.T("%s is held on %s.", name, pin.Folder))
}

func (p *pages) dayUnpin(w http.ResponseWriter, r *http.Request) error {
	t, err := p.desk.Unpin(r.Context(), r.PathValue("job"))
	return p.afterFloor(w, r, t, err, words.T("%s is not held any more.", r.PathValue("job")))
}

// dayStart says that a job runs.
func (p *pages) dayStart(w http.ResponseWriter, r *http.Request) error {
	t, err := p.desk.Start(r.Context(), r.PathValue("job"), r.FormValue("folder"))
	return p.afterFloor(w, r, t, err, words.T("%s runs on %s.", r.PathValue("job"), r.FormValue("folder")))
}

// dayFinish says that a job is folded.
func (p *pages) dayFinish(w http.ResponseWriter, r *http.Request) error {
	t, err := p.desk.Finish(r.Context(), r.PathValue("job"), r.FormValue("folder"))
	return p.afterFloor(w, r, t, err, words.T("%s is finished on %s.", r.PathValue("job"), r.FormValue("folder")))
}

// afterFloor goes back to where the reader was and says what was done; the version of the thing is the change that undo takes
// back.
func (p *pages) afterFloor(w http.ResponseWriter, r *http.Request, t desk.Thing, err error, what words.Text) error {
	if err != nil {
		return err
	}
	to := local(r.FormValue("back"))
	if to == "/" {
		to = "/day"
	}
	return p.done(w, r, to, t.Version, what)
}
