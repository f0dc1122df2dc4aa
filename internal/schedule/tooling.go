package schedule

// Tooling is everything about tools: patterns, sets, stations, the bench, loose tools.
type Tooling struct {
	Classes  int
	Patterns []Pattern // every pattern that stands on a set or that a job wants; plain ones included, one per class
	Sets     []Set
	Stations []Station
	Units    []Unit
	// Wants[j][k] is what job j wants at station k, for the stations of machines that can run it.
	Wants [][]Want
	// InFolder[p][q] and OnBench[p][q] are the seconds to make a set of pattern p one of pattern q, at the machine and on
	// the bench; negative where it cannot be done, as when the classes differ.
	InFolder, OnBench [][]Time
	Loose             []int // loose tools of each type
	People            []Person
}

// Pattern is a pattern by what it takes: its class and how many tools of each type.
type Pattern struct {
	Class int
	Tools []Count // ascending by type; empty = plain
}

// Plain says whether the pattern has no tools.
func (p Pattern) Plain() bool { return len(p.Tools) == 0 }

// Count is a number of tools of a type.
type Count struct{ Type, N int }

// Set is a pair of shafts.
type Set struct {
	Class   int
	Pattern int
	Station int  // where it is mounted; -1 = on the rack
	Locked  bool // not to be rebuilt
}

// Station is a place for a set. It may stand empty at first; once a set is in, only another takes its place.
type Station struct {
	Machine int
	Unit    int // index into Tooling.Units
	Class   int
	Swap    Time // to take one set out and put another in, access and exit shaft included
	Access  Time // to reach the shafts for work in the machine; part of Swap already
}

// Unit is a folding unit with a side guide that all its stations share.
type Unit struct {
	Machine   int
	GuideMove Time  // to move the guide
	GuideAt   int64 // where it stands at the start, in any unit of length that all positions share
}

// Want is what a job wants at a station.
type Want struct {
	Any     bool  // the sheet does not pass here: whatever stands may stay, wherever the guide is; the rest is not read
	Pattern int   // what to build or fit when nothing serves: the job's own pattern, or the plain one
	Guide   int64 // where the guide stands best; the same for all stations of a unit
	// Fits lists the patterns that serve, with the range of guide positions at which they do; ascending by pattern. The
	// job's own pattern is among them. A plain want is served by every pattern that leaves no mark.
	Fits []Fit
}

// Fit is a pattern that serves, with the guide anywhere in [Lo, Hi].
type Fit struct {
	Pattern int
	Lo, Hi  int64
}

// Anywhere is a range of guide positions without ends, for patterns that serve wherever the guide is.
const (
	AnywhereLo int64 = -1 << 60
	AnywhereHi int64 = 1 << 60
)

// Person works on the bench.
type Person struct{ Windows []Window }

// Mode is how a station gets its tools; the values are those of changeover.Mode.
type Mode uint8

const (
	Keep     Mode = iota // what stands there serves with the guide where it is
	Shift                // what stands there serves once the guide is moved
	Swap                 // another set serves as it is
	Built                // a set is built on the bench before, then swapped in
	InFolder             // tools are stripped and fitted at the machine
	Plain                // plain shafts are swapped in, because the job wants no tools here
)
