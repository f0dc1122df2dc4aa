package desk

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/shop"
)

// Trial is what the shop would say to a docket.
type Trial struct {
	Shop    *shop.Shop // as it would be
	Job     *job.Job
	Faults  fault.List   // by the fields of the job
	Folded  *fold.Folded // nil when it cannot be folded at all
	Answers []Answer     // of every folder, best first; none as long as faults stand in the way
	No      error        // when no folder can
}

// Try answers what a docket would come to, without keeping it: what is wrong with it, how it folds, what every folder says
// to it. Was is the name of the job that it would take the place of; empty for a new one.
func (d *Desk) Try(ctx context.Context, was string, j job.Job) (*Trial, error) {
	s, err := d.Shop(ctx)
	if err != nil {
		return nil, err
	}
	with := *s
	at := len(s.Jobs)
	if was != "" {
		if at, err = waiting(s, was); err != nil {
			return nil, err
		}
	}
	with.Jobs = slices.Clone(s.Jobs)
	if at == len(s.Jobs) {
		with.Jobs = append(with.Jobs, j)
	}
	with.Jobs[at] = j
	t := &Trial{Shop: &with, Job: &with.Jobs[at]}
	t.Faults = faultsOf(&with, fmt.Sprintf("jobs[%d]", at))
	if folded, err := j.Scheme.Apply(j.Sheet); err == nil && !slices.ContainsFunc(t.Faults, onSheet) {
		t.Folded = folded
	}
	if t.Folded == nil || slices.ContainsFunc(t.Faults, inTheWay) {
		return t, nil
	}
	t.Answers, err = d.answers(ctx, &with, t.Job, "")
	if t.Answers != nil {
		t.No, err = err, nil
	}
	return t, err
}

// faultsOf lists what is wrong with one thing of a shop, by its own fields.
func faultsOf(s *shop.Shop, path string) fault.List {
	var list fault.List
	for _, f := range s.Check() {
		if field, ok := strings.CutPrefix(f.Field, path); ok && (field == "" || field[0] == '.') {
			f.Field = strings.TrimPrefix(field, ".")
			list.Add(f)
		}
	}
	return list
}

// onSheet tells faults after which there is nothing to draw.
func onSheet(f fault.Fault) bool { return f.Field == "sheet" || f.Field == "fold" }

// inTheWay tells faults after which no folder can be asked; names and times do not matter to a folder.
func inTheWay(f fault.Fault) bool {
	field, _, _ := strings.Cut(strings.ReplaceAll(f.Field, "[", "."), ".")
	switch field {
	case "name", "release", "due", "weight", "after", "given", "pin":
		return false
	}
	return true
}
