package job

import (
	"testing"

	"foldwright/internal/fold"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

const mm = units.Millimetre

func TestParseOperation(t *testing.T) {
	for text, want := range map[string]Operation{
		"perforate fold 2":                 {Kind: tooling.Perforate, Target: OnFold, Fold: 2},
		"Perforate  fold 2 with 12 TPI":    {Kind: tooling.Perforate, Spec: "12 tpi", Target: OnFold, Fold: 2},
		"perforate fold 1 with 10/6 mm":    {Kind: tooling.Perforate, Spec: "10/6 mm", Target: OnFold, Fold: 1},
		"score fold 3 with 0.70 mm":        {Kind: tooling.Score, Spec: "0.7 mm", Target: OnFold, Fold: 3},
		"slit at t 305 strip 6 mm two-up":  {Kind: tooling.Strip, Spec: "6 mm", Target: OnLine, Axis: fold.T, At: 305 * mm, Ups: 2},
		"slit at 305 two-up, 6 mm strip":   {Kind: tooling.Strip, Spec: "6 mm", Target: OnLine, Axis: fold.T, At: 305 * mm, Ups: 2},
		"slit at t 3 mm one-up":            {Kind: tooling.Slit, Target: OnLine, Axis: fold.T, At: 3 * mm, Ups: 1},
		"slit at s 12 1/2 in":              {Kind: tooling.Slit, Target: OnLine, Axis: fold.S, At: 317_500_000},
		"slit at t 304,8, two-up":          {Kind: tooling.Slit, Target: OnLine, Axis: fold.T, At: 304_800_000, Ups: 2},
		"trim 3 mm at the foot":            {Kind: tooling.Slit, Target: OnEdge, At: 3 * mm, Edge: Foot},
		"trim 1/8 in at head":              {Kind: tooling.Slit, Target: OnEdge, At: 3_175_000, Edge: Head},
		"trim 5 at the fore edge":          {Kind: tooling.Slit, Target: OnEdge, At: 5 * mm, Edge: Front},
		"perforate at s 100":               {Kind: tooling.Perforate, Target: OnLine, Axis: fold.S, At: 100 * mm},
		"score at t 99.667 mm with 0.7 mm": {Kind: tooling.Score, Spec: "0.7 mm", Target: OnLine, Axis: fold.T, At: 99_667_000},
		"slit at t 305 strip 1/4 in":       {Kind: tooling.Strip, Spec: "6.35 mm", Target: OnLine, Axis: fold.T, At: 305 * mm},
	} {
		got, err := ParseOperation(text, mm)
		if err != nil || got != want {
			t.Errorf("%q: got %+v, %v; want %+v", text, got, err, want)
		}
	}
}
