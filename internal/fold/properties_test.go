package fold

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/units"
)

// What must hold of any folding, whatever the scheme.
func TestProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := anySheet.Draw(t, "sheet")
		s := anyScheme(t, sheet, rapid.IntRange(0, 6).Draw(t, "folds"))
		f, err := s.Apply(sheet)
		if err != nil {
			t.Fatalf("%s: %v", s, err)
		}
		checkTiling(t, f)
		checkArea(t, f)
		checkMaekawa(t, f)
		checkFolios(t, f)
	})
}

// checkTiling: the panels cover the sheet without gap or overlap, in their order.
func checkTiling(t *rapid.T, f *Folded) {
	for axis, s := range f.exact.final.strips {
		end := []units.Length{f.Sheet.Length, f.Sheet.Width}[axis]
		at := int64(0)
		for _, p := range s {
			if p.from != at || p.to <= p.from {
				t.Fatalf("%s: piece from %d to %d begins at %d", f.Scheme, p.from, p.to, at)
			}
			at = p.to
		}
		if at != int64(end)*f.exact.grain {
			t.Fatalf("%s: the pieces end at %d", f.Scheme, at)
		}
	}
	across := f.exact.final.strips[T]
	for i, p := range f.Panels {
		a, b := f.exact.final.strips[S][i/len(across)], across[i%len(across)]
		if p.S != [2]units.Length{f.length(a.from), f.length(a.to)} || p.T != [2]units.Length{f.length(b.from), f.length(b.to)} {
			t.Fatalf("%s: panel %d is %v × %v", f.Scheme, i, p.S, p.T)
		}
	}
}

// checkArea: along each direction, the layers over every field times its width make up the whole strip; and the box of
// the finished stack has every panel inside and is no larger than it must be.
func checkArea(t *rapid.T, f *Folded) {
	for axis, s := range f.exact.final.strips {
		edges := s.edges()
		total := int64(0)
		for i := range len(edges) - 1 {
			for _, p := range s {
				if lo, hi := p.span(); lo <= edges[i] && edges[i+1] <= hi {
					total += edges[i+1] - edges[i]
				}
			}
		}
		if total != s[len(s)-1].to {
			t.Fatalf("%s: layers × width is %d of %d", f.Scheme, total, s[len(s)-1].to)
		}
		extent := f.exact.final.length
		if Axis(axis) != f.exact.final.along {
			extent = f.exact.final.width
		}
		if edges[0] != 0 || edges[len(edges)-1] != extent {
			t.Fatalf("%s: the stack is %d long and its panels lie from %d to %d", f.Scheme, extent, edges[0], edges[len(edges)-1])
		}
	}
}

// checkMaekawa: around any inner point where creases cross, mountains and valleys differ by two (Maekawa's theorem on
// flat foldings, 1986; Justin, 1986; any textbook of mathematical origami).
func checkMaekawa(t *rapid.T, f *Folded) {
	for _, a := range f.exact.lines {
		for _, b := range f.exact.lines {
			if a.axis != S || b.axis != T {
				continue
			}
			balance, arms := 0, 0
			for _, c := range f.Creases {
				at, along := f.length(a.at), f.length(b.at)
				if c.Axis == T {
					at, along = along, at
				}
				if c.At != at || c.From > along || c.To < along {
					continue
				}
				n := index(c.From < along) + index(c.To > along)
				arms += n
				if c.Bend == Valley {
					n = -n
				}
				balance += n
			}
			if arms != 4 || balance != 2 && balance != -2 {
				t.Fatalf("%s: where s = %d crosses t = %d, %d arms, mountains − valleys = %d", f.Scheme, a.at, b.at, arms, balance)
			}
		}
	}
}

// checkFolios: where there are folios, each stands once, two that follow each other on a leaf, and every head points the
// same way once folded.
func checkFolios(t *rapid.T, f *Folded) {
	var all []int
	heads := map[Edge]bool{}
	for i, p := range f.Panels {
		if f.Folios != (p.TopFolio > 0) || f.Folios != (p.BottomFolio > 0) || f.Folios != (p.Head != HeadNone) {
			t.Fatalf("%s: panel %+v, folios %v", f.Scheme, p, f.Folios)
		}
		if !f.Folios {
			continue
		}
		if p.BottomFolio != back(p.TopFolio) {
			t.Fatalf("%s: a leaf with %d and %d", f.Scheme, p.TopFolio, p.BottomFolio)
		}
		all = append(all, p.TopFolio, p.BottomFolio)
		for _, e := range []Edge{Leading, Trailing, LeftEdge, RightEdge} {
			if f.exact.flatHead(e, i) == p.Head {
				heads[e] = true
			}
		}
	}
	slices.Sort(all)
	for i, folio := range all {
		if folio != i+1 {
			t.Fatalf("%s: folios %v", f.Scheme, all)
		}
	}
	if head, ok := f.HeadEdge(); ok && (len(heads) != 1 || !heads[head]) {
		t.Fatalf("%s: heads at %v", f.Scheme, heads)
	}
}

// Up for down, folio 1 on the other face: the same folding seen in a mirror that lies on the table. The panels are the
// same, the layers count from the other side, and every crease bends the other way.
func TestTurnedOver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := anySheet.Draw(t, "sheet")
		s := anyScheme(t, sheet, rapid.IntRange(1, 5).Draw(t, "folds"))
		mirrored := Scheme{Steps: slices.Clone(s.Steps), First: FaceDown}
		swap(mirrored.Steps)
		a, errA := s.Apply(sheet)
		b, errB := mirrored.Apply(sheet)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if a.Folios != b.Folios || a.Finished() != b.Finished() {
			t.Fatalf("%s: %v, %v", s, a.Finished(), b.Finished())
		}
		for i := range a.Panels {
			p, q := a.Panels[i], b.Panels[i]
			if a.Folios && (p.TopFolio != q.BottomFolio || p.Layer != len(a.Panels)+1-q.Layer) || p.TopFaceUp != q.TopFaceUp {
				t.Fatalf("%s: panel %+v, turned over %+v", s, p, q)
			}
		}
		for i := range a.Creases {
			if a.Creases[i].Bend == b.Creases[i].Bend {
				t.Fatalf("%s: crease %+v bends alike from both sides", s, a.Creases[i])
			}
		}
	})
}

// Moving the other part at the same line, in the same sense, gives the same thing turned over (a note on the catalogue
// derives it; folders do it whenever the trailing part is the shorter one).
func TestTheOtherPartMoved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := anySheet.Draw(t, "sheet")
		s := anyScheme(t, sheet, rapid.IntRange(1, 5).Draw(t, "folds"))
		a, err := s.Apply(sheet)
		if err != nil {
			t.Fatal(err)
		}
		last := len(s.Steps) - 1
		rest := ratio(lengthBefore(a, last)-a.exact.depths[last], a.exact.grain)
		other := Scheme{Steps: append(slices.Clone(s.Steps[:last]), Step{Op: Left}, Step{Op: Left},
			Step{Op: s.Steps[last].Op, Depth: Depth{Plus: rest}})}
		b, err := other.Apply(sheet)
		if err != nil {
			t.Fatal(err)
		}
		if len(a.Creases) != len(b.Creases) || a.Finished() != b.Finished() {
			t.Fatalf("%s and %s", s, other)
		}
		for i, c := range a.Creases {
			if c.Bend != b.Creases[i].Bend || c.At != b.Creases[i].At {
				t.Fatalf("%s and %s: crease %+v and %+v", s, other, c, b.Creases[i])
			}
		}
		shared := a.exact.final.strips[S].shared() && a.exact.final.strips[T].shared()
		for i, p := range a.Panels {
			q := b.Panels[i]
			if p.TopFaceUp == q.TopFaceUp || shared && p.Layer != len(a.Panels)+1-q.Layer {
				t.Fatalf("%s and %s: panel %+v and %+v", s, other, p, q)
			}
		}
	})
}

// lengthBefore is the exact length of the stack before a step, by folding that far.
func lengthBefore(f *Folded, step int) int64 {
	var w workspace
	st := f.replay(&w, step)
	return st.length
}

// An allowance or a lap moves fold lines; it must not change the order of the leaves.
func TestAllowancesKeepFolios(t *testing.T) {
	sheet := Sheet{Length: 900 * units.Millimetre, Width: 640 * units.Millimetre}
	for _, pair := range [][2]string{
		{"up 1/2, left, up 1/2, left, up 1/4", "up 1/2 + 3 mm, left, up 1/2 - 1 mm, left, up 1/4 + 2 mm"},
		{"letter", "letter inner 2 mm"},
		{"roll 4", "roll 4 steps 2.4 mm and 1.6 mm"},
		{"double parallel", "double parallel inner 1 mm"},
	} {
		plain, with := mustApply(t, pair[0], sheet), mustApply(t, pair[1], sheet)
		if !plain.Folios || !with.Folios {
			t.Errorf("%v: folios %v, %v", pair, plain.Folios, with.Folios)
			continue
		}
		for i := range plain.Panels {
			p, q := plain.Panels[i], with.Panels[i]
			if p.TopFolio != q.TopFolio || p.Layer != q.Layer || p.Head != q.Head {
				t.Errorf("%v: panel %d: %+v, %+v", pair, i, p, q)
			}
		}
	}
	for _, text := range []string{"gate", "up 400 mm", "up 300 mm, down 200 mm", "up 1/2 + 230 mm, up 1/4", "up 1/3, down 1/3 - 50 mm"} {
		if f := mustApply(t, text, sheet); f.Folios {
			t.Errorf("%q has folios", text)
		}
	}
}

func mustApply(t testing.TB, text string, sheet Sheet) *Folded {
	t.Helper()
	s, err := Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	f, err := s.Apply(sheet)
	if err != nil {
		t.Fatal(err)
	}
	return f
}
