package ui

import (
	"net/http"

	"foldwright/internal/desk"
	"foldwright/internal/ledger"
	"foldwright/internal/words"
)

// draftsMost is how many drafts are listed; the older ones are still there under their addresses.
const draftsMost = 40

// draftLine is one of them.
type draftLine struct {
	ledger.Draft
	Is    *desk.Draft // nil when it does not go with the shop any more
	Cost  figureCell  // against the order given
	Late  figureCell
	Ready figureCell
}

// Path is where it is shown.
func (l draftLine) Path() string { return draftPath(l.ID) }

// dayDrafts lists the newest drafts, each with what it comes to in the shop as it is now.
func (p *pages) dayDrafts(w http.ResponseWriter, r *http.Request) error {
	kept, err := p.desk.Drafts(r.Context(), draftsMost)
	if err != nil {
		return err
	}
	given, err := p.desk.Draft(r.Context(), desk.GivenDraft)
	if err != nil {
		return err
	}
	lines := make([]draftLine, len(kept))
	for i, d := range kept {
		lines[i].Draft = d
		is, err := p.desk.Draft(r.Context(), d.ID)
		if err != nil {
			continue // such as when a job has started elsewhere meanwhile
		}
		all := differences(&given.Plan.Day, &is.Plan.Day)
		lines[i].Is, lines[i].Late, lines[i].Ready, lines[i].Cost = is, all[1], all[4], all[7]
	}
	body := struct {
		Given *desk.Draft
		Lines []draftLine
	}{given, lines}
	return p.show(w, r, page{name: "day_drafts", title: words.T("Drafts of the day"), body: body})
}

// changesMost is how many changes are told of those that came in between.
const changesMost = 8

// changesSince is what was changed in the shop after a revision; nothing when that cannot be read.
func (p *pages) changesSince(r *http.Request, revision int64) []changeSaid {
	changes, err := p.desk.History(r.Context(), ledger.Page{Limit: changesMost, Shop: true})
	if err != nil {
		return nil
	}
	var out []changeSaid
	for _, c := range changes {
		if c.Revision <= revision {
			break
		}
		what := c.What
		if what == "" && len(c.Things) > 0 {
			what = string(c.Things[0].Deed) + " " + string(c.Things[0].Kind) + " " + c.Things[0].Name
		}
		out = append(out, changeSaid{c.Who, what})
	}
	return out
}
