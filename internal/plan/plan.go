// Package plan makes the plan of the day: which folder runs which jobs in which order, how every station gets its tools,
// and what the bench builds when.
//
// It translates twice. On the way in, a shop becomes a [schedule.Problem]: whole seconds from the plan's start, set-up
// matrices, patterns, sets, guide windows. On the way out, the answer becomes jobs, sets, wall-clock times and the lines
// that explain each changeover. The search itself knows no paper and lives in package schedule.
//
// What [Make] guarantees: the plan leaves no more jobs without a place than the order given, and with as few it never costs
// more; every job of the shop is either in a task or among the unplaced with the reason; the lines of a task add up to its
// make-ready to the second; the same shop, start, seed and number of iterations give the same plan on every machine. It
// reads no clock: a limit of time comes through the context, and the caller notes how long it took.
//
// [Prepare] does the translation once; [Prepared.Evaluate] works out an order made by hand, [Prepared.Search] looks for a
// better one, [Prepared.Follow] takes a plan in force for the order given, [Prepared.At] plans with minutes that mostly
// suffice, [Prepared.Rescues] and [Prepared.Chances] tell what would help a late job and how likely the plan holds. Why it is
// so stands in decision 007.
//
// Cost: one [settings.Ways] for every job on every folder, one changeover for every pair of jobs a folder, one match for
// every pair of patterns a class; then as long as the search is allowed.
package plan

import (
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/settings"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// Plan is the plan of the day beside the order given.
type Plan struct {
	Shop       string
	From       time.Time
	Zone       *time.Location
	Inch       bool // the shop thinks in inches
	Weights    Weights
	Day                      // what to do
	Given      Day           // what the order given would come to
	Bound      time.Duration // no order needs less make-ready than this; 0 when a job found no place
	Moves      []Move
	Elsewhere  []Gain   // make-ready that differs from the order given by no single move
	Percentile int      // of 100 cases in which the minutes suffice; 0: they are those in the middle
	Chances    *Chances // how likely the plan holds, when that was asked
	Kept       *Kept    // what became of the near future, when it was to be kept
	Search     Search
	order      Order
}

// Order is the order that the plan follows, the jobs that found no place included.
func (pl *Plan) Order() Order { return pl.order.Clone() }

// Day is an order worked out in full: who runs what when, with its cost.
type Day struct {
	Figures  Figures
	Folders  []Folder // in the order of the shop
	Bench    []Build  // by start
	Late     []Late   // latest first
	Unplaced []Unplaced
}

// Weights are the prices of the parts of the cost, in thousandths: 1000 makes a minute of it cost a minute.
type Weights struct{ Late, Makeready, Waiting, Bench int64 }

// Figures are the cost and its parts.
type Figures struct {
	Cost      time.Duration // the parts, each times its weight
	Late      time.Duration // each job's lateness times the weight on its docket
	LatePlain time.Duration // lateness without those weights
	LateJobs  int
	Makeready time.Duration
	Waiting   time.Duration // working time folders with jobs stand idle, from the plan's start to their last run
	Bench     time.Duration // working time of bench builds
	End       time.Time     // when the last run ends
}

// Folder is the lane of one folder.
type Folder struct {
	Name  string
	Tasks []Task
}

// Task is a job in its place in the plan.
type Task struct {
	Job            string
	Title          string
	MakereadyStart time.Time
	RunStart       time.Time
	RunEnd         time.Time
	Makeready      time.Duration // working time; the sum of Lines
	Run            time.Duration // working time
	RatePerHour    int           // sheets an hour
	Sheets         int
	Due            time.Time
	Late           time.Duration
	Weight         int64
	Lines          []changeover.Line
	Guides         []Guide
	Stations       []Station
	Settings       *settings.Settings // with the guides where Guides says
	Before         *settings.Settings // what the folder is set for until then; nil when that is not known
}

// Guide is where the side guide of a unit stands while the job runs.
type Guide struct {
	Unit  int
	At    units.Length // from the datum shoulder
	Later bool         // it goes there for the sake of later jobs
}

// Station is how a station gets what it needs for a task.
type Station struct {
	Station string
	Mode    changeover.Mode
	Set     string // the set that stands there while the job runs; empty when no set stands there
	Later   bool   // not the cheapest way for the job: chosen for the sake of later ones
}

// Build is a piece of bench work: a set becomes the pattern of a job, to be swapped in; or it is stripped, to free tools
// that the job wants.
type Build struct {
	Set     string
	Job     string
	Folder  string
	Station string
	Person  string
	From    []tooling.Tool // on the set before
	To      []tooling.Tool // and after
	Remove  int            // tools taken off
	Add     int            // tools put on
	Slide   int            // tools moved along the shaft
	Frees   bool           // only stripped, so that its tools can be used elsewhere
	Work    time.Duration
	Start   time.Time
	End     time.Time
}

// Late is a job that ends after its due time.
type Late struct {
	Job, Folder string
	Due, End    time.Time
	Late        time.Duration
	Weight      int64
	Rescues     []Rescue // what would bring it in on time; filled by [Prepared.Rescue]
}

// Unplaced is a job that is in no task. When no folder can run it there is a reason for each; when one could, the reason
// why it did not come to run on the folder where the order had it.
type Unplaced struct {
	Job  string
	Whys []Why
}

// Why is why a folder does not take a job; Folder is empty when the reason holds for all of them.
type Why struct {
	Folder string
	Text   words.Text
}

// Move tells what became of a job that stands elsewhere than in the order given, and why that pays.
//
// The make-ready of a plan differs from that of the order given by what differs in its tasks. Every such difference is put
// down to one move: that of a job that moved to the job itself; that of a job that stayed to the one now in front of it, if
// that moved, else to the one that stood in front of it in the order given, if that moved. What is left, such as a set that
// has gone elsewhere meanwhile, is [Plan.Elsewhere]. So the gains of all moves and those come to exactly the difference.
type Move struct {
	Job                       string
	FromFolder, ToFolder      string
	FromPlace, ToPlace        int // on the folder, from 1
	MakereadyGiven, Makeready time.Duration
	LateGiven, Late           time.Duration
	Gains                     []Gain        // in the order of the lines of a make-ready
	Alone                     bool          // the job could go back where it stood in the order given with all else as it is
	Pays                      time.Duration // then the plan would cost so much more; not above 0 when it pays with other moves only
	Why                       words.Text
}

// Gain is one kind of line of the make-readies that a move changes, in the order given and now.
type Gain struct {
	What       words.Text
	Given, Now time.Duration
}

// Saves is how much less the line takes now.
func (g Gain) Saves() time.Duration { return g.Given - g.Now }

// Search tells how the plan was found.
type Search struct {
	Seed       uint64
	Iterations int
	Restarts   int
	Took       time.Duration // noted by the caller, who has the clock
}
