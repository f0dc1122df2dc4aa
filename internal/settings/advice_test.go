package settings

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"foldwright/internal/paper"
	"foldwright/internal/units"
)

const um = units.Micrometre

// Creep by geometry, (N − 1) × t × k; derived values, no source. k is 1 for a dead-sharp fold, π/2 for a round one.
// The shop rule pages / 4 × t (one printer's page) gives 0.80 and 1.92 mm for the two cases: above the sharp fold and
// below the round one, as a rule of thumb between them must.
func TestCreep(t *testing.T) {
	for _, c := range []struct {
		pages   int
		caliper units.Length
		sharp   float64
		round   float64
		rule    float64
	}{
		{32, 100 * um, 0.70, 1.10, 0.80},
		{64, 120 * um, 1.80, 2.83, 1.92},
	} {
		sharp, round := Creep(c.pages/4, c.caliper, 1).MM(), Creep(c.pages/4, c.caliper, math.Pi/2).MM()
		if math.Abs(sharp-c.sharp) > 0.005 || math.Abs(round-c.round) > 0.005 {
			t.Errorf("%d pages: %v to %v, want %v to %v", c.pages, sharp, round, c.sharp, c.round)
		}
		if c.rule < sharp || c.rule > round {
			t.Errorf("%d pages: the shop rule %v lies outside %v to %v", c.pages, c.rule, sharp, round)
		}
	}
	if Creep(1, 100*um, 1) != 0 {
		t.Error("a single folio creeps")
	}
}

// Groove = 1.5 × caliper + rule: 0.35 and 0.57 mm board with a 0.70 mm rule give 1.225 and 1.555 mm. A laboratory used 1.30
// and 1.50 mm (groove quality of cardboard, Tiskarstvo 2004): within a tenth of a millimetre.
func TestGroove(t *testing.T) {
	for _, c := range []struct{ caliper, want, laboratory units.Length }{
		{350 * um, 1225 * um, 1300 * um}, {570 * um, 1555 * um, 1500 * um},
	} {
		got := Groove(c.caliper, 700*um, 1.5)
		if got != c.want || abs(got-c.laboratory) > 100*um {
			t.Errorf("%v: %v, want %v", c.caliper, got, c.want)
		}
	}
}

// Four layers of 135 g/m² at a volume of 0.80 are 4 × 0.108 = 0.432 mm (derived, no source).
func TestNipOfFourLayers(t *testing.T) {
	j, folded := docket(t, 640*mm, 450*mm, "up 1/2, left, up 1/2")
	j.Stock = paper.Stock{Grammage: 135 * units.GramPerM2, Finish: paper.Coated, Volume: 0.8}
	best, miss := Best(j, folded, combination(), house())
	if miss != nil {
		t.Fatal(miss.Why())
	}
	if nip := best.Units[1].Nips[1]; nip.Layers != 4 || nip.Thickness != 432*um {
		t.Errorf("nip %v", nip)
	}
}

// Each note appears with what calls for it and stays away without.
func TestNotes(t *testing.T) {
	const section = "up 1/2, left, up 1/2, left, up 1/2"
	stock := func(g units.Grammage, finish paper.Finish, grain paper.Grain, caliper units.Length) paper.Stock {
		return paper.Stock{Grammage: g * units.GramPerM2, Finish: finish, Grain: grain, Measured: caliper}
	}
	for name, c := range map[string]struct {
		scheme string
		ops    []string
		stock  paper.Stock
		notes  []string
	}{
		"nothing to say": {"up 1/2", nil, stock(80, paper.Uncoated, paper.GrainAlongT, 100*um), nil},
		"thickness not measured": {
			"up 1/2", nil, stock(80, paper.Uncoated, paper.GrainAlongT, 0),
			[]string{"the thickness of 106 µm is an estimate from grammage and volume: measure the stock before the gaps are set"},
		},
		"across the grain": {
			"up 1/2, left, up 1/4", nil, stock(120, paper.Uncoated, paper.GrainAlongS, 150*um),
			[]string{"fold 1 across the grain of stock of 120 g/m²: score first"},
		},
		"heavy, grain unknown": {
			"up 1/2", nil, stock(180, paper.Uncoated, paper.GrainUnknown, 200*um),
			[]string{"fold 1 of stock of 180 g/m²: score first"},
		},
		"heavy and scored": {
			"up 1/2, left, up 1/4",
			[]string{"score fold 2"},
			stock(180, paper.Uncoated, paper.GrainUnknown, 200*um),
			[]string{"fold 1 of stock of 180 g/m²: score first"},
		},
		"laminated": {
			"up 1/2", nil, stock(100, paper.Laminated, paper.GrainAlongT, 90*um),
			[]string{"fold 1 of stock of 100 g/m²: score first"},
		},
		"a closed head": {
			section, nil, stock(80, paper.Uncoated, paper.GrainAlongT, 100*um),
			[]string{"fold 2 closes an edge and 4 layers go into fold 3: perforate fold 2 to let the air out"},
		},
		"a pierced head": {section, []string{"perforate fold 2"}, stock(80, paper.Uncoated, paper.GrainAlongT, 100*um), nil},
		"too many layers": {
			section,
			[]string{"perforate fold 2"},
			stock(160, paper.Uncoated, paper.GrainAlongT, 100*um),
			[]string{
				"fold 2 across the grain of stock of 160 g/m²: score first",
				"stock of 160 g/m² folds well to 4 layers, and this is 8: look out for wrinkles and loose folds",
			},
		},
		"the spine across the grain": {
			"up 1/2, left, up 1/2", nil, stock(80, paper.Uncoated, paper.GrainAlongT, 100*um),
			[]string{"the spine, fold 2, runs across the grain: the leaves may cockle and will not lie open"},
		},
		"creep": {
			section + ", left, up 1/2",
			[]string{"perforate fold 3"},
			stock(80, paper.Uncoated, paper.GrainAlongS, 100*um),
			[]string{"the innermost of 8 nested leaves stands out by about 0.88 mm at the fore edge"},
		},
		"a map has no spine": { // nor a closed head, nor folios that creep
			"zigzag 6, left, zigzag 3", nil, stock(60, paper.Uncoated, paper.GrainAlongS, 300*um),
			[]string{"stock of 60 g/m² folds well to 16 layers, and this is 18: look out for wrinkles and loose folds"},
		},
		"a groove": {
			"up 1/2, left, up 1/4",
			[]string{"score fold 2 with 0.7 mm"},
			stock(100, paper.Uncoated, paper.GrainAlongS, 100*um),
			[]string{"score fold 2 with 0.7 mm: a groove about 0.83 mm wide"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			j, folded := docket(t, 640*mm, 450*mm, c.scheme, c.ops...)
			j.Stock = c.stock
			list := notes(j, folded, DefaultHouse())
			var got []string
			for _, n := range list {
				if n.Source.String() == "" {
					t.Errorf("%q has no source", n.Text)
				}
				got = append(got, n.Text.String())
			}
			if fmt.Sprint(got) != fmt.Sprint(c.notes) {
				t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(c.notes, "\n"))
			}
		})
	}
}

// Advice never blocks: the same ways with every threshold at its strictest and with none.
func TestAdviceNeverBlocks(t *testing.T) {
	j, folded := docket(t, 860*mm, 610*mm, "up 1/2, left, up 1/2, left, up 1/2")
	strict, mute := house(), house()
	strict.Advice = Advice{ScoreAcross: 1, ScoreAlong: 1, ScoreCoated: 1, PierceLayers: 1, MostLayers: []LayersLimit{{math.MaxInt64, 1}}, Creep: 1, CreepRound: 1.5}
	mute.Advice = Advice{}
	a, _ := Ways(j, folded, combination(), strict)
	b, _ := Ways(j, folded, combination(), mute)
	if len(a) == 0 || len(a) != len(b) {
		t.Errorf("%d ways with strict advice, %d with none", len(a), len(b))
	}
	if len(a[0].Notes) < 4 || len(b[0].Notes) != 0 {
		t.Errorf("strict says %v, mute says %v", a[0].Notes, b[0].Notes)
	}
}

// The cautions cover isolation, blades, nips and shafts, covers and trained people, and defer to the maker and the site.
func TestCautions(t *testing.T) {
	all := strings.ToLower(strings.Join(Cautions(), " "))
	for _, word := range []string{"maker's instructions", "site", "local rules", "trained", "isolate", "lock", "blades", "nips", "shafts", "guards", "covers", "stop and ask"} {
		if !strings.Contains(all, word) {
			t.Errorf("the cautions do not speak of %q", word)
		}
	}
}
