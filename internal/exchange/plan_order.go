package exchange

import (
	"math"

	"foldwright/internal/changeover"
	"foldwright/internal/job"
	"foldwright/internal/plan"
	"foldwright/internal/units"
)

// Order is the order that a plan follows, with what was chosen for the sake of later jobs, to be followed again.
func (d *PlanDocument) Order() plan.Order {
	out := make(plan.Order, len(d.Folders))
	for i, f := range d.Folders {
		out[i].Folder = f.Folder
		for n := range f.Tasks {
			t := &f.Tasks[n]
			out[i].Jobs = append(out[i].Jobs, t.Job)
			out[i].Choices = append(out[i].Choices, t.choices()...)
		}
	}
	return out
}

func (t *PlanTask) choices() []plan.Choice {
	var out []plan.Choice
	for _, s := range t.Stations {
		if !s.Later {
			continue
		}
		c := job.Choice{Station: s.Station, Way: job.Way(s.Mode), Set: s.Set}
		if s.Mode == string(changeover.Plain) { // a swap, seen from what stands there then
			c.Way = job.Swap
		}
		out = append(out, plan.Choice{Job: t.Job, Choice: c})
	}
	for _, g := range t.Guides {
		if g.Later {
			at := units.Length(math.Round(g.AtMM * float64(units.Millimetre)))
			out = append(out, plan.Choice{Job: t.Job, Choice: job.Choice{Unit: g.Unit, Guide: at}})
		}
	}
	return out
}
