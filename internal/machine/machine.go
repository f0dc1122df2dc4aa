// Package machine describes folders: feeder, units in order, shaft stations, and the limits of each.
//
// Directions are those of someone looking with the travel. Places on a shaft are measured from the datum shoulder on the
// operator's side. A zero limit means that none is known, where the field says so; everywhere else limits are closed
// ranges. [Folder.Check] lists what cannot be; a folder it passes can be used without further questions. [Rate] turns
// speed into sheets an hour.
package machine

import "foldwright/internal/units"

// Folder is a folding machine.
type Folder struct {
	Name          string
	Model, Serial string // as the shop typed them
	Calendar      string
	Feeder        Feeder
	Units         []Unit
}

// Range is a closed range of lengths.
type Range struct{ Min, Max units.Length }

// String gives the range in millimetres: 80 to 520 mm.
func (r Range) String() string { return units.FormatMM(r.Min) + " to " + units.FormatMM(r.Max) + " mm" }

// Feeder limits what can be fed: Length is along the travel.
type Feeder struct {
	Length, Width    Range
	MinGrammage      units.Grammage
	MaxGrammage      units.Grammage
	SheetsPerHourMax int
}

// UnitKind tells buckle units from knife units.
type UnitKind string

const (
	Buckle UnitKind = "buckle"
	Knife  UnitKind = "knife"
)

// Entry is how the stack comes into a unit: on in the same direction, or turned.
type Entry string

const (
	Straight  Entry = "straight"
	TurnLeft  Entry = "left"  // the stack's left edge becomes the leading edge
	TurnRight Entry = "right" // the stack's right edge becomes the leading edge
)

// Side is a side of the unit looking with the travel.
type Side string

const (
	LeftSide  Side = "left"
	RightSide Side = "right"
)

// Unit is one folding unit with what stands behind its last nip.
type Unit struct {
	Kind         UnitKind
	Enters       []Entry // what the folder can do here; the first is the usual one. Unit 1 is always straight.
	Plates       []Plate // of a buckle unit, in order from the infeed
	FirstBelow   bool    // plate 1 is below: odd plates fold down
	Stop         Range   // of a knife unit: stop distance
	StrokesMax   int     // of a knife unit, an hour
	Speed        units.Speed
	Gap          units.Length // between the tail of one stack and the head of the next
	WidthMax     units.Length // of what enters, across the travel; 0 = the feeder's
	ThicknessMax units.Length // of the stack at any nip; 0 = no limit known
	Passable     bool         // a stack can pass without being folded here although a later unit folds it
	Operator     Side         // where the operator stands, hence where the datum shoulder is
	Guide        Guide
	Stations     []Station // in order of travel
}

// Plate is a buckle plate with the range of its stop.
type Plate struct{ Stop Range }

// Guide is the side guide of a unit. Its range is measured on the shaft from the datum shoulder.
type Guide struct {
	Side  Side
	Range Range
}

// Station is a place for a set behind the last nip of a unit.
type Station struct {
	Name      string       // unique on the folder, such as "1A"
	Class     string       // of the sets it takes
	From, To  units.Length // usable part of the shaft, from the datum shoulder
	AccessMin float64      // minutes to open and close the way to the shafts
	ExitShaft bool         // the exit shaft must come out and go back in for a swap
}

// Station returns the station of that name and the number of its unit, from 1.
func (f *Folder) Station(name string) (st *Station, unit int, ok bool) {
	for i := range f.Units {
		for k := range f.Units[i].Stations {
			if st := &f.Units[i].Stations[k]; st.Name == name {
				return st, i + 1, true
			}
		}
	}
	return nil, 0, false
}

// StationsOf lists the names of the stations that take sets of a class, in order of travel.
func (f *Folder) StationsOf(class string) []string {
	var names []string
	for _, u := range f.Units {
		for _, st := range u.Stations {
			if st.Class == class {
				names = append(names, st.Name)
			}
		}
	}
	return names
}

// FoldsUp tells which way plate p (from 1) of a buckle unit folds.
func (u Unit) FoldsUp(p int) bool { return (p%2 == 1) != u.FirstBelow }
