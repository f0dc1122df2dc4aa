package job

import (
	"strings"
	"testing"
	"time"

	"foldwright/internal/fold"
	"foldwright/internal/paper"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// sound is a job with nothing wrong.
func sound(t *testing.T) *Job {
	t.Helper()
	scheme, err := fold.Parse("up 1/2, left, up 1/2, left, up 1/2")
	if err != nil {
		t.Fatal(err)
	}
	monday := time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)
	return &Job{
		Name: "4711", Sheet: fold.Sheet{Length: 860 * mm, Width: 610 * mm}, Stock: paper.Stock{Grammage: 80 * units.GramPerM2},
		Scheme: scheme, Sheets: 12000, Weight: 1, Release: monday, Due: monday.Add(8 * time.Hour),
		Operations: []Operation{
			{Kind: tooling.Perforate, Target: OnFold, Fold: 2},
			{Kind: tooling.Strip, Spec: "6 mm", Target: OnLine, Axis: fold.T, At: 305 * mm},
			{Kind: tooling.Slit, Target: OnEdge, Edge: Foot, At: 3 * mm},
		},
		After: []string{"4710"}, Pin: Pin{Folder: "alder", Position: 1},
	}
}

func TestCheckFindsNothingWrong(t *testing.T) {
	if list := sound(t).Check(); list != nil {
		t.Error(list)
	}
}

func TestCheck(t *testing.T) {
	op := func(o Operation) func(*Job) { return func(j *Job) { j.Operations = []Operation{o} } }
	for name, c := range map[string]struct {
		spoil func(j *Job)
		want  string
	}{
		"no name":         {func(j *Job) { j.Name = "" }, "name: a job has no name; give it a docket number or a short name [job-name]"},
		"sheet too long":  {func(j *Job) { j.Sheet.Length = 86 * units.Metre }, "sheet: the sheet is 86000 mm long; between 10 and 10000 mm [job-sheet]"},
		"no stock":        {func(j *Job) { j.Stock.Grammage = 0 }, "stock: the stock weighs 0 g/m²; more than 0 and at most 2000 g/m² [job-stock]"},
		"no sheets":       {func(j *Job) { j.Sheets = 0 }, "sheets: 0 sheets; from 1 to 1000000000 sheets [job-quantity]"},
		"rate below zero": {func(j *Job) { j.RateMax = -1 }, "rate: at most -1 sheets an hour; a rate above 0, or none [job-quantity]"},
		"weight":          {func(j *Job) { j.Weight = -2 }, "weight: a minute late weighs -2; from 0 to 1000000; 1 is usual [job-quantity]"},
		"due before release": {
			func(j *Job) { j.Due = j.Release.Add(-time.Hour) },
			"due: due 2026-03-02 05:00, which is not after its release 2026-03-02 06:00; a due time after the release [job-times]",
		},
		"waits for itself": {func(j *Job) { j.After = []string{"4711"} }, "after[0]: the job waits for itself; name another job [job-order]"},
		"waits twice":      {func(j *Job) { j.After = []string{"1", "1"} }, `after[1]: "1" is named twice; name each job once [job-order]`},
		"position":         {func(j *Job) { j.Pin.Position = -1 }, "pin.position: position -1; 1 for first on the folder, or none [job-pin]"},
		"pinned nowhere": {
			func(j *Job) { j.Pin.Folder = "" },
			"pin.folder: the job is held in its place, but on no folder; name the folder [job-pin]",
		},
		"no such fold": {op(Operation{Kind: tooling.Score, Target: OnFold, Fold: 4}), "operations[0]: score fold 4: there is no fold 4; fold 1 to 3 [operation]"},
		"fold slit": {
			op(Operation{Kind: tooling.Slit, Target: OnFold, Fold: 2}),
			"operations[0]: slit fold 2: a fold line is not slit: the piece would come apart before it is folded; slit at a place of the flat sheet [operation]",
		},
		"off the sheet": {
			op(Operation{Kind: tooling.Perforate, Target: OnLine, Axis: fold.T, At: 700 * mm}),
			"operations[0]: perforate at t 700 mm: the sheet has no line t = 700 mm; more than 0 and less than 610 mm [operation]",
		},
		"three-up": {
			op(Operation{Kind: tooling.Slit, Target: OnLine, Axis: fold.T, At: 200 * mm, Ups: 3}),
			"operations[0]: slit at t 200 mm: one line does not cut 3 parts; two-up, or one-up when waste falls off; one slit for each further line [operation]",
		},
		"strip over the edge": {
			op(Operation{Kind: tooling.Strip, Spec: "20 mm", Target: OnLine, Axis: fold.T, At: 10 * mm}),
			"operations[0]: slit at t 10 mm strip 20 mm: the strip of 20 mm reaches over the edge of the sheet; a strip inside the sheet [operation]",
		},
		"strip without width": {
			op(Operation{Kind: tooling.Strip, Spec: "wide", Target: OnLine, Axis: fold.T, At: 10 * mm}),
			`operations[0]: slit at t 10 mm strip wide: "wide" is no width of a strip; a length such as "6 mm" [operation]`,
		},
		"edge scored": {
			op(Operation{Kind: tooling.Score, Target: OnEdge, Edge: Head, At: 3 * mm}),
			"operations[0]: trim 3 mm at the head: an edge is only trimmed; a trim [operation]",
		},
		"no such edge": {
			op(Operation{Kind: tooling.Slit, Target: OnEdge, Edge: "spine", At: 3 * mm}),
			`operations[0]: trim 3 mm at the spine: there is no edge "spine"; head, foot or front [operation]`,
		},
		"trim too deep": {
			op(Operation{Kind: tooling.Slit, Target: OnEdge, Edge: Head, At: 305 * mm}),
			"operations[0]: trim 305 mm at the head: the cut does not lie inside the finished piece; more than 0 and less than 305 mm [operation]",
		},
		"no such tool": {
			op(Operation{Kind: "emboss", Target: OnFold, Fold: 1}),
			`operations[0]:  fold 1: "emboss" is no kind of tool; slit, strip, perforate or score [operation]`,
		},
		"no place": {
			op(Operation{Kind: tooling.Score}),
			"operations[0]: score at s 0 mm: it has no place; a fold, a line of the sheet, or an edge of the finished piece [operation]",
		},
		"wanted twice": {
			func(j *Job) { j.Operations = append(j.Operations, j.Operations[0]) },
			"operations[3]: perforate fold 2: wanted twice, the first time as operations[0]; name it once [operation]",
		},
	} {
		t.Run(name, func(t *testing.T) {
			j := sound(t)
			c.spoil(j)
			list := j.Check()
			if list.Error() != c.want {
				t.Errorf("got\n%s\nwant\n%s", list.Error(), c.want)
			}
		})
	}
}

// Checking goes on after the first fault, and a sheet that is no sheet is not folded.
func TestCheckTellsEveryFault(t *testing.T) {
	j := sound(t)
	j.Name, j.Sheet.Length = "", 0
	j.Operations = append(j.Operations, Operation{Kind: tooling.Score, Target: OnFold, Fold: 9})
	list := j.Check()
	var fields []string
	for _, f := range list {
		fields = append(fields, f.Field)
		if f.Right == "" || f.Code == "" {
			t.Errorf("%v does not say what would be right", f)
		}
	}
	if got := strings.Join(fields, " "); got != "name sheet operations[3]" {
		t.Errorf("faults at %s:\n%v", got, list)
	}
}

// A scheme that does not fold on the sheet is told by the fold room, with the step and what it would bear.
func TestCheckFoldsTheSheet(t *testing.T) {
	j := sound(t)
	j.Scheme.Steps[0].Depth = fold.Depth{Plus: fold.Ratio{Num: int64(900 * mm), Den: 1}}
	if list := j.Check(); len(list) != 1 || list[0].Wrong != "depth 900 mm; the stack is 860 mm long" {
		t.Error(list)
	}
}
