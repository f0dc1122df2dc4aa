package tooling

import (
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"foldwright/internal/units"
)

func narrowSlits(t Type) Body {
	if t.Kind == Slit {
		return Body{Left: units.MM(8), Right: units.MM(12)}
	}
	return Body{Left: units.MM(9), Right: units.MM(11)}
}

func TestClashes(t *testing.T) {
	slit := func(mm float64) Tool { return Tool{Type{Slit, ""}, units.MM(mm)} }
	perf := func(mm float64) Tool { return Tool{Type{Perforate, "12 tpi"}, units.MM(mm)} }
	for _, c := range []struct {
		name  string
		tools []Tool
		want  []Clash
	}{
		{"none", nil, nil},
		// 12 to the right of the slit, 9 to the left of the perforation: 21 in all.
		{"they touch", []Tool{slit(100), perf(121)}, nil},
		{"they overlap", []Tool{slit(100), perf(120.9)}, []Clash{{0, 1, units.MM(20.9), units.MM(21)}}},
		{"the other way round: 11 + 8", []Tool{perf(100), slit(118)}, []Clash{{0, 1, units.MM(18), units.MM(19)}}},
		{
			"three in a heap",
			[]Tool{slit(100), slit(110), slit(115)},
			[]Clash{{0, 1, units.MM(10), units.MM(20)}, {0, 2, units.MM(15), units.MM(20)}, {1, 2, units.MM(5), units.MM(20)}},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := gocmp.Diff(c.want, Clashes(c.tools, narrowSlits)); d != "" {
				t.Fatal(d)
			}
		})
	}
}

// Two tools clash exactly when some point of the shaft lies inside both bodies.
func TestClashesAreSharedRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tools := patterns(1, 3).Draw(t, "tools").Tools
		clashing := map[[2]int]bool{}
		for _, c := range Clashes(tools, narrowSlits) {
			clashing[[2]int{c.I, c.J}] = true
		}
		for j := range tools {
			for i := range j {
				a, b := narrowSlits(tools[i].Type), narrowSlits(tools[j].Type)
				shared := Window{tools[i].At - a.Left, tools[i].At + a.Right}.Meet(Window{tools[j].At - b.Left, tools[j].At + b.Right})
				if overlap := shared.Lo < shared.Hi; overlap != clashing[[2]int{i, j}] {
					t.Fatalf("%v and %v: shared room %v, clash %v", tools[i], tools[j], shared, clashing[[2]int{i, j}])
				}
			}
		}
	})
}

func TestBeyond(t *testing.T) {
	tools := []Tool{{Type{Slit, ""}, units.MM(7.9)}, {Type{Slit, ""}, units.MM(40)}, {Type{Slit, ""}, units.MM(89)}}
	if d := gocmp.Diff([]int{0, 2}, Beyond(tools, narrowSlits, Window{0, units.MM(100)})); d != "" {
		t.Fatal(d)
	}
	if list := Beyond(tools[1:], narrowSlits, Window{0, units.MM(101)}); list != nil {
		t.Fatalf("%v lie on the shaft to its ends", list)
	}
}
