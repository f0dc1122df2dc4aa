// Package tooling is the one-dimensional geometry of tools on a slitter shaft: tools, patterns, sets, the rack, and the
// match between what a job wants and what stands preset.
//
// Positions are measured along the shaft from the datum shoulder on the operator's side; tools stand in ascending order
// and cannot pass one another. Two patterns are alike when their tools agree in order, kind and spec and every spacing,
// of any two tools, agrees within the tolerance: then the sheet can be shifted to the tools. A shift is what is added to
// every wanted position. All ranges are closed.
//
// [Alike] compares two patterns, [Convert] tells the cheapest way to make one of the other, [Index] asks a whole rack for
// the sets that serve and for the nearest that do not, [Clashes] and [Class.CheckTools] say whether tools fit on a shaft,
// [Parse] reads what people type. The package knows no folder and no sheet.
package tooling

import "foldwright/internal/units"

// Kind is what a tool does to the sheet.
type Kind string

const (
	Slit      Kind = "slit"      // one knife against a counter knife; also takes an edge trim
	Strip     Kind = "strip"     // two knives that take out the strip between two-ups; Spec is the strip's width
	Perforate Kind = "perforate" // a toothed wheel; Spec is its teeth
	Score     Kind = "score"     // a creasing wheel; Spec is the thickness of its edge
)

// Type is a kind of tool with its spec on shafts of one diameter; two tools of a type can stand in for each other.
type Type struct {
	Kind Kind
	Spec string // such as "12 tpi", "0.7 mm", "6 mm"; normalised by the reader
}

// Tool is a tool at its place on a shaft.
type Tool struct {
	Type
	At units.Length // of the working line; of the middle of the strip for [Strip]
}

// Body is the room a tool takes on the shaft, holder and wheel, to either side of its working line.
type Body struct {
	Left, Right units.Length // towards and away from the datum shoulder
}

// Class names shafts that are interchangeable.
type Class struct {
	Name     string
	Diameter units.Length
	Length   units.Length // usable length, from the datum shoulder
}

// Pattern is what stands on a set: tools of ascending positions on shafts of a class. No tools is a plain pattern.
type Pattern struct {
	Class string
	Tools []Tool
}

// Place is where a set is: in a rack slot, in a station of a folder, or on the bench.
type Place struct {
	Slot            string // rack slot; empty when not on the rack
	Folder, Station string // both set when mounted
	Bench           bool
}

// Set is a pair of shafts, upper and lower, with a label.
type Set struct {
	Label   string
	Class   string
	Tools   []Tool
	Place   Place
	Served  []string // jobs it served
	MetresK float64  // wear: thousand metres run
}

// Pattern returns what stands on the set.
func (s Set) Pattern() Pattern { return Pattern{Class: s.Class, Tools: s.Tools} }
