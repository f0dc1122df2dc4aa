// Package settings works out everything an operator sets for a job on a folder: feed, plates, nips, guides, tools.
//
// All ways to feed the sheet (leading edge, face up), to turn it and to assign plates are tried. A folder can run the
// job when at least one way fits every limit; otherwise the answer is the nearest miss, in words and figures. A wish that
// one pass cannot meet (a line under layers that must not be cut, the fold line of a first fold) is a miss like any other:
// nothing is left out silently. Advice never blocks.
//
// Frame. The job is drawn on a sheet, front up; the folder runs a stack that may lie turned round and on its face against
// the drawing, and a fold made from the other end turns it over once more. So a walk through the folder carries one of eight
// relations along; stops and tool places of the machine are the drawn ones seen through it. They are as exact as the
// folding, to the nanometre.
//
// Guarantees. Every way, carried out as written, gives the product as drawn or that product turned over, and every wheel
// marks what is wanted and nothing else. Same input, same answer, in the same order. Answers share memory with one another:
// read them, do not change them.
//
// Start with [Ways]; [Best] is its first answer. Costs about 50 µs for a section of three folds on three units with all its
// feeds; see docs/performance.md. The package asks the shop what it must know of its tools and its rack through [House].
package settings

import (
	"foldwright/internal/fold"
	"foldwright/internal/machine"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// Feed is how the sheet as drawn goes onto the feed table.
type Feed struct {
	Leading Edge
	FaceUp  Side
}

// Edge names an edge of the flat sheet as drawn.
type Edge string

const (
	S0 Edge = "s0" // leading as drawn
	S1 Edge = "s1"
	T0 Edge = "t0" // left as drawn
	T1 Edge = "t1"
)

// Side is a face of the sheet as drawn.
type Side string

const (
	Front Side = "front"
	Back  Side = "back"
)

// Words is "front up" or "back up".
func (s Side) Words() words.Text {
	if s == Back {
		return words.T("back up")
	}
	return words.T("front up")
}

// Settings is one way to run a job on a folder.
type Settings struct {
	Job, Folder   string
	Feed          Feed
	SheetsPerHour int
	Streams       int        // pieces side by side after slitting
	RateLimit     words.Text // what sets the rate: "feeder", "unit 2", "knife of unit 3", "job"
	Units         []Unit
	Notes         []Note
}

// Unit is what is set on one unit; one entry for every unit of the folder.
type Unit struct {
	Number   int // from 1
	Kind     machine.UnitKind
	Engaged  bool // it folds
	Passes   bool // the stack goes through unfolded, to a later unit; neither: the unit is not used
	Enters   machine.Entry
	In, Out  fold.State // the stack as it enters and as it leaves, in the direction of travel
	Guide    Guide
	Plates   []Plate
	Knife    *Knife
	Nips     []Nip
	Stations []Station
}

// Guide is where the side guide stands. Window is how far it may go from At before a tool leaves the shaft or the guide its range.
type Guide struct {
	Side   machine.Side
	At     units.Length   // on the shaft, from the datum shoulder
	Window tooling.Window // absolute positions the guide may take for this job
}

// Plate is a plate of a buckle unit.
type Plate struct {
	Number int
	Closed bool
	Stop   units.Length
	Fold   int // which fold of the scheme it makes
}

// Knife is the stop of a knife unit.
type Knife struct {
	Stop units.Length
	Fold int
}

// Nip is what a roller pair must pass.
type Nip struct {
	Number    int
	Layers    int
	Thickness units.Length
}

// Station is what stands on the shafts of a station for this job.
type Station struct {
	Name       string
	Class      string
	Tools      []Tool         // ascending At; empty = plain
	DriveRings []units.Length // suggested places, on the shaft
	Paper      tooling.Window // the part of the shaft that the stack covers with the guide at Guide.At
}

// Tool is a tool with its reason.
type Tool struct {
	tooling.Tool              // At on the shaft, with the guide at Guide.At
	T            units.Length // on the piece, from its left edge looking with the travel
	For          words.Joined // such as "fold 2", "slit at 305", "trim foot"
}

// Pattern returns the tools as a pattern.
func (s Station) Pattern() tooling.Pattern {
	p := tooling.Pattern{Class: s.Class}
	for _, t := range s.Tools {
		p.Tools = append(p.Tools, t.Tool)
	}
	return p
}

// Note is advice with its source; it never blocks.
type Note struct{ Text, Source words.Text }
