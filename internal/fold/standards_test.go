package fold

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"foldwright/internal/units"
)

// faces writes both faces as the old manuals do: top row / bottom row, cells left to right, r before a page whose head is
// down; the back after turning the sheet left to right.
func faces(f *Folded) (front, back string) {
	rows := 0
	for rows < len(f.Panels) && f.Panels[rows].S == f.Panels[0].S {
		rows++
	}
	columns := len(f.Panels) / rows
	var fronts, backs []string
	for r := rows - 1; r >= 0; r-- {
		var a, b []string
		for c := range columns {
			p, q := f.Panels[c*rows+r], f.Panels[(columns-1-c)*rows+r]
			a = append(a, page(p.TopFolio, p.Head))
			b = append(b, page(q.BottomFolio, q.Head))
		}
		fronts, backs = append(fronts, strings.Join(a, " ")), append(backs, strings.Join(b, " "))
	}
	return strings.Join(fronts, " / "), strings.Join(backs, " / ")
}

func page(folio int, head Head) string {
	switch head {
	case HeadTPlus:
		return fmt.Sprint(folio)
	case HeadTMinus:
		return fmt.Sprintf("r%d", folio)
	}
	return fmt.Sprintf("%d%s", folio, head)
}

// Page orders that printers and programs have published. x runs from the left, y from the bottom, as s and t do; a scheme
// that begins with "left" folds the lower part first.
func TestPublishedPageOrders(t *testing.T) {
	for _, c := range []struct {
		source, steps string
		first         Face
		front, back   string
	}{
		// Folio: outer form 1 4, inner 3 2 on the stone, which is the mirror image (a 19th-century printer's pocket-book
		// and manual, digital edition p. 31).
		{"printer's pocket-book, 4 pages", "down 1/2", FaceUp, "4 1", "2 3"},
		// Module manual of an open Perl library for page orders (public module archive). Its 16 is the octavo of the old
		// manuals, outer form on the stone 1 16 13 4 below and 8 9 12 5 above (from memory), seen in the mirror.
		{"Perl library, 8 pages, closed heads", "left, down 1/2, right, up 1/2", FaceDown, "r5 r4 / 8 1", "r3 r6 / 2 7"},
		{"Perl library, 16 pages", "down 1/2, left, down 1/2, right, up 1/4", FaceDown, "r5 r12 r9 r8 / 4 13 16 1", "r7 r10 r11 r6 / 2 15 14 3"},
		// pdfcpu, pkg/pdfcpu/booklet_test.go, commit 105c0c28: bookletadvanced, n = 4, portrait, long edge, 8 pages:
		// [8 1 5 4][2 7 3 6], top row first, bottom row turned.
		{"pdfcpu advanced, 8 pages, closed feet", "left, down 1/2, right, down 1/2", FaceUp, "8 1 / r5 r4", "2 7 / r3 r6"},
		// The inner form of the 16 as the older version of the Perl library prints it (the sheet turned top to bottom),
		// and the front of F16-6 in CIP4 JDFLibJ.
		{"Perl library, older, 16 pages, inner form up", "up 1/2, left, up 1/2, right, up 1/4", FaceDown, "r3 r14 r15 r2 / 6 11 10 7", "r1 r16 r13 r4 / 8 9 12 5"},
	} {
		s, err := Parse(c.steps)
		if err != nil {
			t.Fatal(err)
		}
		s.First = c.first
		f, err := s.Apply(testSheet)
		if err != nil {
			t.Fatal(err)
		}
		front, back := faces(f)
		if front != c.front || back != c.back {
			t.Errorf("%s:\n got %s and %s\nwant %s and %s", c.source, front, back, c.front, c.back)
		}
	}
}

// Two pages that meet at the spine add up to one more than the pages of the section: folio 5, quarto 9, octavo 17, 16mo 33
// (Dictionary of the Art of Printing, 1841).
func TestPagesAtTheSpineAddUp(t *testing.T) {
	for n := 1; n <= 5; n++ {
		f := mustApply(t, fmt.Sprintf("halves %d", n), testSheet)
		met := 0
		for _, c := range f.Creases {
			if c.Fold != n {
				continue
			}
			for _, p := range f.Panels {
				for _, q := range f.Panels {
					beside := p.S[1] == c.At && q.S[0] == c.At && p.T == q.T && p.T[0] >= c.From && p.T[1] <= c.To
					if c.Axis == T {
						beside = p.T[1] == c.At && q.T[0] == c.At && p.S == q.S && p.S[0] >= c.From && p.S[1] <= c.To
					}
					if !beside {
						continue
					}
					met++
					if p.TopFolio+q.TopFolio != 2*len(f.Panels)+1 || p.BottomFolio+q.BottomFolio != 2*len(f.Panels)+1 {
						t.Errorf("halves %d: %d and %d, %d and %d meet at the spine", n, p.TopFolio, q.TopFolio, p.BottomFolio, q.BottomFolio)
					}
				}
			}
		}
		if met != len(f.Panels)/2 {
			t.Errorf("halves %d: %d pairs meet at the spine", n, met)
		}
	}
}

// row is a fold with its published stops, layers and panels, all in millimetres.
type row struct {
	source string
	sheet  [2]float64
	steps  string
	lap    float64
	stops  []float64
	layers []int
	panels []float64 // widths along s
	end    [2]float64
}

func (r row) check(t *testing.T) {
	t.Helper()
	s, err := Parse(r.steps)
	if err != nil {
		t.Fatal(err)
	}
	s.Lap = units.MM(r.lap)
	f, err := s.Apply(Sheet{units.MM(r.sheet[0]), units.MM(r.sheet[1])})
	if err != nil {
		t.Fatalf("%s: %v", r.source, err)
	}
	var stops, widths []float64
	var layers []int
	for i, st := range f.Scheme.Steps {
		if st.Op.IsFold() {
			stops, layers = append(stops, f.FoldDepth(i+1).MM()), append(layers, f.States[i+1].Layers)
		}
	}
	for _, p := range f.Panels {
		if p.T[0] == 0 {
			widths = append(widths, (p.S[1] - p.S[0]).MM())
		}
	}
	end := f.Finished()
	if !near(stops, r.stops) || r.layers != nil && !slices.Equal(layers, r.layers) || r.panels != nil && !near(widths, r.panels) ||
		r.end != [2]float64{} && !near([]float64{end.Length.MM(), end.Width.MM()}, r.end[:]) {
		t.Errorf("%s: stops %v, layers %v, panels %v, finished %v", r.source, stops, layers, widths, end)
	}
}

// near compares to the last published digit, half a micrometre.
func near(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return x-y < 0.0005 && y-x < 0.0005 })
}

// Check values of the trade handbook, section 8 (arithmetic there; row 18 by trade guides), and of the published check
// values, section 6 (arithmetic; the letter fold of A4 into 100, 100, 97 from memory).
func TestHandbookRows(t *testing.T) {
	inch := 25.4
	for _, r := range []row{
		{"row 15: SRA1, three halvings", [2]float64{640, 900}, "halves 3", 0, []float64{320, 450, 160}, []int{2, 4, 8}, nil, [2]float64{160, 450}},
		{"row 15: SRA1, fed long side first", [2]float64{900, 640}, "halves 3", 0, []float64{450, 320, 225}, []int{2, 4, 8}, nil, [2]float64{225, 320}},
		{"row 16: zigzag 297, 3 panels", [2]float64{297, 210}, "zigzag 3", 0, []float64{99, 99}, []int{2, 3}, []float64{99, 99, 99}, [2]float64{99, 210}},
		{"row 17: letter 297, inner 2 short", [2]float64{297, 210}, "letter inner 2 mm", 0, []float64{199.333, 99.667}, []int{2, 3}, []float64{99.667, 99.667, 97.667}, [2]float64{}},
		{"row 18: letter 11 in, inner 1/16 in short", [2]float64{11 * inch, 8.5 * inch}, "letter inner 1/16 in", 0, []float64{7.375 * inch, 3.6875 * inch}, []int{2, 3}, []float64{3.6875 * inch, 3.6875 * inch, 3.625 * inch}, [2]float64{}},
		{"row 19: roll 420, steps 2.4 and 1.6", [2]float64{420, 297}, "roll 4 steps 2.4 mm and 1.6 mm", 0, []float64{317.4, 104.2, 106.6}, []int{2, 3, 4}, []float64{106.6, 106.6, 104.2, 102.6}, [2]float64{106.6, 297}},
		{"row 20: double parallel 640", [2]float64{640, 450}, "double parallel", 0, []float64{320, 160}, []int{2, 4}, nil, [2]float64{160, 450}},
		{"row 21: closed gate 400, gap 2", [2]float64{400, 300}, "closed gate gap 2 mm", 0, []float64{99.5, 201, 100.5}, []int{2, 2, 4}, []float64{99.5, 100.5, 100.5, 99.5}, [2]float64{100.5, 300}},
		{"row 22: spine fold 450, lap 10", [2]float64{450, 300}, "up 1/2", 10, []float64{230}, []int{2}, []float64{230, 220}, [2]float64{230, 300}},
		{"row 22: the other half out", [2]float64{450, 300}, "up 1/2", -10, []float64{220}, []int{2}, []float64{220, 230}, [2]float64{230, 300}},
		{"§6: letter A4", [2]float64{297, 210}, "letter inner 3 mm", 0, []float64{200, 100}, []int{2, 3}, []float64{100, 100, 97}, [2]float64{}},
		{"§6: gate A4, gap 3", [2]float64{297, 210}, "gate gap 3 mm", 0, []float64{73.5, 150}, []int{2, 2}, []float64{73.5, 150, 73.5}, [2]float64{150, 210}},
		{"§6: closed gate A4, gap 3", [2]float64{297, 210}, "closed gate gap 3 mm", 0, []float64{73.5, 150, 75}, []int{2, 2, 4}, nil, [2]float64{75, 210}},
		{"§6: accordion, 5 panels of 60", [2]float64{300, 210}, "zigzag 5", 0, []float64{60, 60, 60, 60}, []int{2, 3, 4, 5}, nil, [2]float64{60, 210}},
		// DIN 5008/676, letter marks from the upper edge (typography lexicon): form B 105 and 210, so panels 105, 105, 87.
		{"DIN 676 form B", [2]float64{297, 210}, "letter inner 18 mm", 0, []float64{210, 105}, []int{2, 3}, []float64{105, 105, 87}, [2]float64{105, 210}},
		// Form A has its marks at 87 and 192: the same fold with the lower edge leading, 297 − 192 = 105, 297 − 87 = 210.
		{"DIN 676 form A, lower edge leading", [2]float64{297, 210}, "up 210, down 105", 0, []float64{210, 105}, []int{2, 3}, []float64{297 - 192, 192 - 87, 87}, [2]float64{105, 210}},
	} {
		r.check(t)
	}
}

// Drawings folded to A4 by DIN 824. Panels after the textbook of ISBN 978-3-7100-2443-6 and from memory, sums checked. Only
// sequences that can be folded right across the stack are here: where a long panel is followed by a shorter one, as in A3
// (190, 105, 125) and A1, the long one would be folded along, so these are folded by hand one panel at a time.
func TestDrawingsByDIN824(t *testing.T) {
	for _, r := range []row{
		{"A2 across, title edge leading", [2]float64{594, 420}, "down 192, up 192", 0, []float64{192, 192}, []int{2, 3}, []float64{192, 192, 210}, [2]float64{210, 420}},
		{"A2 upright, upper part back", [2]float64{420, 210}, "down 123", 0, []float64{123}, []int{2}, []float64{123, 297}, [2]float64{297, 210}},
		{"A1 upright", [2]float64{594, 210}, "down 297", 0, []float64{297}, []int{2}, []float64{297, 297}, [2]float64{297, 210}},
		{"A0 upright, upper part first", [2]float64{841, 210}, "down 247, up 297", 0, []float64{247, 297}, []int{2, 3}, []float64{247, 297, 297}, [2]float64{297, 210}},
	} {
		r.check(t)
	}
	// The number of panels is odd, so the title panel, which is folded back first, ends on top and looks up.
	f := mustApply(t, "down 192, up 192", Sheet{594 * units.Millimetre, 420 * units.Millimetre})
	if title := f.Panels[0]; !title.TopFaceUp || title.Layer != 3 {
		t.Errorf("the title panel: %+v", title)
	}
	// A3 shows why the others are not here: the fold at 105 also folds the title panel, which is 190 wide.
	if f := mustApply(t, "down 190, up 105", Sheet{420 * units.Millimetre, 297 * units.Millimetre}); len(f.Panels) != 4 {
		t.Errorf("A3 gave %d panels", len(f.Panels))
	}
}

// Fold lists from the test job files of the standard body's library (CIP4 JDFLibJ, commit ad086e67): Folding_sample,
// GetReferencedPartition, ResourceCommandTest, pdyv5. The file job4 contradicts itself and is not used.
func TestStandardBodyFoldLists(t *testing.T) {
	for _, r := range []row{
		{"Folding_sample, F16-6", [2]float64{849, 597}, "up 424.5, left, up 298.5, right, up 213", 0, []float64{424.5, 298.5, 213}, []int{2, 4, 8}, nil, [2]float64{213, 298.5}},
		{"Folding_sample, F16-6 with lap 1.5", [2]float64{849, 597}, "F16-6", 1.5, []float64{424.5, 298.5, 213}, []int{2, 4, 8}, nil, [2]float64{213, 298.5}},
		{"GetReferencedPartition, F16-7", [2]float64{880, 624}, "F16-7", 0, []float64{440, 312, 220}, []int{2, 4, 8}, nil, [2]float64{220, 312}},
		{"GetReferencedPartition, F4-1", [2]float64{440, 312}, "F4-1", 0, []float64{220}, []int{2}, nil, [2]float64{220, 312}},
		{"ResourceCommandTest, F16-6", [2]float64{862, 616}, "F16-6", 0, []float64{431, 308, 215.5}, []int{2, 4, 8}, nil, [2]float64{215.5, 308}},
		{"pdyv5, F4-1", [2]float64{426, 303}, "F4-1", 0, []float64{213}, []int{2}, nil, [2]float64{213, 303}},
	} {
		r.check(t)
	}
}

func TestTrims(t *testing.T) {
	s, err := Parse("halves 3")
	if err != nil {
		t.Fatal(err)
	}
	s.Trims = Trims{Head: 3 * units.Millimetre, Foot: 4 * units.Millimetre, Front: 5 * units.Millimetre}
	for _, turn := range []bool{false, true} {
		want := [2]float64{210, 298} // leaf 215 − 5, height 305 − 7
		if turn {
			s.Steps = append(s.Steps, Step{Op: Left})
			want = [2]float64{298, 210}
		}
		f, err := s.Apply(Sheet{860 * units.Millimetre, 610 * units.Millimetre})
		if err != nil {
			t.Fatal(err)
		}
		if got := f.Trimmed(); !near([]float64{got.Length.MM(), got.Width.MM()}, want[:]) {
			t.Errorf("trimmed to %v", got)
		}
	}
}
