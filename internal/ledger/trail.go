package ledger

import (
	"time"

	"foldwright/internal/fault"
)

// The codes of changes that shall be taken back.
const (
	CodeNoChange    fault.Code = "no-change"    // there was none of that number
	CodeNotUndoable fault.Code = "not-undoable" // the trail does not hold what is needed
)

// Change is one entry of the audit trail.
type Change struct {
	Revision int64
	At       time.Time // by the clock of the shop
	Who      string
	What     string // in the words of who changed it; may be empty
	Things   []Changed
}

// Changed is one thing of a change.
type Changed struct {
	Kind   Kind
	ID     string
	Name   string // after the change; of something removed: before it
	Deed   Deed
	Fields []Field
}

// Field is one field that a change made different; Before or After is empty when there was no such field.
type Field struct{ Name, Before, After string }

// Page says which part of the trail is wanted.
type Page struct {
	Before int64  // only changes before this revision; 0 = from the newest
	Limit  int    // at most so many
	Thing  string // only changes of the thing with this id; empty = of all
	Shop   bool   // only changes of the shop, not of who can come in
}
