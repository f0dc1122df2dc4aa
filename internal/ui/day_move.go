package ui

import (
	"cmp"
	"errors"
	"net/http"
	"net/url"
	"slices"
	"strconv"

	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/plan"
	"foldwright/internal/words"
)

// spotGroup is the places of a folder where a job can be put.
type spotGroup struct {
	Folder string
	Spots  []spot
}

// spot is a place in front of a job, or at the end.
type spot struct {
	Value string // as a form sends it
	Name  words.Text
	Here  bool // the job stands there
}

// spotOf is a place as a form sends it: the folder, and the job that comes behind; none means the end.
func spotOf(folder, before string) string {
	v := url.Values{"folder": {folder}}
	if before != "" {
		v.Set("before", before)
	}
	return v.Encode()
}

// spots lists where the job can be put, and the spots next to where it is.
func (b *dayJobBody) spots() {
	here, _ := b.Draft.Order.Find(b.Job)
	for _, lane := range b.Draft.Order {
		g := spotGroup{Folder: lane.Folder}
		at := slices.Index(lane.Jobs, b.Job)
		others := slices.DeleteFunc(slices.Clone(lane.Jobs), func(name string) bool { return name == b.Job })
		for i, name := range others {
			g.Spots = append(g.Spots, spot{spotOf(lane.Folder, name), words.T("%d, in front of job %s", i+1, name), i == at})
		}
		g.Spots = append(g.Spots, spot{spotOf(lane.Folder, ""), words.T("%d, at the end", len(others)+1), at == len(others)})
		b.Spots = append(b.Spots, g)
		if lane.Folder == here {
			if at > 0 {
				b.Earlier = g.Spots[at-1].Value
			}
			if at < len(others) {
				b.Later = g.Spots[at+1].Value
			}
		}
	}
}

// dayMove puts a job elsewhere: a new draft, shown in place of this one.
func (p *pages) dayMove(w http.ResponseWriter, r *http.Request) error {
	job := r.FormValue("job")
	folder, before, err := spotAsked(r)
	if err != nil {
		return err
	}
	from, err := p.desk.Draft(r.Context(), draftID(r))
	if err != nil {
		return err
	}
	place, err := placeBefore(from.Order, job, folder, before)
	if err != nil {
		return p.refuseMove(w, r, job, err)
	}
	d, err := p.desk.Arrange(r.Context(), draftID(r), job, folder, place)
	if err != nil {
		return p.refuseMove(w, r, job, err)
	}
	if !partial(r) {
		p.redirect(w, r, draftPath(d.ID))
		return nil
	}
	b, err := p.dayOf(r, d)
	if err != nil {
		return err
	}
	w.Header().Set("HX-Push-Url", draftPath(d.ID))
	return p.part(w, r, "day", "day-live", b)
}

// spotAsked is the spot that a form sends: a step beside where the job is, one of the list, or folder and job behind.
func spotAsked(r *http.Request) (folder, before string, err error) {
	if s := cmp.Or(r.FormValue("step"), r.FormValue("spot")); s != "" {
		v, err := url.ParseQuery(s)
		if err != nil {
			return "", "", fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "spot", Wrong: "is no place in the order", Right: "choose one from the list"}
		}
		return v.Get("folder"), v.Get("before"), nil
	}
	return r.FormValue("folder"), r.FormValue("before"), nil
}

// placeBefore is the place, from 1 without the job itself, in front of another job of the folder; the end when none is named.
func placeBefore(o plan.Order, job, folder, before string) (int, error) {
	for _, lane := range o {
		if lane.Folder != folder {
			continue
		}
		others := slices.DeleteFunc(slices.Clone(lane.Jobs), func(name string) bool { return name == job })
		if before == "" {
			return len(others) + 1, nil
		}
		if at := slices.Index(others, before); at >= 0 {
			return at + 1, nil
		}
		return 0, fault.Fault{Kind: fault.Conflict, Code: CodeForm, Field: "place", Wrong: "job " + before + " does not stand on " + folder + " any more", Right: "look at the order as it is now, then move the job again"}
	}
	return 0, fault.Fault{Kind: fault.Missing, Code: CodeForm, Field: "folder", Wrong: "there is no folder " + strconv.Quote(folder), Right: "choose one from the list"}
}

// refuseMove says at the job why it cannot go there; it stays where it is.
func (p *pages) refuseMove(w http.ResponseWriter, r *http.Request, job string, err error) error {
	found := fault.All(err)
	if !partial(r) || len(found) == 0 || slices.ContainsFunc(found, func(f fault.Fault) bool { return f.Kind == fault.Denied }) {
		return err
	}
	at := "#day-refused"
	if r.FormValue("here") == "dialog" {
		at = "#day-job-refused"
	}
	w.Header().Set("HX-Retarget", at)
	w.Header().Set("HX-Reswap", "innerHTML")
	body := struct {
		Job    string
		Faults fault.List
	}{job, found}
	pg := page{name: "day", title: words.Plain(""), body: body, status: http.StatusUnprocessableEntity}
	return p.write(w, r, pg, "day-refused")
}

// staleness is what changed in the shop between the look of a reader and what they did.
type staleness struct {
	Changes []changeSaid
}

// changeSaid is a change of the shop as the trail tells it.
type changeSaid struct{ Who, What string }

// dayAccept takes a draft over as the order of the day. When the shop was changed since the reader looked, the figures
// are other ones by now: they are shown first, with who did what.
func (p *pages) dayAccept(w http.ResponseWriter, r *http.Request) error {
	id := draftID(r)
	seen, err := strconv.ParseInt(r.FormValue("revision"), 10, 64)
	if err != nil {
		return fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "revision", Wrong: "is no number of a change", Right: "take the draft over from its page"}
	}
	if _, err := p.desk.Accept(r.Context(), id, seen); err != nil {
		var f fault.Fault
		if !errors.As(err, &f) || f.Kind != fault.Conflict {
			return err
		}
		now, err := p.desk.Draft(r.Context(), id)
		if err != nil {
			return err
		}
		return p.staleDay(w, r, now, seen)
	}
	return p.done(w, r, "/day", p.takenBy(r, id), words.T("The draft is the order of the day now."))
}

// takenBy is the change by which a draft was taken over.
func (p *pages) takenBy(r *http.Request, id string) int64 {
	d, err := p.desk.Draft(r.Context(), id)
	if err != nil {
		return 0
	}
	return d.Taken
}

// staleDay shows a draft as it is now, with what changed.
func (p *pages) staleDay(w http.ResponseWriter, r *http.Request, now *desk.Draft, seen int64) error {
	b, err := p.dayOf(r, now)
	if err != nil {
		return err
	}
	b.Stale = &staleness{Changes: p.changesSince(r, seen)}
	return p.showDay(w, r, b, http.StatusConflict)
}
