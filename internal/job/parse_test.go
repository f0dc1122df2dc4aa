package job

import (
	"testing"

	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/tooling"
	"foldwright/internal/units"

	"pgregory.net/rapid"
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

func TestParseOperationRefuses(t *testing.T) {
	const forms = `; write "perforate fold 2", "score fold 3 with 0.7 mm", "slit at t 305 strip 6 mm two-up" or "trim 3 mm at the foot" [operation]`
	for text, want := range map[string]string{
		"":                           `"" does not start with perforate, score, slit or trim` + forms,
		"cut fold 2":                 `"cut fold 2" does not start with perforate, score, slit or trim` + forms,
		"perforate":                  `"perforate" says neither "fold" and its number nor "at" and a place` + forms,
		"perforate fold":             `"perforate fold" lacks the number of the fold, from 1` + forms,
		"perforate fold 0":           `"perforate fold 0" lacks the number of the fold, from 1` + forms,
		"perforate fold two":         `"perforate fold two" lacks the number of the fold, from 1` + forms,
		"perforate fold 2 twice":     `"perforate fold 2 twice" goes on with "twice", which is not understood` + forms,
		"perforate fold 2 with":      `"perforate fold 2 with" lacks the wheel` + forms,
		"perforate at 100":           `"perforate at 100" does not say whether the line is s = … (across the travel as drawn) or t = … (along it)` + forms,
		"slit at t":                  `"slit at t" lacks a length` + forms,
		"score fold 2 strip 6 mm":    `"score fold 2 strip 6 mm" takes out a strip, which only a slit at a place does` + forms,
		"slit fold 1 strip 6 mm":     `"slit fold 1 strip 6 mm" takes out a strip, which only a slit at a place does` + forms,
		"trim 3 mm":                  `"trim 3 mm" lacks the edge to trim` + forms,
		"trim 3 mm at the spine":     `"trim 3 mm at the spine" names no edge: head, foot or front` + forms,
		"trim 3 mm at the fore":      `"trim 3 mm at the fore" has "fore" without "edge"` + forms,
		"slit at t 305 with 3 mm":    `a slit has no spec, and "3 mm" is one; write slit alone [tool-spec]`,
		"score fold 2 with 40 mm":    `edge of 40 mm; more than 0 and at most 10 mm [tool-spec]`,
		"slit at t 305 strip 900 mm": `strip of 900 mm; more than 0 and at most 200 mm [tool-spec]`,
		"slit at t 305, 6 mm":        `"slit at t 305, 6 mm" goes on with "6 mm", which is not understood` + forms,
	} {
		_, err := ParseOperation(text, mm)
		if err == nil || err.Error() != want {
			t.Errorf("%q:\n got %v\nwant %s", text, err, want)
		}
	}
}

// What String writes, ParseOperation reads as the same operation, whatever a bare number means.
func TestOperationsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		op := randomOperation(t)
		for _, bare := range []units.Length{units.Millimetre, units.Inch} {
			got, err := ParseOperation(op.String(), bare)
			if err != nil || got != op {
				t.Fatalf("%+v is written %q and read %+v, %v", op, op, got, err)
			}
		}
	})
}

func randomOperation(t *rapid.T) Operation {
	op := Operation{Kind: rapid.SampledFrom(tooling.Kinds()).Draw(t, "kind")}
	place := units.Length(rapid.Int64Range(1, int64(5*units.Metre)).Draw(t, "at"))
	switch op.Kind {
	case tooling.Slit:
		if rapid.Bool().Draw(t, "trim") {
			op.Target, op.At = OnEdge, place
			op.Edge = rapid.SampledFrom([]Edge{Head, Foot, Front}).Draw(t, "edge")
			return op
		}
	case tooling.Strip:
		op.Spec = rapid.SampledFrom([]string{"", "6 mm", "6.35 mm"}).Draw(t, "strip")
	case tooling.Perforate:
		op.Spec = rapid.SampledFrom([]string{"", "12 tpi", "10/6 mm"}).Draw(t, "teeth")
	case tooling.Score:
		op.Spec = rapid.SampledFrom([]string{"", "0.7 mm", "1.05 mm"}).Draw(t, "edge")
	}
	if !op.Separates() && rapid.Bool().Draw(t, "on fold") {
		op.Target, op.Fold = OnFold, rapid.IntRange(1, 9).Draw(t, "fold")
		return op
	}
	op.Target, op.At = OnLine, place
	op.Axis = rapid.SampledFrom([]fold.Axis{fold.S, fold.T}).Draw(t, "axis")
	if op.Separates() {
		op.Ups = rapid.IntRange(0, 2).Draw(t, "ups")
	}
	return op
}

// Whatever is typed gives an operation that can be written and read again, or one fault with what would be right.
func FuzzParseOperation(f *testing.F) {
	for _, text := range []string{
		"perforate fold 2", "score fold 3 with 0.7 mm", "slit at t 305 strip 6 mm two-up", "trim 3 mm at the foot",
		"slit at 12 1/2 in one-up", "slit at 305 two-up, 6 mm strip", "perforate at s 100 with 10/6 mm", "trim 1/8\" at fore edge", "slit at t ,,, strip",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		op, err := ParseOperation(text, mm)
		if err != nil {
			if list := fault.All(err); len(list) != 1 || list[0].Right == "" || list[0].Code == "" {
				t.Fatalf("%q: %v", text, err)
			}
			return
		}
		again, err := ParseOperation(op.String(), mm)
		if err != nil || again != op {
			t.Fatalf("%q is read %+v, written %q and read %+v, %v", text, op, op, again, err)
		}
	})
}
