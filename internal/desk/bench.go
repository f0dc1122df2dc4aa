package desk

import (
	"context"
	"fmt"
	"strings"
	"time"

	"foldwright/internal/fault"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
)

// Build is the work that makes of a set what a job wants at a station.
type Build struct {
	Shop            *shop.Shop
	Set             *tooling.Set
	Place           tooling.Place // of the set when the work begins
	Job             string
	Folder, Station string    // where it goes
	By              time.Time // when the make-ready starts that waits for it; zero when nothing does
	Frees           bool      // only stripped, so that its tools can be used elsewhere
	Work            time.Duration
	Have, Want      []tooling.Tool
	Steps           []tooling.Change // in the order of the hands
}

// Builds answers what the bench does for a planned day, by start.
func (d *Desk) Builds(ctx context.Context, p *plan.Plan) ([]*Build, error) {
	s, err := d.Shop(ctx)
	if err != nil {
		return nil, err
	}
	list := make([]*Build, len(p.Bench))
	for i, b := range p.Bench {
		set, _ := s.Set(b.Set)
		list[i] = &Build{
			Shop: s, Set: set, Place: placeAt(p, set, b.Start), Job: b.Job, Folder: b.Folder, Station: b.Station,
			By: startOf(p, b.Job), Frees: b.Frees, Work: b.Work, Have: b.From, Want: b.To,
		}
		list[i].steps()
	}
	return list, nil
}

// Build answers how a set becomes what a job wants: on a folder, at a station of the set's class. When no folder is named
// it is the best one, when no station is named the first that wants tools of that class.
func (d *Desk) Build(ctx context.Context, label, name, folder, station string) (*Build, error) {
	s, err := d.Shop(ctx)
	if err != nil {
		return nil, err
	}
	set, ok := s.Set(label)
	if !ok {
		return nil, unknown("set", label, s.SetLabels())
	}
	answers, err := d.Settings(ctx, name, folder)
	if err != nil {
		return nil, err
	}
	best := answers[0]
	b := &Build{Shop: s, Set: set, Place: set.Place, Job: best.Job.Name, Folder: best.Folder.Name, Have: set.Tools}
	var others []string
	for _, u := range best.Settings.Units {
		for _, st := range u.Stations {
			switch {
			case len(st.Tools) == 0 || station != "" && st.Name != station:
			case st.Class != set.Class:
				others = append(others, fmt.Sprintf("%s takes %s", st.Name, st.Class))
			case b.Station == "":
				b.Station, b.Want = st.Name, st.Pattern().Tools
			}
		}
	}
	if b.Station == "" {
		return nil, noStation(best, set, others)
	}
	b.Work = s.Standards.OnBench(set.Pattern(), tooling.Pattern{Class: set.Class, Tools: b.Want}, 0)
	b.steps()
	return b, nil
}

// noStation is the fault of a set that the job has no use for.
func noStation(a Answer, set *tooling.Set, others []string) error {
	right := "the job wants no tools there"
	if len(others) > 0 {
		right = strings.Join(others, ", ")
	}
	return fault.Fault{
		Kind: fault.No, Code: "no-station", Field: "set " + set.Label, Right: right,
		Wrong: fmt.Sprintf("job %s has no use on %s for shafts of class %s", a.Job.Name, a.Folder.Name, set.Class),
	}
}

// steps works out what hands do. Tools come to their very places: what is let pass now would add up from build to build.
func (b *Build) steps() {
	have, want := tooling.Pattern{Class: b.Set.Class, Tools: b.Have}, tooling.Pattern{Class: b.Set.Class, Tools: b.Want}
	b.Steps = tooling.InHands(tooling.Changes(have, want, b.Shop.Standards.AtBench.EditCost, 0, 0))
}

// startOf is when the make-ready of a job starts; zero when it found no place.
func startOf(p *plan.Plan, name string) time.Time {
	for _, lane := range p.Folders {
		for _, t := range lane.Tasks {
			if t.Job == name {
				return t.MakereadyStart
			}
		}
	}
	return time.Time{}
}

// placeAt is where a set is, or was last, at a moment of the plan.
func placeAt(p *plan.Plan, set *tooling.Set, moment time.Time) tooling.Place {
	place, since := set.Place, time.Time{}
	for _, lane := range p.Folders {
		for _, t := range lane.Tasks {
			for _, st := range t.Stations {
				if st.Set == set.Label && t.MakereadyStart.Before(moment) && t.MakereadyStart.After(since) {
					place, since = tooling.Place{Folder: lane.Name, Station: st.Station}, t.MakereadyStart
				}
			}
		}
	}
	return place
}
