package paper_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/fault"
	"foldwright/internal/paper"
	"foldwright/internal/units"
)

const um = units.Micrometre

// TestPublishedCalipers. JCP = grades of the US Government Paper Specification Standards no. 11 (1999), Babić = a paper on
// carton board in Tiskarstvo 2004; tolerances are those of the grade or of the last digit printed.
func TestPublishedCalipers(t *testing.T) {
	for _, c := range []struct {
		grammage, volume float64
		want, within     units.Length
		source           string
	}{
		{75, 1.333, 100 * um, um / 10, "arithmetic; JCP A55 has 0.100 mm ± 0.013"},
		{90, 1.33, 120 * um, 13 * um, "JCP A55, A63"},
		{120, 1.33, 160 * um, 13 * um, "JCP A55, A63"},
		{60, 1.33, 75 * um, 13 * um, "JCP A55: the lightest grade is denser, and still within its tolerance"},
		{135, 0.80, 108 * um, 0, "arithmetic: the four layers of a roller gap are 0.432 mm"},
		{320, 1.25, 410 * um, 15 * um, "Babić"},
		{450, 1.25, 570 * um, 15 * um, "Babić"},
	} {
		got := paper.CaliperOf(units.GSM(c.grammage), c.volume)
		if off := got - c.want; max(off, -off) > c.within {
			t.Errorf("%v g/m² at %v cm³/g is %s, want %s: %s", c.grammage, c.volume, units.FormatMicrons(got, false), units.FormatMicrons(c.want, false), c.source)
		}
	}
	if four := 4 * paper.CaliperOf(units.GSM(135), 0.80); units.FormatMM(four) != "0.432" {
		t.Errorf("four layers of 135 g/m² at 0.80 are %s mm, want 0.432", units.FormatMM(four))
	}
}

// TestPublishedVolumes: 255 g/m² at 0.290 mm has 1.137 cm³/g (JCP K10); 450 at 0.57 has 1.267 (Babić gives 1.27).
func TestPublishedVolumes(t *testing.T) {
	for _, c := range []struct {
		grammage float64
		caliper  units.Length
		want     float64
	}{{255, 290 * um, 1.137}, {450, 570 * um, 1.267}} {
		if got := paper.VolumeOf(units.GSM(c.grammage), c.caliper); math.Abs(got-c.want) > 0.0005 {
			t.Errorf("%v g/m² at %s has %.4f cm³/g, want %v", c.grammage, c.caliper.Format(false), got, c.want)
		}
	}
}

// TestArithmetic: a caliper of 100 µm makes 25 400 / 100 × 2 = 508 pages an inch; 1000 sheets of 640 × 900 mm at 115 g/m²
// have 0.64 × 0.9 × 115 = 66.24 kg.
func TestArithmetic(t *testing.T) {
	if got := paper.PagesPerInch(100 * um); got != 508 {
		t.Errorf("100 µm makes %v pages an inch, want 508", got)
	}
	if got := paper.MassPer1000(units.GSM(115), 640*mm, 900*mm); math.Abs(got-66.24) > 1e-9 {
		t.Errorf("1000 sheets have %v kg, want 66.24", got)
	}
}

func TestCaliperSaysWhenItIsAnEstimate(t *testing.T) {
	for _, c := range []struct {
		stock     paper.Stock
		want      units.Length
		estimated bool
	}{
		{paper.Stock{Grammage: units.GSM(100)}, 133 * um, true},
		{paper.Stock{Grammage: units.GSM(100), Finish: paper.Coated}, 80 * um, true},
		{paper.Stock{Grammage: units.GSM(100), Finish: paper.Laminated}, 85 * um, true},
		{paper.Stock{Grammage: units.GSM(300), Finish: paper.Board}, 375 * um, true},
		{paper.Stock{Grammage: units.GSM(100), Finish: paper.Coated, Volume: 1.6}, 160 * um, true},
		{paper.Stock{Grammage: units.GSM(100), Volume: 1.6, Measured: 97 * um}, 97 * um, false},
	} {
		if got, estimated := c.stock.Caliper(); got != c.want || estimated != c.estimated {
			t.Errorf("%+v: %s, estimate %v; want %s, %v", c.stock, units.FormatMicrons(got, false), estimated, units.FormatMicrons(c.want, false), c.estimated)
		}
	}
}

// TestVolumeUndoesCaliper on papers from tissue to board.
func TestVolumeUndoesCaliper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := units.Grammage(rapid.Int64Range(20_000, 600_000).Draw(t, "mg/m²"))
		v := rapid.Float64Range(0.6, 2.5).Draw(t, "cm³/g")
		if back := paper.VolumeOf(g, paper.CaliperOf(g, v)); math.Abs(back-v) > 1e-4 {
			t.Fatalf("%v cm³/g comes back as %v", v, back)
		}
	})
}

func TestFinishes(t *testing.T) {
	for _, f := range []paper.Finish{paper.Uncoated, paper.Coated, paper.Laminated, paper.Board} {
		if back, err := paper.ParseFinish(" " + f.String() + " "); err != nil || back != f {
			t.Errorf("%s reads back as %s (%v)", f, back, err)
		}
		if v, source := f.DefaultVolume(); v < 0.5 || v > 2.5 || source == "" {
			t.Errorf("%s: %v cm³/g from %q", f, v, source)
		}
	}
	_, err := paper.ParseFinish("shiny")
	if want := `"shiny" is no finish; write uncoated, coated, laminated or board [finish]`; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestGrain(t *testing.T) {
	for _, c := range []struct {
		text          string
		length, width units.Length
		want          paper.Grain
	}{
		{"length", 860 * mm, 610 * mm, paper.GrainAlongS},
		{"along the width", 860 * mm, 610 * mm, paper.GrainAlongT},
		{"Long", 860 * mm, 610 * mm, paper.GrainAlongS},
		{"long grain", 610 * mm, 860 * mm, paper.GrainAlongT},
		{"short", 860 * mm, 610 * mm, paper.GrainAlongT},
		{"short grain", 610 * mm, 860 * mm, paper.GrainAlongS},
		{"unknown", 860 * mm, 610 * mm, paper.GrainUnknown},
		{"", 860 * mm, 610 * mm, paper.GrainUnknown},
	} {
		got, err := paper.ParseGrain(c.text, c.length, c.width)
		if err != nil || got != c.want {
			t.Errorf("%q on %s x %s: %s (%v), want %s", c.text, c.length.Format(false), c.width.Format(false), got, err, c.want)
		}
		if back, err := paper.ParseGrain(got.String(), c.length, c.width); err != nil || back != got {
			t.Errorf("%s reads back as %s (%v)", got, back, err)
		}
		long, known := got.Long(c.length, c.width)
		if turnedLong, turnedKnown := got.Turned().Long(c.width, c.length); long != turnedLong || known != turnedKnown {
			t.Errorf("%q: the way the sheet is drawn changes the paper", c.text)
		}
	}
	for text, want := range map[string]string{
		"long":     `"long" means nothing on a square sheet; write length or width [grain]`,
		"diagonal": `"diagonal" is no direction of the grain; write length, width, long, short or unknown [grain]`,
	} {
		_, err := paper.ParseGrain(text, 500*mm, 500*mm)
		if err == nil || err.Error() != want || len(fault.All(err)) != 1 {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
	if _, known := paper.GrainAlongS.Long(500*mm, 500*mm); known {
		t.Error("a square sheet has no long side")
	}
}
