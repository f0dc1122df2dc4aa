package fold

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/units"
)

func TestTrace(t *testing.T) {
	mm := units.Millimetre
	sheet := Sheet{860 * mm, 610 * mm}
	sixteen := "up 1/2, left, up 1/2, left, up 1/2"
	for _, c := range []struct {
		what, steps string
		state       int
		want        func(f *Folded) []Segment
		tracks      []Track
	}{
		{"perforate fold 2 behind unit 1", sixteen, 1, foldLine(2), []Track{{T, 305 * mm, 2, 0}}},
		{"the same after the turn lies across the travel", sixteen, 2, foldLine(2), []Track{{S, 305 * mm, 2, 0}}},
		{"perforate fold 3 behind unit 2", sixteen, 3, foldLine(3), []Track{{T, 215 * mm, 4, 0}}},
		{"fold 3 before any fold: two lines across the travel", sixteen, 0, foldLine(3), []Track{{S, 215 * mm, 1, 0}, {S, 645 * mm, 1, 0}}},
		{"a fold already made is only an edge", sixteen, 1, foldLine(1), []Track{{S, 0, 0, 0}}},
		{"slit on the open sheet", sixteen, 0, flatLine(T, 100*mm), []Track{{T, 100 * mm, 1, 0}}},
		{"behind fold 1 both layers are there", sixteen, 1, flatLine(T, 100*mm), []Track{{T, 100 * mm, 2, 0}}},
		{"behind fold 2 other layers lie on the line", sixteen, 3, flatLine(S, 100*mm), []Track{{T, 100 * mm, 2, 2}}},
		{"outside the sheet", sixteen, 0, flatLine(T, 700*mm), nil},
		{"the edge of the sheet", sixteen, 0, flatLine(T, 610*mm), []Track{{T, 610 * mm, 0, 0}}},
		{"a line in the outer panel of a letter fold lies on two others", "letter", 2, flatLine(S, 100*mm), []Track{{S, 186_666_667, 1, 2}}},
		{"the free edge of another layer is not foreign", "up 400", 1, flatLine(S, 800*mm), []Track{{S, 400 * mm, 1, 0}}},
		{"a hair further in it is", "up 400", 1, flatLine(S, 799*mm), []Track{{S, 399 * mm, 1, 1}}},
		{
			"two lines at once, one in each half", "up 1/2", 1,
			func(f *Folded) []Segment { return append(f.FlatLine(S, 330*mm), f.FlatLine(S, 530*mm)...) },
			[]Track{{S, 100 * mm, 2, 0}},
		},
		{
			"on part of the way only", "up 1/2", 1,
			func(f *Folded) []Segment {
				return []Segment{f.FlatLine(T, 305*mm)[0].Between(0, 430*mm)}
			},
			[]Track{{T, 305 * mm, 1, 1}},
		},
		{
			"as far as 200 mm", "up 1/2", 0,
			func(f *Folded) []Segment {
				return []Segment{f.FlatLine(T, 305*mm)[0].Between(0, 200*mm)}
			},
			[]Track{{T, 305 * mm, 1, 1}},
		},
	} {
		f := mustApply(t, c.steps, sheet)
		got := f.Trace(c.state, c.want(f))
		if !slices.Equal(got, c.tracks) {
			t.Errorf("%s:\n got %+v\nwant %+v", c.what, got, c.tracks)
		}
	}
}

func foldLine(fold int) func(*Folded) []Segment {
	return func(f *Folded) []Segment { return f.FoldLine(fold) }
}

func flatLine(axis Axis, at units.Length) func(*Folded) []Segment {
	return func(f *Folded) []Segment { return f.FlatLine(axis, at) }
}

func TestSegmentsTellTheirPlace(t *testing.T) {
	f := mustApply(t, "up 1/3, down 1/3", Sheet{860 * units.Millimetre, 610 * units.Millimetre})
	lines := f.FoldLine(2)
	if len(lines) != 1 || lines[0].Axis != S || lines[0].At() != 573_333_333 {
		t.Fatalf("fold 2 is at %v", lines)
	}
	if from, to := lines[0].Span(); from != 0 || to != 610*units.Millimetre {
		t.Errorf("it runs from %v to %v", from, to)
	}
	if f.FoldLine(3) != nil {
		t.Error("there is no third fold")
	}
}

// Trace against the second folding of model_test.go: a layer lies across a line of the stack when just before the line
// and just behind it, over the same place, lie two points of the flat sheet that are neighbours.
func TestTraceAgainstTheSecondFolding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := Sheet{860 * units.Millimetre, 610 * units.Millimetre}
		s := anyScheme(t, sheet, rapid.IntRange(1, 4).Draw(t, "folds"))
		f, err := s.Apply(sheet)
		if err != nil {
			t.Fatal(err)
		}
		state := rapid.IntRange(0, len(s.Steps)).Draw(t, "state")
		want := anyLines(t, f)
		tracks := f.Trace(state, want)
		if err := tracesAgree(f, state, want, tracks); err != nil {
			t.Fatalf("%s after step %d, %+v: %v", s, state, want, err)
		}
	})
}

func anyLines(t *rapid.T, f *Folded) []Segment {
	if rapid.Bool().Draw(t, "fold line") {
		return f.FoldLine(rapid.IntRange(1, f.Scheme.Folds()).Draw(t, "fold"))
	}
	axis := rapid.SampledFrom([]Axis{S, T}).Draw(t, "axis")
	end := []units.Length{f.Sheet.Length, f.Sheet.Width}[axis]
	far := []units.Length{f.Sheet.Width, f.Sheet.Length}[axis]
	var lines []Segment
	for range rapid.IntRange(1, 3).Draw(t, "lines") {
		line := f.FlatLine(axis, units.Length(rapid.Int64Range(0, int64(end)).Draw(t, "at")))[0]
		if rapid.Bool().Draw(t, "part") {
			line = line.Between(0, units.Length(rapid.Int64Range(1, int64(far)).Draw(t, "to")))
		}
		lines = append(lines, line)
	}
	return lines
}

func tracesAgree(f *Folded, state int, want []Segment, tracks []Track) error {
	all := rules(f.Sheet, f.Scheme)[:state]
	places := map[string]bool{}
	for _, w := range want {
		at := big.NewRat(w.at, f.exact.grain)
		x, y := land(all, at, new(big.Rat))
		if w.Axis == T {
			x, y = land(all, new(big.Rat), at)
		}
		axis := stackAxis(f, state, w.Axis)
		place := x
		if axis == T {
			place = y
		}
		key := fmt.Sprint(axis, f.exact.round(exactOf(place, f.exact.grain)))
		if places[key] {
			continue
		}
		places[key] = true
		wanted, foreign := countOver(f, all, axis, place, want)
		if !slices.Contains(tracks, Track{axis, f.exact.round(exactOf(place, f.exact.grain)), wanted, foreign}) {
			return fmt.Errorf("on %s wanted %d, foreign %d are not among %+v", key, wanted, foreign, tracks)
		}
	}
	if len(tracks) != len(places) {
		return fmt.Errorf("%d tracks for %d lines", len(tracks), len(places))
	}
	return nil
}

func exactOf(place *big.Rat, grain int64) int64 {
	return new(big.Rat).Mul(place, num(grain)).Num().Int64()
}

// stackAxis is the direction in which a flat axis lies after a state: each turn swaps them.
func stackAxis(f *Folded, state int, axis Axis) Axis {
	for _, st := range f.Scheme.Steps[:state] {
		if !st.Op.IsFold() {
			axis = other(axis)
		}
	}
	return axis
}

// countOver counts the layers on a line of the stack, over a spot in each field along it.
func countOver(f *Folded, rules []rule, axis Axis, place *big.Rat, want []Segment) (wanted, foreign int) {
	hair := big.NewRat(1, 1000) // of a nanometre
	g := f.exact.grain
	var ends []*big.Rat
	for _, p := range f.exact.final.strips[S] {
		for _, q := range f.exact.final.strips[T] {
			for _, corner := range [][2]int64{{p.from, q.from}, {p.to, q.to}} {
				x, y := land(rules, big.NewRat(corner[0], g), big.NewRat(corner[1], g))
				ends = append(ends, []*big.Rat{y, x}[axis])
			}
		}
	}
	for _, w := range want {
		for _, p := range f.exact.final.strips[w.Axis] {
			for _, end := range []int64{w.from, w.to} {
				a, b := big.NewRat(p.from+p.to, 2*g), big.NewRat(end, g)
				if w.Axis == T {
					a, b = b, a
				}
				x, y := land(rules, a, b)
				ends = append(ends, []*big.Rat{y, x}[axis])
			}
		}
	}
	for _, y := range middles(ends) {
		before, behind := overLine(f, rules, axis, gap(place, hair), y), overLine(f, rules, axis, sum(place, hair), y)
		w, o := 0, 0
		for _, a := range before {
			for _, b := range behind {
				if flat, s, t, ok := across(a, b, hair); ok {
					if isWanted(want, flat, s, t, g) {
						w++
					} else {
						o++
					}
				}
			}
		}
		wanted, foreign = max(wanted, w), max(foreign, o)
	}
	return wanted, foreign
}

func overLine(f *Folded, rules []rule, axis Axis, place, along *big.Rat) []spot {
	if axis == S {
		return over(f.Sheet, rules, place, along)
	}
	return over(f.Sheet, rules, along, place)
}

// across tells whether two spots are neighbours on the flat sheet, along which flat axis, and where between them.
func across(a, b spot, hair *big.Rat) (Axis, *big.Rat, *big.Rat, bool) {
	two := new(big.Rat).Mul(hair, num(2))
	half := big.NewRat(1, 2)
	ds, dt := new(big.Rat).Abs(gap(a.s, b.s)), new(big.Rat).Abs(gap(a.t, b.t))
	s, t := new(big.Rat).Mul(sum(a.s, b.s), half), new(big.Rat).Mul(sum(a.t, b.t), half)
	switch {
	case ds.Cmp(two) == 0 && dt.Sign() == 0:
		return S, s, t, true
	case dt.Cmp(two) == 0 && ds.Sign() == 0:
		return T, s, t, true
	}
	return S, nil, nil, false
}

func isWanted(want []Segment, axis Axis, s, t *big.Rat, grain int64) bool {
	at, along := s, t
	if axis == T {
		at, along = t, s
	}
	return slices.ContainsFunc(want, func(w Segment) bool {
		return w.Axis == axis && at.Cmp(big.NewRat(w.at, grain)) == 0 &&
			along.Cmp(big.NewRat(w.from, grain)) > 0 && along.Cmp(big.NewRat(w.to, grain)) < 0
	})
}
