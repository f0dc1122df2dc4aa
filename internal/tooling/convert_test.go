package tooling

import (
	"testing"
	"time"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"foldwright/internal/units"
)

const minute = time.Minute

func TestConvert(t *testing.T) {
	slit := func(mm float64) Tool { return Tool{Type{Slit, ""}, units.MM(mm)} }
	perf := func(mm float64) Tool { return Tool{Type{Perforate, "12 tpi"}, units.MM(mm)} }
	pattern := func(tools ...Tool) Pattern { return Pattern{"wide 35", tools} }
	for _, c := range []struct {
		name       string
		have, want Pattern
		edit       Edit
	}{
		{"nothing to do", at(100, 200), at(100, 200), Edit{Keep: 2}},
		{"the sheet moves, no tool", at(100, 200), at(90, 190), Edit{Keep: 2, Shift: units.MM(9.85)}},
		{"plain to two", at(), at(100, 200), Edit{Add: 2, Time: 6 * minute}},
		{"two to plain", at(100, 200), at(), Edit{Remove: 2, Time: 2 * minute}},
		{"slide one", at(100, 200), at(100, 230), Edit{Slide: 1, Keep: 1, Time: 2 * minute}},
		{
			"keep two of three at a shift", at(100, 200, 300), at(120, 220, 350),
			Edit{Slide: 1, Keep: 2, Shift: units.MM(-19.85), Time: 2 * minute},
		},
		{"add in the middle", at(100, 300), at(100, 200, 300), Edit{Add: 1, Keep: 2, Time: 3 * minute}},
		// The slit cannot pass the perforation: one of them is kept, the other comes off and is fitted on the other side.
		{
			"no passing", pattern(slit(100), perf(200)), pattern(perf(200), slit(300)),
			Edit{Remove: 1, Add: 1, Keep: 1, Time: 4 * minute},
		},
		{"another type", pattern(slit(100)), pattern(perf(100)), Edit{Remove: 1, Add: 1, Time: 4 * minute}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Convert(c.have, c.want, usual, tolerance); got != c.edit {
				t.Fatalf("got %+v, want %+v", got, c.edit)
			}
		})
	}
}

func TestChanges(t *testing.T) {
	have := Pattern{"wide 35", []Tool{{Type{Slit, ""}, units.MM(50)}, {Type{Perforate, "12 tpi"}, units.MM(100)}, {Type{Perforate, "12 tpi"}, units.MM(210)}}}
	want := Pattern{"wide 35", []Tool{{Type{Perforate, "12 tpi"}, units.MM(100.1)}, {Type{Perforate, "12 tpi"}, units.MM(200)}, {Type{Score, "0.7 mm"}, units.MM(300)}}}
	expected := []Change{
		{Removing, Type{Slit, ""}, units.MM(50), 0},
		{Keeping, Type{Perforate, "12 tpi"}, units.MM(100), units.MM(100)},
		{Sliding, Type{Perforate, "12 tpi"}, units.MM(210), units.MM(200)},
		{Adding, Type{Score, "0.7 mm"}, 0, units.MM(300)},
	}
	if d := gocmp.Diff(expected, Changes(have, want, usual, tolerance, 0)); d != "" {
		t.Fatal(d)
	}
}

// Convert against trying every order-preserving pairing at a fine comb of shifts and at every end of a tool's reach.
func TestConvertIsTheBestOfAllPairings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		types := rapid.IntRange(1, 3).Draw(t, "types")
		have, want := patterns(1, types).Draw(t, "have"), patterns(1, types).Draw(t, "want")
		cost := costs().Draw(t, "cost")
		cost.Slide += time.Duration(rapid.IntRange(0, 3).Draw(t, "dear slide"))
		lo := units.Length(rapid.IntRange(-80, 80).Draw(t, "from")) * units.Millimetre
		shifts := Window{lo, lo + units.Length(rapid.IntRange(0, 60).Draw(t, "wide"))*units.Millimetre}
		e := ConvertWithin(have, want, cost, tolerance, shifts)
		if !shifts.Has(e.Shift) {
			t.Fatalf("shift %d is not in %v", e.Shift, shifts)
		}
		best := Edit{Time: -1}
		for _, s := range comb(have, want, shifts) {
			if b := bestPairing(have.Tools, want.Tools, cost, s); best.Time < 0 || better(b, best) {
				best = b
			}
		}
		if e.Time != best.Time || e.touched() != best.touched() || e.Shift != best.Shift {
			t.Fatalf("got %+v, best of all pairings %+v", e, best)
		}
		if e.Remove+e.Slide+e.Keep != len(have.Tools) || e.Add+e.Slide+e.Keep != len(want.Tools) {
			t.Fatalf("%+v does not count every tool", e)
		}
		if sum := time.Duration(e.Remove)*cost.Remove + time.Duration(e.Add)*cost.Add + time.Duration(e.Slide)*cost.Slide; e.Time != sum {
			t.Fatalf("%+v: the tools take %d", e, sum)
		}
	})
}

// comb lists shifts: every 2.5 mm, and within a nanometre of every shift at which a tool comes into place.
func comb(have, want Pattern, shifts Window) []units.Length {
	list := []units.Length{shifts.Nearest(0)}
	for s := shifts.Lo; s <= shifts.Hi; s += 2_500_000 {
		list = append(list, s)
	}
	for _, h := range have.Tools {
		for _, w := range want.Tools {
			d := h.At - w.At
			for _, s := range []units.Length{d - 150_001, d - 150_000, d, d + 150_000, d + 150_001} {
				if shifts.Has(s) {
					list = append(list, s)
				}
			}
		}
	}
	return list
}

// bestPairing tries every way to pair tools in order.
func bestPairing(have, want []Tool, cost EditCost, shift units.Length) Edit {
	e := Edit{
		Remove: len(have), Add: len(want), Shift: shift,
		Time: time.Duration(len(have))*cost.Remove + time.Duration(len(want))*cost.Add,
	}
	for i, h := range have {
		for j, w := range want {
			if h.Type != w.Type {
				continue
			}
			before := bestPairing(have[:i], want[:j], cost, shift) // the last pair is i with j; the tools after are not paired
			after := Edit{Remove: len(have) - i - 1, Add: len(want) - j - 1}
			sum := Edit{
				Remove: before.Remove + after.Remove, Add: before.Add + after.Add, Slide: before.Slide, Keep: before.Keep, Shift: shift,
				Time: before.Time + time.Duration(after.Remove)*cost.Remove + time.Duration(after.Add)*cost.Add,
			}
			if abs(w.At+shift-h.At) <= tolerance/2 {
				sum.Keep++
			} else {
				sum.Slide++
				sum.Time += cost.Slide
			}
			if better(sum, e) {
				e = sum
			}
		}
	}
	return e
}

// What Changes lists, done to the tools that stand, gives the wanted pattern within half the tolerance.
func TestChangesMakeTheWantedPattern(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		have, want := patterns(1, 3).Draw(t, "have"), patterns(1, 3).Draw(t, "want")
		cost := costs().Draw(t, "cost")
		e := Convert(have, want, cost, tolerance)
		var stands, made []Tool
		for _, c := range Changes(have, want, cost, tolerance, e.Shift) {
			if c.Do != Adding {
				stands = append(stands, Tool{c.Type, c.From})
			}
			if c.Do != Removing {
				made = append(made, Tool{c.Type, c.To})
			}
		}
		if d := gocmp.Diff(have.Tools, stands); d != "" {
			t.Fatal(d)
		}
		if !inPlaceAt(want, Pattern{want.Class, made}, e.Shift, tolerance) || len(made) != len(want.Tools) {
			t.Fatalf("made %v of %v, want %v + %v", made, have.Tools, want.Tools, e.Shift)
		}
	})
}

// Sets that serve take no work, and only those.
func TestConvertOfAlikeTakesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		have, want := patterns(1, 2).Draw(t, "have"), patterns(1, 2).Draw(t, "want")
		_, alike := Alike(want, have, tolerance)
		if e := Convert(have, want, usual, tolerance); alike != (e.touched() == 0) {
			t.Fatalf("alike %v, edit %+v", alike, e)
		}
	})
}

// Work done is work saved: no way over a third pattern, at fixed places and with tools kept only where they stand exactly,
// is cheaper than the direct way.
func TestConvertObeysTheTriangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := patterns(1, 2).Draw(t, "a"), patterns(1, 2).Draw(t, "b"), patterns(1, 2).Draw(t, "c")
		cost := costs().Draw(t, "cost")
		direct := ConvertWithin(a, c, cost, 0, Window{})
		over := ConvertWithin(a, b, cost, 0, Window{}).Time + ConvertWithin(b, c, cost, 0, Window{}).Time
		if direct.Time > over {
			t.Fatalf("direct %d, over b %d", direct.Time, over)
		}
	})
}

func BenchmarkConvert(b *testing.B) {
	have, want := at(100, 200, 300, 420, 510, 640), at(110, 190, 310, 430, 500, 655)
	b.ReportAllocs()
	for range b.N {
		Convert(have, want, usual, tolerance)
	}
}
