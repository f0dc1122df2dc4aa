package tooling

import (
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/units"
)

func at(mm ...float64) Pattern {
	p := Pattern{Class: "wide 35"}
	for _, x := range mm {
		p.Tools = append(p.Tools, Tool{Type{Perforate, "12 tpi"}, units.MM(x)})
	}
	return p
}

func TestAlike(t *testing.T) {
	scored := at(100, 200)
	scored.Tools[1].Type = Type{Score, "0.7 mm"}
	finer := at(100, 200)
	finer.Tools[0].Spec = "50 tpi"
	narrow := at(100, 200)
	narrow.Class = "wide 30"
	for _, c := range []struct {
		name       string
		want, have Pattern
		shift      Window
		ok         bool
	}{
		{"the same", at(100, 200), at(100, 200), Window{-150_000, 150_000}, true},
		{"shifted by 40 mm", at(100, 200), at(140, 240), Window{39_850_000, 40_150_000}, true},
		// Differences 40.0 and 40.2: the shift may be 40.2 − 0.15 to 40.0 + 0.15.
		{"shifted, a little off", at(100, 200), at(140, 240.2), Window{40_050_000, 40_150_000}, true},
		{"spacing off by the whole tolerance", at(100, 200), at(140, 240.3), Window{40_150_000, 40_150_000}, true},
		{"spacing off by more", at(100, 200), at(140, 240.301), Window{}, false},
		// Each neighbour is within 0.3 mm, the outer two are not.
		{"errors that add up", at(100, 200, 300), at(100, 200.2, 300.4), Window{}, false},
		{"one tool serves anywhere", at(100), at(350), Window{249_850_000, 250_150_000}, true},
		{"plain for plain", at(), at(), Anywhere, true},
		{"one tool more", at(100), at(100, 200), Window{}, false},
		{"another kind", at(100, 200), scored, Window{}, false},
		{"another spec", at(100, 200), finer, Window{}, false},
		{"another class", at(100, 200), narrow, Window{}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			shift, ok := Alike(c.want, c.have, tolerance)
			if ok != c.ok || ok && shift != c.shift {
				t.Fatalf("got %v %v, want %v %v", shift, ok, c.shift, c.ok)
			}
		})
	}
}

// The definition of domain: alike exactly when all spacings, of any two tools, agree within the tolerance; and at every
// shift of the window, and at none beside it, each tool is in place.
func TestAlikeIsTheDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := patterns(1, 2).Draw(t, "want")
		have := patterns(1, 2).Draw(t, "have")
		if rapid.Bool().Draw(t, "near") {
			have = Pattern{want.Class, nil}
			by := units.Length(rapid.IntRange(-1e6, 1e6).Draw(t, "by"))
			for _, w := range want.Tools {
				off := units.Length(rapid.IntRange(-200_000, 200_000).Draw(t, "off"))
				have.Tools = append(have.Tools, Tool{w.Type, w.At + by + off})
			}
		}
		tol := units.Length(rapid.IntRange(0, 400_001).Draw(t, "tolerance"))
		shift, ok := Alike(want, have, tol)
		if expected := spacingsAgree(want, have, tol); ok != expected {
			t.Fatalf("alike %v, spacings agree %v", ok, expected)
		}
		if !ok || len(want.Tools) == 0 {
			return
		}
		for _, s := range []units.Length{shift.Lo, shift.Hi, (shift.Lo + shift.Hi) / 2} {
			if !inPlaceAt(want, have, s, tol) {
				t.Fatalf("shift %d of %v leaves a tool out of place", s, shift)
			}
		}
		// One nanometre of slack: an odd tolerance has no exact half.
		for _, s := range []units.Length{shift.Lo - 2, shift.Hi + 2} {
			if inPlaceAt(want, have, s, tol-1) {
				t.Fatalf("shift %d beside %v serves too", s, shift)
			}
		}
	})
}

// A tolerance of an odd number of nanometres has no exact half, and still holds to the last nanometre.
func TestAlikeWithOddTolerance(t *testing.T) {
	have := at(100, 200)
	have.Tools[1].At += 3
	if shift, ok := Alike(at(100, 200), have, 3); !ok || shift != (Window{2, 2}) {
		t.Errorf("3 nm off at a tolerance of 3 nm: %v %v", shift, ok)
	}
	if _, ok := Alike(at(100, 200), have, 2); ok {
		t.Error("3 nm off is not within 2 nm")
	}
}

func spacingsAgree(a, b Pattern, tol units.Length) bool {
	if a.Class != b.Class || len(a.Tools) != len(b.Tools) {
		return false
	}
	for j := range a.Tools {
		if a.Tools[j].Type != b.Tools[j].Type {
			return false
		}
		for i := range j {
			if abs((a.Tools[j].At-a.Tools[i].At)-(b.Tools[j].At-b.Tools[i].At)) > tol {
				return false
			}
		}
	}
	return true
}

func inPlaceAt(want, have Pattern, shift, tol units.Length) bool {
	for i := range want.Tools {
		if 2*abs(want.Tools[i].At+shift-have.Tools[i].At) > tol+1 {
			return false
		}
	}
	return true
}

func TestWindow(t *testing.T) {
	a, b := Window{10, 20}, Window{15, 40}
	if m := a.Meet(b); m != (Window{15, 20}) || m.Empty() {
		t.Errorf("meet is %v", m)
	}
	if !a.Meet(Window{21, 30}).Empty() || a.Meet(Window{20, 30}).Empty() {
		t.Error("the ends belong to a window")
	}
	if a.Nearest(3) != 10 || a.Nearest(12) != 12 || a.Nearest(33) != 20 {
		t.Error("the nearest place is inside")
	}
	if a.Moved(5) != (Window{15, 25}) || !a.Has(10) || !a.Has(20) || a.Has(21) {
		t.Error("moved or has")
	}
}
