package exchange

import (
	"time"

	"foldwright/internal/ledger"
	"foldwright/internal/plan"
)

// DraftDocument is an order of the jobs that somebody searched or arranged. In a list it stands without what it comes to.
type DraftDocument struct {
	ID       string        `json:"id"`
	Parent   string        `json:"parent,omitempty"` // the draft that it was made from by a move
	Who      string        `json:"who,omitempty"`    // nobody made the order given
	At       time.Time     `json:"at"`
	How      string        `json:"how"` // search, move or given
	Note     string        `json:"note,omitempty"`
	Taken    int64         `json:"taken,omitempty"`    // the revision with which the shop took it over
	Revision int64         `json:"revision,omitempty"` // of the shop that the plan was worked out with
	Lost     []string      `json:"lost,omitempty"`     // jobs and folders of the draft that the shop has no more
	Adapted  bool          `json:"adapted,omitempty"`  // it could not stay as it was kept: what has started or was pinned since stands where it must now
	Plan     *PlanDocument `json:"plan,omitempty"`
}

// Draft is a draft with what it comes to in the shop of a revision, with times at the clock of a zone.
func Draft(d ledger.Draft, p *plan.Plan, revision int64, lost []string, zone *time.Location) DraftDocument {
	doc := draftHead(d, zone)
	doc.Plan, doc.Revision, doc.Lost = Plan(p), revision, lost
	return doc
}

// Drafts lists drafts without working them out.
func Drafts(list []ledger.Draft, zone *time.Location) []DraftDocument {
	return each(list, func(d ledger.Draft) DraftDocument { return draftHead(d, zone) })
}

func draftHead(d ledger.Draft, zone *time.Location) DraftDocument {
	return DraftDocument{ID: d.ID, Parent: d.Parent, Who: d.Who, At: d.At.In(zone), How: d.How, Note: d.Note, Taken: d.Taken}
}
