// Package shop is the whole shop as one value: folders, classes, tools, sets, bench, jobs, standards.
//
// [Shop.Check] holds it to every rule that spans more than one room and returns every fault, each with the path of its
// field; [Shop.Unfoldable] then tells the jobs that no folder can fold. Both only read. A shop without faults can be
// planned. The lookups walk the lists: they are for questions at the door, not for inner loops.
package shop

import (
	"time"

	"foldwright/internal/calendar"
	"foldwright/internal/changeover"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// Shop is everything a shop file holds.
type Shop struct {
	Name      string
	Zone      *time.Location
	Now       time.Time // when the plan starts; zero = ask the clock at the door
	Inch      bool      // show inches
	Calendars []calendar.Calendar
	Classes   []tooling.Class
	Tools     []ToolStock
	Sets      []tooling.Set
	Folders   []machine.Folder
	States    []State
	Bench     []Person
	Stocks    []paper.Stock
	Jobs      []job.Job // to be planned, in the order given
	Done      []job.Job // finished, kept because a folder still stands as they left it; never planned
	Standards changeover.Standards
	Weights   Weights
	House     House
}

// ToolStock is a type of tool: its body, and how many lie loose (not on a set), by shaft class.
type ToolStock struct {
	tooling.Type
	Class string
	Body  tooling.Body
	Loose int
}

// State is what stands on a folder now; Job is the name of the job it is set for, empty when not known (everything is set anew).
type State struct {
	Folder string
	Job    string
	Guides []Guide
	Down   []calendar.Window // when it cannot work, whatever its calendar says: a repair, a service
}

// Guide is where the side guide of a unit stands now. (Sets say themselves where they are mounted.)
type Guide struct {
	Unit int
	At   units.Length // from the datum shoulder
}

// Person works on the bench.
type Person struct {
	Name     string
	Calendar string
	Away     []calendar.Window // when the person is not there, whatever the calendar says
}

// Weights price the parts of a plan's cost: minutes per minute.
type Weights struct{ Late, Makeready, Waiting, Bench float64 }

// DefaultWeights price a minute of make-ready or waiting as a minute and bench work, which no folder waits for, as a
// quarter (common practice, no source). A minute of lateness weighs what its job says.
func DefaultWeights() Weights { return Weights{Late: 1, Makeready: 1, Waiting: 1, Bench: 0.25} }
