package plan

import (
	"fmt"
	"slices"

	"foldwright/internal/fault"
)

// The codes of what can be wrong with an order.
const (
	CodeOrderName  fault.Code = "order-name"  // a folder or a job that the shop does not have, or has done
	CodeOrderTwice fault.Code = "order-twice" // a folder or a job that stands there twice
	CodeOrderRun   fault.Code = "order-run"   // a job on a folder that cannot run it
	CodeOrderFixed fault.Code = "order-fixed" // a job that has started, or is pinned to its place, elsewhere
	CodeOrderPlace fault.Code = "order-place" // a place that the lane does not have
)

// Order says which folder runs which jobs after which: a lane a folder, in the order of the shop.
type Order []Lane

// Lane is the jobs of one folder, the first first, and what was chosen for them on it.
type Lane struct {
	Folder  string
	Jobs    []string
	Choices []Choice
}

// Clone returns a copy that shares nothing.
func (o Order) Clone() Order {
	out := slices.Clone(o)
	for i := range out {
		out[i].Jobs, out[i].Choices = slices.Clone(o[i].Jobs), slices.Clone(o[i].Choices)
	}
	return out
}

// Move returns a copy with the job at a place of a folder, counted from 1 without the job itself; the jobs from there on
// make room. A job that stands nowhere in the order is put in. Whether the folder can run the job is for
// [Prepared.Evaluate] to say.
func (o Order) Move(job, folder string, place int) (Order, error) {
	out := o.Clone()
	for i := range out {
		out[i].Jobs = slices.DeleteFunc(out[i].Jobs, func(name string) bool { return name == job })
	}
	to := slices.IndexFunc(out, func(l Lane) bool { return l.Folder == folder })
	if to < 0 {
		return nil, fault.Fault{
			Kind: fault.Missing, Code: CodeOrderName, Field: "folder",
			Wrong: fmt.Sprintf("the order has no folder %q", folder), Right: "name a folder of the shop",
		}
	}
	if last := len(out[to].Jobs) + 1; place < 1 || place > last {
		return nil, fault.Fault{
			Code: CodeOrderPlace, Field: "place",
			Wrong: fmt.Sprintf("%s has no place %d", folder, place), Right: fmt.Sprintf("a place from 1 to %d", last),
		}
	}
	out[to].Jobs = slices.Insert(out[to].Jobs, place-1, job)
	return out, nil
}

// Find returns the folder and the place, from 1, at which a job stands; place 0 when it stands nowhere.
func (o Order) Find(job string) (folder string, place int) {
	for _, lane := range o {
		if i := slices.Index(lane.Jobs, job); i >= 0 {
			return lane.Folder, i + 1
		}
	}
	return "", 0
}
