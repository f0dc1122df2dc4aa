package schedule

import (
	"cmp"
	"slices"
)

// Order is the job numbers on each machine, in sequence.
type Order [][]int

// Clone returns a copy that shares nothing.
func (o Order) Clone() Order {
	c := make(Order, len(o))
	for m, row := range o {
		c[m] = append([]int(nil), row...)
	}
	return c
}

// Cost is what a plan costs, in its parts: seconds, and Total in thousandths of a second by the weights.
type Cost struct {
	Unplaced int   // jobs that found no place; fewer is better, whatever the rest says
	Late     int64 // sum of weight × seconds late
	Setup    int64
	Wait     int64 // working time that a machine with jobs stands idle, from the start of the horizon to its last run
	Bench    int64
	Makespan int64
	Total    int64
}

// Compare is negative when c is better than d: first by jobs unplaced, then by Total.
func (c Cost) Compare(d Cost) int {
	if c.Unplaced != d.Unplaced {
		return cmp.Compare(c.Unplaced, d.Unplaced)
	}
	return cmp.Compare(c.Total, d.Total)
}

// Less says whether c is better than d.
func (c Cost) Less(d Cost) bool { return c.Compare(d) < 0 }

// weigh fills in Total.
func (c *Cost) weigh(w Weights) {
	c.Total = w.Late*c.Late + w.Setup*c.Setup + w.Wait*c.Wait + w.Bench*c.Bench + w.Makespan*c.Makespan
}

// Plan is an order with its times.
type Plan struct {
	Tasks    [][]Task   // by machine, in sequence
	Builds   []Build    // by start, then by set
	Unplaced []Unplaced // jobs of the order that could not be done, by job
	Cost     Cost
	Wishes   []Wish // by which it differs from what the rules of [Decode] make of its order
}

// Task is a job with its times.
type Task struct {
	Job                          int
	SetupStart, RunStart, RunEnd Time
	Base, Guides, Loads          Time    // working seconds: Problem.Setup; guide moves; sets brought to a full rack
	Brought                      []int   // sets brought to the machine's rack; nil when there are none
	Mounts                       []Mount // one a station of the machine, ascending by station
}

// Setup is the working seconds of the whole set-up.
func (t Task) Setup() Time {
	sum := t.Base + t.Guides + t.Loads
	for _, m := range t.Mounts {
		sum += m.Time
	}
	return sum
}

// Mount is what happens at one station for a task.
type Mount struct {
	Station int
	Mode    Mode
	Set     int   // the set that stands there while the job runs; -1 = none, where the job takes anything
	From    int   // pattern of that set before (what is stripped when Mode is InFolder); -1 without a set
	Time    Time  // working seconds of this station's tooling
	Guide   int64 // where the unit's guide stands
	Build   int   // index into Plan.Builds when Mode is Built; otherwise -1
	// Whether the set comes, and the guide goes, where a wish had it.
	Wished, GuideWished bool
}

// Build is a piece of bench work: Set becomes Pattern. A build to which no mount refers makes a set plain because the job
// needs its tools.
type Build struct {
	Set, From, Pattern int
	Job, Station       int // what it is for
	Person             int
	Start, End         Time
	Work               Time // working seconds
}

// Unplaced is a job without a place and why.
type Unplaced struct {
	Job int
	Why Reason
}

// Reason says why a job could not be placed.
type Reason uint8

const (
	NoTools  Reason = iota + 1 // at a station no set serves, and no build or fitting ever has the tools it needs
	NoTime                     // the working time of the machine ends before the job does
	Deadlock                   // it waits for a job that comes after it, on its own folder or by way of another
	Orphan                     // a job that must come before it has no place
)

func (r Reason) String() string {
	switch r {
	case NoTools:
		return "no tools"
	case NoTime:
		return "no working time left"
	case Deadlock:
		return "waits for a job that waits for it"
	case Orphan:
		return "a job before it has no place"
	}
	return "?"
}

// tidy puts builds and unplaced jobs in their order and lets the mounts follow.
func (p *Plan) tidy() {
	slices.SortFunc(p.Unplaced, func(a, b Unplaced) int { return a.Job - b.Job })
	from := make([]int, len(p.Builds))
	for i := range from {
		from[i] = i
	}
	slices.SortFunc(from, func(a, b int) int {
		x, y := &p.Builds[a], &p.Builds[b]
		return cmp.Or(cmp.Compare(x.Start, y.Start), cmp.Compare(x.Set, y.Set), cmp.Compare(x.End, y.End))
	})
	sorted, to := make([]Build, len(from)), make([]int, len(from))
	for i, was := range from {
		sorted[i], to[was] = p.Builds[was], i
	}
	p.Builds = sorted
	for _, row := range p.Tasks {
		for t := range row {
			for m := range row[t].Mounts {
				if mount := &row[t].Mounts[m]; mount.Build >= 0 {
					mount.Build = to[mount.Build]
				}
			}
		}
	}
}
