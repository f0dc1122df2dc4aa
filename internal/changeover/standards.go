package changeover

import (
	"fmt"
	"time"

	"foldwright/internal/fault"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// CodeStandard is the code of a standard minute that cannot be.
const CodeStandard fault.Code = "standard-minutes"

// Standards are the shop's standard minutes, whole seconds each. [Standards.Fields] names them one by one.
type Standards struct {
	Docket time.Duration // every job, also a repeat of the same settings

	Sheet, Stock           time.Duration // when the sheet's size, when its thickness changes
	Couple, Uncouple, Turn time.Duration // each unit
	Stop, Deflector        time.Duration // each stop, each plate opened or closed
	Gap                    time.Duration // each nip
	Trial, TrialFold       time.Duration // after any such change; and for each fold of the job

	Guide            time.Duration // each side guide moved
	Shaft, ExitShaft time.Duration // each shaft of a set, each exit shaft, out and in
	AtFolder         Fitting       // tools changed at the machine
	AtBench          Fitting       // tools changed on the bench
}

// Fitting is what changing the tools of a pair of shafts takes in one place: Start once, the rest for each tool.
type Fitting struct {
	Start time.Duration
	tooling.EditCost
}

// Default gives the minutes that hold until the shop measures its own. All are common practice, no source; together they
// keep to the ranges known in the trade: stops and deflectors of a folder 2–6 min by hand, gaps 2–5, a right-angle unit
// 5–10, trial sheets 5–15, swapping a preset pair a couple of minutes (plus the way to the shafts), fitting a pattern
// from scratch 10–15 and up to 20 when complicated, a whole make-ready 20–60.
func Default() Standards {
	return Standards{
		Docket:    4 * time.Minute,
		Sheet:     4 * time.Minute,
		Stock:     3 * time.Minute,
		Couple:    6 * time.Minute,
		Uncouple:  3 * time.Minute,
		Turn:      4 * time.Minute,
		Stop:      45 * time.Second,
		Deflector: 30 * time.Second,
		Gap:       30 * time.Second,
		Trial:     4 * time.Minute,
		TrialFold: time.Minute,
		Guide:     time.Minute,
		Shaft:     time.Minute,
		ExitShaft: 90 * time.Second,
		AtFolder:  Fitting{4 * time.Minute, tooling.EditCost{Remove: time.Minute, Add: 3 * time.Minute, Slide: 2 * time.Minute}},
		AtBench:   Fitting{3 * time.Minute, tooling.EditCost{Remove: time.Minute, Add: 150 * time.Second, Slide: 90 * time.Second}},
	}
}

// Field is one standard with its name in the shop file and what it stands for.
type Field struct {
	Name, What string
	Value      *time.Duration
}

// Fields lists every standard of s in the order of the struct, so that readers, writers and schemas never miss one.
func (s *Standards) Fields() []Field {
	return []Field{
		{"docket", "each job: docket read, pile fetched, counter and delivery set", &s.Docket},
		{"sheet", "another sheet size: pile guides, side lay, air", &s.Sheet},
		{"stock", "another thickness: separation, air, double-sheet control", &s.Stock},
		{"couple", "each unit brought into use, squared and timed", &s.Couple},
		{"uncouple", "each unit taken out of use", &s.Uncouple},
		{"turn", "each unit that the stack enters another way than before", &s.Turn},
		{"stop", "each plate stop or knife stop moved", &s.Stop},
		{"deflector", "each plate opened or closed", &s.Deflector},
		{"gap", "each nip set to another thickness", &s.Gap},
		{"trial", "trial sheets and checks after anything above but the docket", &s.Trial},
		{"trial_fold", "the same, more for each fold of the job", &s.TrialFold},
		{"guide", "each side guide moved", &s.Guide},
		{"shaft", "each shaft of a set taken out or, in its place, put in: a pair is two", &s.Shaft},
		{"exit_shaft", "each exit shaft out of the way and back", &s.ExitShaft},
		{"folder_start", "tools changed at the machine: measured, checked, turned by hand", &s.AtFolder.Start},
		{"folder_remove", "each tool taken off at the machine", &s.AtFolder.Remove},
		{"folder_add", "each tool fitted at the machine", &s.AtFolder.Add},
		{"folder_slide", "each tool slid to another place at the machine", &s.AtFolder.Slide},
		{"bench_start", "a set built on the bench: fetched, checked, labelled", &s.AtBench.Start},
		{"bench_remove", "each tool taken off on the bench", &s.AtBench.Remove},
		{"bench_add", "each tool fitted on the bench", &s.AtBench.Add},
		{"bench_slide", "each tool slid to another place on the bench", &s.AtBench.Slide},
	}
}

// Most is the longest that a standard may be: more is a slip of the pen.
const Most = 4 * time.Hour

// Check lists the standards that cannot be, each by its name as field.
func (s Standards) Check() fault.List {
	var list fault.List
	for _, f := range s.Fields() {
		if v := *f.Value; v < 0 || v > Most || v%time.Second != 0 {
			list.Add(fault.Fault{
				Code: CodeStandard, Field: f.Name, Wrong: units.FormatMinutes(v) + " for " + f.What,
				Right: "whole seconds, 0 to " + units.FormatMinutes(Most),
			})
		}
	}
	s.order(&list)
	return list
}

// order lists the standards that contradict others: what is part of another piece of work takes no longer than it.
func (s Standards) order(list *fault.List) {
	atMost := func(field, what string, t time.Duration, other string, most time.Duration) {
		if t > most {
			list.Add(fault.Fault{
				Code: CodeStandard, Field: field,
				Wrong: fmt.Sprintf("%s takes %s, %s only %s", what, units.FormatMinutes(t), other, units.FormatMinutes(most)),
				Right: "at most " + units.FormatMinutes(most),
			})
		}
	}
	atMost("turn", "turning the way into a unit", s.Turn, "coupling it", s.Couple)
	for _, f := range []struct {
		name string
		Fitting
	}{{"folder_slide", s.AtFolder}, {"bench_slide", s.AtBench}} {
		atMost(f.name, "sliding a tool", f.Slide, "taking it off and fitting it", f.Remove+f.Add)
	}
}
