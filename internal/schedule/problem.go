// Package schedule searches for the order of jobs on machines with set-up times that depend on the order, and on tools
// of which there are few.
//
// It knows whole numbers only: no paper, no folder, no clock. Times are seconds from the start of the horizon. A
// [Problem] is read-only and checked once by [Problem.Check]. An [Order] says which job runs where after which; [Decode]
// makes of it a timed [Plan]: when each job is made ready and runs, how each station gets its tools, what the bench
// builds. The search moves through orders only. [Evaluate] is the slow definition of cost and feasibility that tests
// hold everything else to.
//
// Same problem, same seed, same number of iterations: same plan, on every machine and any number of cores.
package schedule

// Time is seconds, from the start of the horizon or as a duration.
type Time = int64

// Forever is later than any time that occurs.
const Forever Time = 1 << 50

// Problem is what is to be planned.
type Problem struct {
	Machines []Machine
	Jobs     []Job
	// Setup[m][i][j] is the set-up on machine m from job i to job j, all but tooling and guides; row len(Jobs) is the
	// present state of the machine.
	Setup [][][]Time
	// Precedences: job Before is finished before the set-up of job After starts.
	Precedences []Precedence
	Tools       *Tooling // nil: no tooling
	Weights     Weights
}

// Precedence orders two jobs.
type Precedence struct{ Before, After int }

// Machine is one folder.
type Machine struct {
	Windows []Window // working time, ascending, disjoint; the last may reach to Forever
	Fixed   []int    // jobs that come first, in this order
	Started bool     // the first of Fixed is already made ready and running: no set-up
}

// Window is a piece of working time, From included, To excluded.
type Window struct{ From, To Time }

// Job is one job. Work stops at the end of a window and goes on in the next.
type Job struct {
	Run     []Time // on each machine, without set-up; negative: cannot run there
	Release Time   // the set-up may not start earlier
	Due     Time
	Weight  int64 // of a second of lateness
}

// Weights price the four parts of the cost, per thousand: 1000 makes a second of it cost one second.
type Weights struct{ Late, Setup, Wait, Bench, Makespan int64 }

// Cost is what a plan costs, in its parts: seconds, and Total in thousandths of a second by the weights.
type Cost struct {
	Late     int64 // sum of weight × seconds late
	Setup    int64
	Wait     int64 // working time that a machine stands idle between its first set-up and its last run
	Bench    int64
	Makespan int64
	Total    int64
}

// Order is the job numbers on each machine, in sequence.
type Order [][]int

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
	// the bench; negative where the classes differ.
	InFolder, OnBench [][]Time
	Loose             []int // loose tools of each type
	People            []Person
}

// Pattern is a pattern by what it takes: its class and how many tools of each type.
type Pattern struct {
	Class int
	Tools []Count // ascending by type; empty = plain
}

// Count is a number of tools of a type.
type Count struct{ Type, N int }

// Set is a pair of shafts.
type Set struct {
	Class   int
	Pattern int
	Station int  // where it is mounted; -1 = on the rack
	Locked  bool // not to be rebuilt
}

// Station is a place for a set.
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
	GuideAt   int64 // where it stands at the start, µm from the datum shoulder
}

// Want is what a job wants at a station.
type Want struct {
	Pattern int   // what to build or fit when nothing serves: the job's own pattern, or the plain one
	Guide   int64 // where the guide stands for that pattern, µm
	// Fits lists the patterns that serve, with the range of guide positions at which they do; ascending by pattern. The
	// job's own pattern is among them. A plain want is served by every pattern that leaves no mark.
	Fits []Fit
}

// Fit is a pattern that serves, with the guide anywhere in [Lo, Hi] µm.
type Fit struct {
	Pattern int
	Lo, Hi  int64
}

// Person works on the bench.
type Person struct{ Windows []Window }

// Mode is how a station gets its tools; the values are those of changeover.Mode.
type Mode uint8

const (
	Keep Mode = iota
	Shift
	Swap
	Built
	InFolder
	Plain
)

// Plan is an order with its times.
type Plan struct {
	Tasks  [][]Task // by machine, in sequence
	Builds []Build  // by start
	Cost   Cost
}

// Task is a job with its times.
type Task struct {
	Job                          int
	SetupStart, RunStart, RunEnd Time
	Base, Guides                 Time // working seconds: Problem.Setup; guide moves
	Mounts                       []Mount
}

// Mount is what happens at one station for a task.
type Mount struct {
	Station int
	Mode    Mode
	Set     int   // the set that stands there while the job runs
	From    int   // pattern of that set before (what is stripped when Mode is InFolder)
	Time    Time  // working seconds of this station's tooling
	Guide   int64 // where the unit's guide stands, µm
	Build   int   // index into Plan.Builds when Mode is Built; otherwise -1
}

// Build is a piece of bench work: Set becomes Pattern.
type Build struct {
	Set, From, Pattern int
	Job, Station       int
	Person             int
	Start, End         Time
	Work               Time // working seconds
}
