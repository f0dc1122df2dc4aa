package tooling

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"foldwright/internal/units"
)

const tolerance = 300 * units.Micrometre

var someTypes = []Type{{Perforate, "12 tpi"}, {Score, "0.7 mm"}, {Slit, ""}, {Strip, "6 mm"}}

// patterns draws patterns on a few places, so that alike ones and near ones are common, with tools off their places by
// a little, so that the tolerance matters.
func patterns(classes, types int) *rapid.Generator[Pattern] {
	return rapid.Custom(func(t *rapid.T) Pattern {
		p := Pattern{Class: fmt.Sprint("class ", rapid.IntRange(1, classes).Draw(t, "class"))}
		places := rapid.SliceOfNDistinct(rapid.IntRange(0, 12), 0, 5, rapid.ID).Draw(t, "places")
		slices.Sort(places)
		for _, at := range places {
			off := rapid.SampledFrom(edges).Draw(t, "off")
			typ := someTypes[rapid.IntRange(0, types-1).Draw(t, "type")]
			p.Tools = append(p.Tools, Tool{typ, 100*units.Millimetre + units.Length(at)*10*units.Millimetre + off})
		}
		return p
	})
}

// edges are how far off a tool may stand so that tolerances are just met or just missed.
var edges = []units.Length{0, 0, 1, -1, 149_999, 150_000, 150_001, -150_000, 300_000, 300_001}

// relatives draws sets near to a pattern: shifted, each tool a little off, sometimes with a tool less or another one.
func relatives(of Pattern) *rapid.Generator[Pattern] {
	return rapid.Custom(func(t *rapid.T) Pattern {
		p := Pattern{Class: of.Class}
		shift := units.Length(rapid.IntRange(-30, 30).Draw(t, "shift")) * units.Millimetre
		for _, w := range of.Tools {
			switch rapid.IntRange(0, 9).Draw(t, "fate") {
			case 0: // gone
			case 1:
				p.Tools = append(p.Tools, Tool{someTypes[0], w.At + shift})
			default:
				p.Tools = append(p.Tools, Tool{w.Type, w.At + shift + rapid.SampledFrom(edges).Draw(t, "off")})
			}
		}
		return p
	})
}

func costs() *rapid.Generator[EditCost] {
	return rapid.Custom(func(t *rapid.T) EditCost {
		minutes := rapid.IntRange(0, 4)
		c := EditCost{Remove: time.Duration(minutes.Draw(t, "remove")), Add: time.Duration(minutes.Draw(t, "add"))}
		c.Slide = time.Duration(rapid.IntRange(0, int(c.Remove+c.Add)).Draw(t, "slide"))
		return c
	})
}

// racks draws sets for a wanted pattern: some of any kind, some near to it.
func racks(want Pattern, types int) *rapid.Generator[[]Set] {
	return rapid.Custom(func(t *rapid.T) []Set {
		var sets []Set
		all := rapid.SliceOfN(patterns(2, types), 0, 30).Draw(t, "others")
		all = append(all, rapid.SliceOfN(relatives(want), 0, 12).Draw(t, "relatives")...)
		for i, p := range all {
			sets = append(sets, Set{Label: fmt.Sprint(i), Class: p.Class, Tools: p.Tools})
		}
		return sets
	})
}

// The index must find exactly the sets that Alike finds one by one.
func TestServesIsAlikeForEverySet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		types := rapid.IntRange(1, 4).Draw(t, "types")
		want := patterns(2, types).Draw(t, "want")
		sets := racks(want, types).Draw(t, "sets")
		var expected []Match
		for i, s := range sets {
			if shift, ok := Alike(want, s.Pattern(), tolerance); ok {
				expected = append(expected, Match{i, shift})
			}
		}
		if d := gocmp.Diff(expected, NewIndex(sets, tolerance).Serves(want)); d != "" {
			t.Fatal(d)
		}
	})
}

// The index must find sets that need exactly as little work as the best that pricing every set finds; among equally near
// ones it may choose.
func TestNearestIsAsNearAsPricingEverySet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		types := rapid.IntRange(1, 4).Draw(t, "types")
		want := patterns(2, types).Draw(t, "want")
		sets := racks(want, types).Draw(t, "sets")
		cost, n := costs().Draw(t, "cost"), rapid.IntRange(1, 8).Draw(t, "n")
		cost.Slide += time.Duration(rapid.IntRange(0, 2).Draw(t, "dear slide"))
		shifts := Anywhere
		if rapid.Bool().Draw(t, "within") {
			lo := units.Length(rapid.IntRange(-30, 30).Draw(t, "from")) * units.Millimetre
			shifts = Window{lo, lo + units.Length(rapid.SampledFrom([]int{0, 1, 20, 60}).Draw(t, "wide"))*units.Millimetre}
		}
		checkNearest(t, sets, want, cost, shifts, n)
	})
}

func checkNearest(t rapid.TB, sets []Set, want Pattern, cost EditCost, shifts Window, n int) {
	t.Helper()
	expected := nearestOneByOne(sets, want, cost, shifts, n)
	got := NewIndex(sets, tolerance).NearestWithin(want, cost, shifts, n)
	if len(got) != len(expected) {
		t.Fatalf("%d sets, want %d", len(got), len(expected))
	}
	listed := map[int]bool{}
	for i, near := range got {
		if near.Time != expected[i] {
			t.Fatalf("number %d takes %d, want %d", i, near.Time, expected[i])
		}
		if listed[near.Set] {
			t.Fatalf("set %d is listed twice", near.Set)
		}
		listed[near.Set] = true
		if e := ConvertWithin(sets[near.Set].Pattern(), want, cost, tolerance, shifts); e != near.Edit || sets[near.Set].Class != want.Class {
			t.Fatalf("set %d: edit %+v, want %+v", near.Set, near.Edit, e)
		}
		if serves(want, sets[near.Set].Pattern(), shifts) {
			t.Fatalf("set %d serves already", near.Set)
		}
	}
}

func serves(want, have Pattern, shifts Window) bool {
	shift, ok := Alike(want, have, tolerance)
	return ok && !shift.Meet(shifts).Empty()
}

func nearestOneByOne(sets []Set, want Pattern, cost EditCost, shifts Window, n int) []time.Duration {
	var list []time.Duration
	for _, s := range sets {
		if s.Class == want.Class && !serves(want, s.Pattern(), shifts) {
			list = append(list, ConvertWithin(s.Pattern(), want, cost, tolerance, shifts).Time)
		}
	}
	slices.Sort(list)
	return list[:min(n, len(list))]
}

// world is a way to fill a large rack.
type world struct {
	name     string
	types    int
	place    func(*rand.Rand) units.Length
	repeated int // so many patterns come again and again, each time a little off; 0 = all are drawn anew
}

func worlds() []world {
	uniform := func(r *rand.Rand) units.Length { return units.Length(r.Int64N(int64(700 * units.Millimetre))) }
	// Typical places, centred half-formats and the like, each set up to half a millimetre off: what a real rack looks like.
	clustered := func(r *rand.Rand) units.Length {
		places := []units.Length{100, 148, 170, 190, 210, 235, 245, 297, 305, 320, 340, 355, 380, 403, 420, 450, 480, 500, 594, 640}
		return places[r.IntN(len(places))]*units.Millimetre + units.Length(r.Int64N(int64(units.Millimetre))) - units.Millimetre/2
	}
	return []world{
		{"uniform, 8 types", 8, uniform, 0},
		{"uniform, 1 type", 1, uniform, 0},
		{"uniform, 60 types", 60, uniform, 0},
		{"clustered, 8 types", 8, clustered, 0},
		{"clustered, 1 type", 1, clustered, 0},
		{"200 patterns repeated, 8 types", 8, clustered, 200},
		{"200 patterns repeated, 1 type", 1, clustered, 200},
		{"5 patterns repeated, 2 types", 2, clustered, 5},
		{"1 pattern repeated", 2, clustered, 1},
	}
}

// pattern draws a pattern of least to most tools.
func (w world) pattern(r *rand.Rand, least, most int) Pattern {
	if w.repeated > 0 {
		drawn := w
		drawn.repeated = 0
		p := drawn.pattern(rand.New(rand.NewPCG(uint64(r.IntN(w.repeated)), uint64(most))), least, most)
		for i := range p.Tools {
			p.Tools[i].At += units.Length(r.Int64N(int64(units.Millimetre)))
		}
		slices.SortFunc(p.Tools, ascending)
		return p
	}
	p := Pattern{Class: "wide 35"}
	for n := least + r.IntN(most-least+1); len(p.Tools) < n; {
		tool := Tool{Type{Perforate, fmt.Sprintf("%d tpi", 1+r.IntN(w.types))}, w.place(r)}
		// Tools have bodies.
		if !slices.ContainsFunc(p.Tools, func(t Tool) bool { return abs(t.At-tool.At) < 14*units.Millimetre }) {
			p.Tools = append(p.Tools, tool)
		}
	}
	slices.SortFunc(p.Tools, ascending)
	return p
}

func ascending(a, b Tool) int { return cmp.Compare(a.At, b.At) }

// aroundGuide is a side guide that can go 60 mm to either side.
var aroundGuide = Window{-60 * units.Millimetre, 60 * units.Millimetre}

func (w world) rack(r *rand.Rand, n int) []Set {
	sets := make([]Set, n)
	for i := range sets {
		p := w.pattern(r, min(6, 5*w.repeated), 6)
		sets[i] = Set{Label: fmt.Sprint(i), Class: p.Class, Tools: p.Tools}
	}
	return sets
}

var usual = EditCost{Remove: time.Minute, Add: 3 * time.Minute, Slide: 2 * time.Minute}

// Larger racks of the worlds that are measured, against pricing every set.
func TestNearestInEveryWorld(t *testing.T) {
	for _, w := range worlds() {
		t.Run(w.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, 2))
			sets := w.rack(r, 3000)
			x := NewIndex(sets, tolerance)
			for range 12 {
				want := w.pattern(r, 1, 6)
				for _, shifts := range []Window{Anywhere, aroundGuide} {
					expected := nearestOneByOne(sets, want, usual, shifts, 5)
					for i, near := range x.NearestWithin(want, usual, shifts, 5) {
						if near.Time != expected[i] {
							t.Fatalf("%v: number %d takes %v, want %v", want.Tools, i, near.Time, expected[i])
						}
					}
				}
			}
		})
	}
}

// These benchmarks time each of a hundred questions by itself and keep the best time of each, so that the machine's own
// pauses do not count: mean-µs is their mean, slowest-µs the slowest of them.
func BenchmarkNearest(b *testing.B) {
	benchmarkQuestions(b, func(x *Index, want Pattern) { x.Nearest(want, usual, 3) })
}

func BenchmarkNearestWithin(b *testing.B) {
	benchmarkQuestions(b, func(x *Index, want Pattern) { x.NearestWithin(want, usual, aroundGuide, 3) })
}

func BenchmarkServes(b *testing.B) {
	benchmarkQuestions(b, func(x *Index, want Pattern) { x.Serves(want) })
}

func benchmarkQuestions(b *testing.B, ask func(*Index, Pattern)) {
	for _, w := range worlds() {
		r := rand.New(rand.NewPCG(3, 4))
		x := NewIndex(w.rack(r, 100_000), tolerance)
		for _, tools := range []int{1, 2, 4, 6} {
			wants := make([]Pattern, 100)
			for i := range wants {
				wants[i] = w.pattern(r, tools, tools)
			}
			b.Run(fmt.Sprintf("%s/%d tools", w.name, tools), func(b *testing.B) {
				b.ReportAllocs()
				best := make([]time.Duration, len(wants))
				for i := range b.N {
					start := time.Now()
					ask(x, wants[i%len(wants)])
					if t := time.Since(start); i < len(wants) || t < best[i%len(wants)] {
						best[i%len(wants)] = t
					}
				}
				sum := time.Duration(0)
				for _, t := range best {
					sum += t
				}
				b.ReportMetric(sum.Seconds()*1e6/float64(len(best)), "mean-µs")
				b.ReportMetric(slices.Max(best).Seconds()*1e6, "slowest-µs")
			})
		}
	}
}

func BenchmarkNewIndex(b *testing.B) {
	for _, w := range worlds() {
		sets := w.rack(rand.New(rand.NewPCG(3, 4)), 100_000)
		b.Run(w.name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				NewIndex(sets, tolerance)
			}
		})
	}
}
