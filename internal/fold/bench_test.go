package fold

import (
	"testing"

	"foldwright/internal/units"
)

var benchSheet = Sheet{Length: 860 * units.Millimetre, Width: 610 * units.Millimetre}

// BenchmarkApply folds a 16-page section with a lap and traces the perforation of its last fold, as the settings of every
// job do.
func BenchmarkApply(b *testing.B) {
	s, err := Parse("up 1/2, left, up 1/2, left, up 1/4")
	if err != nil {
		b.Fatal(err)
	}
	s.Lap = 8 * units.Millimetre
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Apply(benchSheet); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTrace(b *testing.B) {
	f := mustApply(b, "up 1/2, left, up 1/2, left, up 1/4", benchSheet)
	b.ReportAllocs()
	for b.Loop() {
		if got := f.Trace(3, f.FoldLine(3)); len(got) != 1 {
			b.Fatal(got)
		}
	}
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse("up 1/2, left, up 1/2, left, up 1/2 + 4 mm"); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFind looks for the schemes of all 78 page tables of the catalogue.
func BenchmarkFind(b *testing.B) {
	var maps []FolioMap
	for _, p := range readCatalogue(b) {
		if p.FrontPages != nil {
			maps = append(maps, mapOf(p))
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, m := range maps {
			if _, err := Find(m); err != nil {
				b.Fatal(err)
			}
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*len(maps)), "µs/map")
}
