package ledger

import (
	"time"

	"foldwright/internal/fault"
	"foldwright/internal/plan"
)

// CodeNoDraft is the code of a draft that is not there.
const CodeNoDraft fault.Code = "no-draft"

// Draft is an order of the jobs that somebody searched or arranged and that the shop has not taken over yet. Only the order
// is kept: what it comes to is worked out anew from the shop as it is when somebody looks.
type Draft struct {
	ID     string
	Parent string // the draft that it was made from by a move; empty for the first of a line
	Who    string
	At     time.Time
	How    string // "search", "move", "given": what made it
	Note   string // the move in words, or how long was searched
	Order  plan.Order
	Taken  int64 // the revision by which the shop took it over; 0 = not
}
