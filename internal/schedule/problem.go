// Package schedule searches for the order of jobs on machines with set-up times that depend on the order, and on tools
// of which there are few.
//
// It knows whole numbers only: no paper, no folder, no clock. Times are seconds from the start of the horizon. A
// [Problem] is read-only and checked once by [Problem.Check]. An [Order] says which job runs where after which; [Decode]
// makes of it a timed [Plan]: when each job is made ready and runs, how each station gets its tools, what the bench
// builds. [Construct] makes a first order, [Search] a better one. [Evaluate] is the slow definition of cost and
// feasibility that tests hold everything else to, and [Bound] what no order can undercut.
//
// Work on a machine or at the bench stops at the end of a working window and goes on in the next, set-ups as well as
// runs. A set that a task needs is ready when its set-up starts, and a set that it takes out is free when its run starts.
//
// The search is over orders. Of each order there is one plan, by the decoder's rules: a task starts as soon as its machine, the
// jobs before it and its tools allow, takes the tooling that costs least as things then stand, and every person at the
// bench does one build after another. In the end [Refine] lets tasks take dearer ways to their tools where the whole plan gains: those are
// the plan's wishes. Plans that let a machine stand for no reason but a later task, or that fill an earlier gap at the bench, are not reached.
//
// Same problem, same seed, same number of iterations: same plan, on every machine and any number of cores. Decoding
// costs O(jobs × (machines + sets)) and allocates nothing once a search has warmed up.
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
	// present state of the machine. Not read, and may be anything, where m cannot run i or j.
	Setup [][][]Time
	// Closing[m][j] is the set-up on machine m after job j when that is its last, to leave the machine as it is wanted next.
	// It counts as set-up and takes no time of the plan; a machine without jobs has none. nil: nothing is to be left so.
	Closing [][]Time
	Racks   []Rack // of each machine; nil: no machine has one
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

// Rack stands beside a machine and holds sets that its jobs need several of at once; it is empty at first. What a job needs
// and does not find there is brought during its set-up: free while places are empty, afterwards at the price of Load a
// set. The sets are numbered from 0 and belong to the machine; they have nothing to do with [Tooling].
type Rack struct {
	Places int     // 0 = the machine has no rack, and the rest is not read
	Load   Time    // to bring a set into the place of another
	Needs  [][]int // of each job: the sets, none named twice; not read where the machine cannot run the job
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

// Weights price the parts of the cost, per thousand: 1000 makes a second of it cost one second.
type Weights struct{ Late, Setup, Wait, Bench, Makespan int64 }
