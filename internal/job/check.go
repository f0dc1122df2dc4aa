package job

import (
	"fmt"
	"slices"

	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// The codes of what can be wrong with a job; see docs/faults.md.
const (
	CodeName     fault.Code = "job-name"
	CodeSheet    fault.Code = "job-sheet"
	CodeStock    fault.Code = "job-stock"
	CodeQuantity fault.Code = "job-quantity"
	CodeTimes    fault.Code = "job-times"
	CodeOrder    fault.Code = "job-order"
	CodePin      fault.Code = "job-pin"
)

// Beyond these a docket holds a slip of the keyboard, not a job for a folder.
const (
	sheetMost    = 10 * units.Metre
	sheetLeast   = 10 * units.Millimetre
	grammageMost = 2000 * units.GramPerM2
	quantityMost = 1_000_000_000
	weightMost   = 1_000_000
)

// Check lists everything that is wrong with the job by itself; fields are named within the job ("sheet", "operations[1]").
// A release or a due time of zero means that the docket says none.
func (j *Job) Check() fault.List {
	var list fault.List
	if j.Name == "" {
		list.Add(wrong(CodeName, "name", "a job has no name", "give it a docket number or a short name"))
	}
	flat := j.checkSheet(&list)
	j.checkFigures(&list)
	j.checkOrder(&list)
	var folded *fold.Folded
	if flat {
		folded = j.checkScheme(&list)
	}
	j.checkOperations(folded, &list)
	return list
}

func wrong(code fault.Code, field, what, right string) fault.Fault {
	return fault.Fault{Kind: fault.Input, Code: code, Field: field, Wrong: what, Right: right}
}

// checkSheet tells whether there is a sheet to fold.
func (j *Job) checkSheet(list *fault.List) (flat bool) {
	flat = true
	for _, side := range []struct {
		name string
		is   units.Length
	}{{"long", j.Sheet.Length}, {"wide", j.Sheet.Width}} {
		if side.is < sheetLeast || side.is > sheetMost {
			flat = false
			list.Add(wrong(CodeSheet, "sheet", fmt.Sprintf("the sheet is %s mm %s", units.FormatMM(side.is), side.name),
				fmt.Sprintf("between %s and %s mm", units.FormatMM(sheetLeast), units.FormatMM(sheetMost))))
		}
	}
	if g := j.Stock.Grammage; g <= 0 || g > grammageMost {
		list.Add(wrong(CodeStock, "stock", fmt.Sprintf("the stock weighs %g g/m²", g.G()),
			fmt.Sprintf("more than 0 and at most %g g/m²", grammageMost.G())))
	}
	return flat
}

func (j *Job) checkFigures(list *fault.List) {
	if j.Sheets < 1 || j.Sheets > quantityMost {
		list.Add(wrong(CodeQuantity, "sheets", fmt.Sprintf("%d sheets", j.Sheets), fmt.Sprintf("from 1 to %d sheets", quantityMost)))
	}
	if j.RateMax < 0 {
		list.Add(wrong(CodeQuantity, "rate", fmt.Sprintf("at most %d sheets an hour", j.RateMax), "a rate above 0, or none"))
	}
	if j.Weight < 0 || j.Weight > weightMost {
		list.Add(wrong(CodeQuantity, "weight", fmt.Sprintf("a minute late weighs %d", j.Weight), fmt.Sprintf("from 0 to %d; 1 is usual", weightMost)))
	}
	if !j.Release.IsZero() && !j.Due.IsZero() && !j.Due.After(j.Release) {
		const clock = "2006-01-02 15:04"
		list.Add(wrong(CodeTimes, "due", fmt.Sprintf("due %s, which is not after its release %s", j.Due.Format(clock), j.Release.Format(clock)),
			"a due time after the release"))
	}
}

func (j *Job) checkOrder(list *fault.List) {
	seen := map[string]bool{}
	for i, name := range j.After {
		field := fmt.Sprintf("after[%d]", i)
		switch {
		case name == j.Name:
			list.Add(wrong(CodeOrder, field, "the job waits for itself", "name another job"))
		case seen[name]:
			list.Add(wrong(CodeOrder, field, fmt.Sprintf("%q is named twice", name), "name each job once"))
		}
		seen[name] = true
	}
	if j.Pin.Position < 0 {
		list.Add(wrong(CodePin, "pin.position", fmt.Sprintf("position %d", j.Pin.Position), "1 for first on the folder, or none"))
	}
	if j.Pin.Folder == "" && (j.Pin.Position > 0 || j.Pin.Started) {
		list.Add(wrong(CodePin, "pin.folder", "the job is held in its place, but on no folder", "name the folder"))
	}
}

// checkScheme folds the sheet; nil when it cannot be folded.
func (j *Job) checkScheme(list *fault.List) *fold.Folded {
	folded, err := j.Scheme.Apply(j.Sheet)
	if err == nil {
		return folded
	}
	for _, f := range fault.All(err) {
		if f.Field == "" {
			f.Field = "fold"
		}
		list.Add(f)
	}
	return nil
}

// checkOperations holds the operations to the sheet, and to what comes out of it when it can be folded.
func (j *Job) checkOperations(folded *fold.Folded, list *fault.List) {
	for i, op := range j.Operations {
		field := fmt.Sprintf("operations[%d]", i)
		if what, right := op.fault(j.Sheet, j.Scheme.Folds(), folded); what != "" {
			list.Add(wrong(CodeOperation, field, fmt.Sprintf("%s: %s", op, what), right))
		}
		if k := slices.Index(j.Operations[:i], op); k >= 0 {
			list.Add(wrong(CodeOperation, field, fmt.Sprintf("%s: wanted twice, the first time as operations[%d]", op, k), "name it once"))
		}
	}
}

// fault says what is wrong with an operation and what would be right; folded is nil when the sheet cannot be folded.
func (o Operation) fault(sheet fold.Sheet, folds int, folded *fold.Folded) (what, right string) {
	if _, known := verbs[o.Kind]; !known {
		return fmt.Sprintf("%q is no kind of tool", string(o.Kind)), "slit, strip, perforate or score"
	}
	switch o.Target {
	case OnFold:
		return o.foldFault(folds)
	case OnLine:
		return o.lineFault(sheet)
	case OnEdge:
		return o.edgeFault(folded)
	}
	return "it has no place", "a fold, a line of the sheet, or an edge of the finished piece"
}

func (o Operation) foldFault(folds int) (what, right string) {
	switch {
	case o.Separates():
		return "a fold line is not slit: the piece would come apart before it is folded", "slit at a place of the flat sheet"
	case folds == 0:
		return "the scheme has no folds", "a line of the sheet, such as " + `"at t 100 mm"`
	case o.Fold < 1 || o.Fold > folds:
		return fmt.Sprintf("there is no fold %d", o.Fold), fmt.Sprintf("fold 1 to %d", folds)
	}
	return "", ""
}

func (o Operation) lineFault(sheet fold.Sheet) (what, right string) {
	extent := sheet.Length
	if o.Axis == fold.T {
		extent = sheet.Width
	}
	if extent <= 0 {
		return "", "" // told already, at the sheet
	}
	if o.At <= 0 || o.At >= extent {
		return fmt.Sprintf("the sheet has no line %s = %s mm", AxisName(o.Axis), units.FormatMM(o.At)),
			fmt.Sprintf("more than 0 and less than %s mm", units.FormatMM(extent))
	}
	if o.Ups < 0 || o.Ups > 2 {
		return fmt.Sprintf("one line does not cut %d parts", o.Ups), "two-up, or one-up when waste falls off; one slit for each further line"
	}
	if o.Kind != tooling.Strip || o.Spec == "" {
		return "", ""
	}
	width, err := units.ParseLength(o.Spec, units.Millimetre)
	if err != nil || width <= 0 {
		return fmt.Sprintf("%q is no width of a strip", o.Spec), `a length such as "6 mm"`
	}
	if o.At-width/2 <= 0 || o.At+width/2 >= extent {
		return fmt.Sprintf("the strip of %s mm reaches over the edge of the sheet", units.FormatMM(width)), "a strip inside the sheet"
	}
	return "", ""
}

func (o Operation) edgeFault(folded *fold.Folded) (what, right string) {
	if o.Kind != tooling.Slit {
		return "an edge is only trimmed", "a trim"
	}
	if o.Edge != Head && o.Edge != Foot && o.Edge != Front {
		return fmt.Sprintf("there is no edge %q", string(o.Edge)), "head, foot or front"
	}
	if folded == nil {
		return "", "" // told already, at the scheme
	}
	extent := folded.Finished().Width
	if o.Edge == Front {
		extent = folded.Finished().Length
	}
	if o.At <= 0 || o.At >= extent {
		return "the cut does not lie inside the finished piece", fmt.Sprintf("more than 0 and less than %s mm", units.FormatMM(extent))
	}
	return "", ""
}
