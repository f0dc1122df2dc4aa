package exchange

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/plan"
	"foldwright/internal/tooling"
)

// PlanDocument is a plan as JSON. Every duration inside is a whole number of seconds; minutes carry four decimals, so
// that sixty times a figure, rounded, is those seconds again and the figures add up exactly. Only cost_min, a sum of
// weighted parts, is finer.
type PlanDocument struct {
	Shop    string      `json:"shop"`
	From    time.Time   `json:"from"`
	Weights PlanWeights `json:"weights"`
	PlanDay
	MakereadyBoundMin float64      `json:"makeready_bound_min"`
	MakereadyGapMin   float64      `json:"makeready_gap_min"` // above the bound
	GivenOrder        PlanDay      `json:"given_order"`
	Moves             []PlanMove   `json:"moves"`
	Elsewhere         []PlanGain   `json:"elsewhere"` // make-ready that differs from the order given by no single move
	Kept              *PlanKept    `json:"kept,omitempty"`
	Percentile        int          `json:"percentile,omitempty"` // of 100 cases in which the minutes suffice; without it they are those in the middle
	Chances           *PlanChances `json:"chances,omitempty"`
	Search            PlanSearch   `json:"search"`
}

// PlanDay is an order worked out in full: the plan itself, or what the order given would come to.
type PlanDay struct {
	PlanFigures
	Folders  []PlanFolder   `json:"folders"`
	Bench    []PlanBuild    `json:"bench"`
	LateJobs []PlanLate     `json:"late_jobs"`
	Unplaced []PlanUnplaced `json:"unplaced"`
}

// PlanWeights are the prices of a minute of each part of the cost.
type PlanWeights struct {
	Late      float64 `json:"late"`
	Makeready float64 `json:"makeready"`
	Waiting   float64 `json:"waiting"`
	Bench     float64 `json:"bench"`
}

// PlanFigures are the cost and its parts: cost_min is the sum of late_min, makeready_min, waiting_min and bench_min, each
// times its weight. In late_min each job's lateness counts with the weight on its docket; late_plain_min leaves those out.
type PlanFigures struct {
	CostMin      float64   `json:"cost_min"`
	LateMin      float64   `json:"late_min"`
	MakereadyMin float64   `json:"makeready_min"`
	WaitingMin   float64   `json:"waiting_min"`
	BenchMin     float64   `json:"bench_min"`
	LatePlainMin float64   `json:"late_plain_min"`
	LateCount    int       `json:"late_count"`
	End          time.Time `json:"end"`
}

// PlanFolder is the lane of a folder.
type PlanFolder struct {
	Folder string     `json:"folder"`
	Tasks  []PlanTask `json:"tasks"`
}

// PlanTask is a job in its place.
type PlanTask struct {
	Job            string        `json:"job"`
	Title          string        `json:"title,omitempty"`
	MakereadyStart time.Time     `json:"makeready_start"`
	RunStart       time.Time     `json:"run_start"`
	RunEnd         time.Time     `json:"run_end"`
	MakereadyMin   float64       `json:"makeready_min"`
	RunMin         float64       `json:"run_min"`
	Sheets         int           `json:"sheets"`
	RatePerHour    int           `json:"rate_per_h"`
	Due            *time.Time    `json:"due,omitempty"`
	LateMin        float64       `json:"late_min"` // plain, without the weight
	Weight         int64         `json:"weight"`
	Lines          []PlanLine    `json:"lines"`
	Guides         []PlanGuide   `json:"guides"`
	Stations       []PlanStation `json:"stations"`
}

// PlanLine is a line of a changeover.
type PlanLine struct {
	What string  `json:"what"`
	Why  string  `json:"why,omitempty"`
	Min  float64 `json:"min"`
}

// PlanGuide is where the side guide of a unit stands, from the datum shoulder.
type PlanGuide struct {
	Unit  int     `json:"unit"`
	AtMM  float64 `json:"at_mm"`
	Later bool    `json:"for_later,omitempty"` // it goes there for the sake of later jobs
}

// PlanStation is how a station gets what it needs.
type PlanStation struct {
	Station string `json:"station"`
	Mode    string `json:"mode"`
	Set     string `json:"set"`
	Later   bool   `json:"for_later,omitempty"` // not the cheapest way for the job: chosen for the sake of later ones
}

// PlanBuild is a piece of bench work.
type PlanBuild struct {
	Set     string     `json:"set"`
	ForJob  string     `json:"for_job"`
	Folder  string     `json:"folder"`
	Station string     `json:"station"`
	Person  string     `json:"person"`
	From    []PlanTool `json:"from"`
	To      []PlanTool `json:"to"`
	Remove  int        `json:"remove"`
	Add     int        `json:"add"`
	Slide   int        `json:"slide"`
	Frees   bool       `json:"frees_tools"` // only stripped, so that its tools can be used elsewhere
	WorkMin float64    `json:"work_min"`
	Start   time.Time  `json:"start"`
	End     time.Time  `json:"end"`
}

// PlanTool is a tool at its place on the shaft.
type PlanTool struct {
	Kind string  `json:"kind"`
	Spec string  `json:"spec,omitempty"`
	AtMM float64 `json:"at_mm"`
}

// PlanLate is a job that ends after its due time.
type PlanLate struct {
	Job     string       `json:"job"`
	Folder  string       `json:"folder"`
	Due     time.Time    `json:"due"`
	End     time.Time    `json:"end"`
	LateMin float64      `json:"late_min"`
	Weight  int64        `json:"weight"`
	Rescues []PlanRescue `json:"rescues"` // what would bring it in on time; empty when nobody asked
}

// PlanRescue is a way to bring a late job in on time, all else being as it is; of the way "nothing" when none was found.
// What changes in the plan is above 0 when it grows.
type PlanRescue struct {
	Way           string     `json:"way"` // place, overtime, release, bench, nothing
	What          string     `json:"what"`
	Folder        string     `json:"folder"`
	Place         int        `json:"place"`
	End           time.Time  `json:"end"`
	LateMin       float64    `json:"late_min"`
	Overtime      []PlanSpan `json:"overtime,omitempty"`
	By            *time.Time `json:"by,omitempty"`
	Set           string     `json:"set,omitempty"`
	CostMin       float64    `json:"cost_change_min"`
	MakereadyMin  float64    `json:"makeready_change_min"`
	OthersLateMin float64    `json:"others_late_change_min"`
}

// PlanSpan is a time from and to.
type PlanSpan struct {
	From time.Time `json:"from"`
	To   time.Time `json:"to"`
}

// PlanUnplaced is a job in no task, with the reasons.
type PlanUnplaced struct {
	Job  string    `json:"job"`
	Whys []PlanWhy `json:"whys"`
}

// PlanWhy is why a folder cannot run a job; without a folder the reason holds for all.
type PlanWhy struct {
	Folder string `json:"folder,omitempty"`
	Why    string `json:"why"`
}

// PlanMove is a job that stands elsewhere than in the order given, and why. Its gains are all the make-ready that is put
// down to it, of the job itself and of those behind it: together with elsewhere they come to the difference of the two days.
type PlanMove struct {
	Job               string     `json:"job"`
	FromFolder        string     `json:"from_folder"`
	FromPlace         int        `json:"from_place"`
	ToFolder          string     `json:"to_folder"`
	ToPlace           int        `json:"to_place"`
	MakereadyGivenMin float64    `json:"makeready_given_min"`
	MakereadyMin      float64    `json:"makeready_min"`
	LateGivenMin      float64    `json:"late_given_min"`
	LateMin           float64    `json:"late_min"`
	Gains             []PlanGain `json:"gains"`
	Alone             bool       `json:"alone"`    // the job could go back with all else as it is
	PaysMin           float64    `json:"pays_min"` // then the plan would cost so much more
	Why               string     `json:"why"`
}

// PlanGain is a kind of line of make-ready, in the order given and now.
type PlanGain struct {
	What     string  `json:"what"`
	GivenMin float64 `json:"given_min"`
	Min      float64 `json:"min"`
}

// PlanKept tells what became of the near future when it was to be kept: how many jobs were near, which moved all the same,
// and what the best plan cost that was found without a price. The price decides only: cost_min does not contain it.
type PlanKept struct {
	Until    time.Time `json:"until"`
	PriceMin float64   `json:"price_min"` // of a job that moves
	Near     int       `json:"near"`
	Moved    []string  `json:"moved"`
	PaidMin  float64   `json:"paid_min"`
	FreeMin  float64   `json:"free_cost_min"`
}

// PlanSearch tells how the plan was found.
type PlanSearch struct {
	Seed       uint64  `json:"seed"`
	Iterations int     `json:"iterations"`
	Seconds    float64 `json:"seconds"`
	Restarts   int     `json:"restarts"`
}

// Plan gives a plan its JSON shape.
func Plan(p *plan.Plan) *PlanDocument {
	return &PlanDocument{
		Shop: p.Shop,
		From: p.From,
		Weights: PlanWeights{
			Late:      thousandths(p.Weights.Late),
			Makeready: thousandths(p.Weights.Makeready),
			Waiting:   thousandths(p.Weights.Waiting),
			Bench:     thousandths(p.Weights.Bench),
		},
		PlanDay:           planDay(p.Day),
		MakereadyBoundMin: inMinutes(p.Bound),
		MakereadyGapMin:   inMinutes(p.Figures.Makeready - p.Bound),
		GivenOrder:        planDay(p.Given),
		Moves:             each(p.Moves, planMove),
		Elsewhere:         each(p.Elsewhere, planGain),
		Kept:              planKept(p.Kept),
		Percentile:        p.Percentile,
		Chances:           Chances(p.Chances),
		Search: PlanSearch{
			Seed:       p.Search.Seed,
			Iterations: p.Search.Iterations,
			Seconds:    math.Round(p.Search.Took.Seconds()*1000) / 1000,
			Restarts:   p.Search.Restarts,
		},
	}
}

// ReadPlan reads a plan's JSON back. Fields it does not know are refused, so that a reader never overlooks a figure.
func ReadPlan(data []byte) (*PlanDocument, error) {
	var doc PlanDocument
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&doc); err != nil {
		return nil, fmt.Errorf("reading a plan: %w", err)
	}
	return &doc, nil
}

func planDay(d plan.Day) PlanDay {
	return PlanDay{
		PlanFigures: planFigures(d.Figures),
		Folders:     each(d.Folders, planFolder),
		Bench:       each(d.Bench, planBuild),
		LateJobs:    each(d.Late, planLate),
		Unplaced:    each(d.Unplaced, planUnplaced),
	}
}

func planFigures(f plan.Figures) PlanFigures {
	return PlanFigures{
		CostMin:      inMinutes(f.Cost),
		LateMin:      inMinutes(f.Late),
		MakereadyMin: inMinutes(f.Makeready),
		WaitingMin:   inMinutes(f.Waiting),
		BenchMin:     inMinutes(f.Bench),
		LatePlainMin: inMinutes(f.LatePlain),
		LateCount:    f.LateJobs,
		End:          f.End,
	}
}

func planFolder(f plan.Folder) PlanFolder {
	return PlanFolder{f.Name, each(f.Tasks, planTask)}
}

func planTask(t plan.Task) PlanTask {
	out := PlanTask{
		Job:            t.Job,
		Title:          t.Title,
		MakereadyStart: t.MakereadyStart,
		RunStart:       t.RunStart,
		RunEnd:         t.RunEnd,
		MakereadyMin:   inMinutes(t.Makeready),
		RunMin:         inMinutes(t.Run),
		Sheets:         t.Sheets,
		RatePerHour:    t.RatePerHour,
		LateMin:        inMinutes(t.Late),
		Weight:         t.Weight,
		Lines:          each(t.Lines, planLine),
		Guides:         each(t.Guides, planGuide),
		Stations:       each(t.Stations, planStation),
	}
	if !t.Due.IsZero() {
		out.Due = &t.Due
	}
	return out
}

func planLine(l changeover.Line) PlanLine {
	return PlanLine{l.What.String(), l.Why.String(), inMinutes(l.Time)}
}

func planGuide(g plan.Guide) PlanGuide { return PlanGuide{g.Unit, g.At.MM(), g.Later} }

func planStation(s plan.Station) PlanStation {
	return PlanStation{s.Station, string(s.Mode), s.Set, s.Later}
}

func planBuild(b plan.Build) PlanBuild {
	return PlanBuild{
		Set:     b.Set,
		ForJob:  b.Job,
		Folder:  b.Folder,
		Station: b.Station,
		Person:  b.Person,
		From:    each(b.From, planTool),
		To:      each(b.To, planTool),
		Remove:  b.Remove,
		Add:     b.Add,
		Slide:   b.Slide,
		Frees:   b.Frees,
		WorkMin: inMinutes(b.Work),
		Start:   b.Start,
		End:     b.End,
	}
}

func planTool(t tooling.Tool) PlanTool { return PlanTool{string(t.Kind), t.Spec, t.At.MM()} }

func planLate(l plan.Late) PlanLate {
	return PlanLate{l.Job, l.Folder, l.Due, l.End, inMinutes(l.Late), l.Weight, each(l.Rescues, PlanRescueOf)}
}

// PlanRescueOf gives a rescue its JSON shape.
func PlanRescueOf(r plan.Rescue) PlanRescue {
	out := PlanRescue{
		Way: string(r.Way), What: r.Text.String(), Folder: r.Folder, Place: r.Place, End: r.End, LateMin: inMinutes(r.Late),
		Set: r.Set, CostMin: inMinutes(r.Cost), MakereadyMin: inMinutes(r.Makeready), OthersLateMin: inMinutes(r.OthersLate),
	}
	for _, s := range r.Working {
		out.Overtime = append(out.Overtime, PlanSpan(s))
	}
	if !r.By.IsZero() {
		out.By = &r.By
	}
	return out
}

func planUnplaced(u plan.Unplaced) PlanUnplaced {
	return PlanUnplaced{u.Job, each(u.Whys, func(w plan.Why) PlanWhy { return PlanWhy{w.Folder, w.Text.String()} })}
}

func planMove(m plan.Move) PlanMove {
	return PlanMove{
		Job:               m.Job,
		FromFolder:        m.FromFolder,
		FromPlace:         m.FromPlace,
		ToFolder:          m.ToFolder,
		ToPlace:           m.ToPlace,
		MakereadyGivenMin: inMinutes(m.MakereadyGiven),
		MakereadyMin:      inMinutes(m.Makeready),
		LateGivenMin:      inMinutes(m.LateGiven),
		LateMin:           inMinutes(m.Late),
		Gains:             each(m.Gains, planGain),
		Alone:             m.Alone,
		PaysMin:           inMinutes(m.Pays),
		Why:               m.Why.String(),
	}
}

func planKept(k *plan.Kept) *PlanKept {
	if k == nil {
		return nil
	}
	return &PlanKept{k.Until, inMinutes(k.Price), k.Near, each(k.Moved, itself), inMinutes(k.Paid), inMinutes(k.Free)}
}

func itself(s string) string { return s }

func planGain(g plan.Gain) PlanGain {
	return PlanGain{g.What.String(), inMinutes(g.Given), inMinutes(g.Now)}
}

// inMinutes is a duration in minutes to four decimals.
func inMinutes(d time.Duration) float64 {
	return math.Round(float64(d)/float64(time.Minute)*1e4) / 1e4
}

// thousandths is a number of thousandths.
func thousandths(n int64) float64 { return float64(n) / 1000 }

// each turns every element of a list; an empty list stays a list, so that JSON shows [] and never null.
func each[T, U any](list []T, turn func(T) U) []U {
	out := make([]U, len(list))
	for i, v := range list {
		out[i] = turn(v)
	}
	return out
}
