package ledger

import (
	"time"

	"foldwright/internal/shop"
)

// Kind is a sort of thing that is kept and changed by itself.
type Kind string

const (
	OfShop      Kind = "shop"      // [Head]; there is one
	OfCalendar  Kind = "calendar"  // calendar.Calendar
	OfClass     Kind = "class"     // tooling.Class
	OfTool      Kind = "tool"      // shop.ToolStock
	OfSet       Kind = "set"       // tooling.Set
	OfFolder    Kind = "folder"    // machine.Folder
	OfPresent   Kind = "present"   // shop.State
	OfPerson    Kind = "person"    // shop.Person
	OfStock     Kind = "stock"     // paper.Stock
	OfJob       Kind = "job"       // job.Job, in the order given
	OfDone      Kind = "done"      // job.Job
	OfStandards Kind = "standards" // changeover.Standards; there is one
	OfWeights   Kind = "weights"   // shop.Weights; there is one
	OfHouse     Kind = "house"     // shop.House; there is one
)

// Head is what a shop says of itself.
type Head struct {
	Name string
	Zone *time.Location
	Now  time.Time
	Inch bool
}

// ToolName is the name under which a stock of tools is kept: tools have none of their own.
func ToolName(t shop.ToolStock) string { return t.Type.String() + " for " + t.Class }
