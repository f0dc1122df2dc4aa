package ui

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
	"foldwright/internal/words"
)

func (p *pages) trailRoutes() []route {
	return []route{{pattern: "GET /admin/trail", serve: p.trail, deed: access.Rule, call: "list-changes"}}
}

// trailBody is a part of the audit trail.
type trailBody struct {
	Changes  []changeRow
	Who      string // only changes of whose name begins so
	What     string // only changes of things whose name or kind contains it
	Older    string // address of the next part; empty when there is none
	Filtered bool
}

// changeRow is a change as it is shown.
type changeRow struct {
	ledger.Change
	Things []changedRow
	Undo   bool // it can be taken back from here: it is one of the shop
}

type changedRow struct {
	ledger.Changed
	Kind words.Text
	Deed words.Text
	Edit string // address; empty when it is not edited here
}

const (
	trailPage = 30  // changes a page
	trailRead = 600 // read at most for a page whose filter fits few
)

func (p *pages) trail(w http.ResponseWriter, r *http.Request) error {
	b := trailBody{Who: strings.TrimSpace(r.FormValue("who")), What: strings.TrimSpace(r.FormValue("what"))}
	b.Filtered = b.Who != "" || b.What != ""
	before, _ := strconv.ParseInt(r.FormValue("before"), 10, 64) // nonsense is the newest
	for read := 0; read < trailRead && len(b.Changes) < trailPage; {
		part, err := p.desk.History(r.Context(), ledger.Page{Before: before, Limit: trailPage})
		if err != nil {
			return err
		}
		for _, c := range part {
			before = c.Revision
			if b.fits(c) && len(b.Changes) < trailPage {
				b.Changes = append(b.Changes, shownChange(c))
			}
			if len(b.Changes) == trailPage {
				break
			}
		}
		read += len(part)
		if len(part) < trailPage {
			before = 0
			break
		}
	}
	if before > 1 {
		q := url.Values{"before": {strconv.FormatInt(before, 10)}, "who": {b.Who}, "what": {b.What}}
		b.Older = "/admin/trail?" + q.Encode()
	}
	return p.show(w, r, page{name: "admin_trail", title: words.T("Audit trail"), body: b})
}

// fits says whether a change passes the filter.
func (b *trailBody) fits(c ledger.Change) bool {
	if b.Who != "" && !strings.HasPrefix(strings.ToLower(c.Who), strings.ToLower(b.Who)) {
		return false
	}
	if b.What == "" {
		return true
	}
	for _, t := range c.Things {
		if strings.Contains(strings.ToLower(string(t.Kind)+" "+t.Name), strings.ToLower(b.What)) {
			return true
		}
	}
	return false
}

// shownThings is the most things of one change that the page lists; an import has hundreds.
const shownThings = 12

func shownChange(c ledger.Change) changeRow {
	row := changeRow{Change: c, Undo: len(c.Things) > 0}
	for i, t := range c.Things {
		name, ours := kindNames[t.Kind]
		if !ours { // who can come in
			name, row.Undo = peopleKinds[t.Kind], false
		}
		if i >= shownThings {
			continue
		}
		shown := changedRow{Changed: t, Kind: name, Deed: deedNames[t.Deed]}
		if ours && t.Deed != ledger.Removed {
			shown.Edit = editURL(t.Kind, t.Name, "/admin/trail")
		}
		row.Things = append(row.Things, shown)
	}
	return row
}

// Long says whether the fields are so many that they are shown when asked for: an addition has all of a thing's.
func (c changedRow) Long() bool {
	return len(c.Fields) > 6 || c.Changed.Deed == ledger.Added && len(c.Fields) > 0
}

// More is how many things the page leaves out.
func (c changeRow) More() int { return len(c.Change.Things) - len(c.Things) }

var deedNames = map[ledger.Deed]words.Text{
	ledger.Added: words.T("added"), ledger.Altered: words.T("changed"), ledger.Moved: words.T("moved"), ledger.Removed: words.T("removed"),
}

var peopleKinds = map[ledger.Kind]words.Text{
	ledger.OfAccount: words.T("Account"), ledger.OfToken: words.T("Token"), ledger.OfInvitation: words.T("Invitation"),
}
