package units_test

import (
	"math"
	"testing"

	"foldwright/internal/units"
)

// TestBasisWeights holds conversions to published and derived figures. Sources: GRAM the article on grammage of a public
// printing encyclopedia; JCP the grades of the US Government Paper Specification Standards no. 11 (1999), which pair
// rounded metric values; sum = arithmetic, 453.59237 g over 500 sheets of the basic size.
func TestBasisWeights(t *testing.T) {
	for _, c := range []struct {
		text   string
		want   float64 // g/m²
		within float64
		source string
	}{
		{"20 lb bond", 75.19, 0.005, "sum; GRAM has 75.2"},
		{"16 lb bond", 60.2, 0.05, "sum"},
		{"24 lb bond", 90.2, 0.05, "sum"},
		{"32 lb bond", 120.3, 0.05, "sum"},
		{"60 lb text", 88.81, 0.005, "sum"},
		{"100 lb text", 148.01, 0.01, "sum"},
		{"50 lb text", 75, 0.02 * 75, "JCP pairs 50 lb with 75 g/m²"},
		{"70 lb offset", 105, 0.02 * 105, "JCP pairs 70 lb with 105 g/m²"},
		{"80 lb cover", 216.33, 0.005, "sum"},
		{"80 lb cover", 215, 0.02 * 215, "JCP"},
		{"65 lb cover", 175.8, 0.05, "sum"},
		{"110 lb index", 198.88, 0.01, "sum"},
		{"110 lb index", 200, 0.02 * 200, "JCP K10"},
		{"67 lb bristol", 146.92, 0.005, "sum"},
		{"150 lb tag", 244.12, 0.005, "sum"},
		{"150 lb tag", 245, 0.02 * 245, "JCP P20"},
	} {
		got, err := units.ParseGrammage(c.text)
		if err != nil || math.Abs(got.G()-c.want) > c.within {
			t.Errorf("%s = %.3f g/m² (%v), want %.3f ± %.3f: %s", c.text, got.G(), err, c.want, c.within, c.source)
		}
	}
}

// TestBasisFactors compares the factors g/m² a pound with the printed ones of GRAM: 3.760, 2.704, 1.627, 1.480.
func TestBasisFactors(t *testing.T) {
	for name, want := range map[string]float64{"bond": 3.760, "cover": 2.704, "tag": 1.627, "text": 1.480} {
		c, ok := units.BasisClassNamed(name)
		// a million pounds, so that whole milligrams do not round the factor
		if got := c.Grammage(1e6).G() / 1e6; !ok || math.Abs(got-want) > 0.0006 {
			t.Errorf("a pound of %s is %.5f g/m², want %.3f", name, got, want)
		}
	}
}

// TestPounds: 103.6 g/m² is 69.99 lb as text paper (GRAM: about 70). And whatever the class, there and back is the same.
func TestPounds(t *testing.T) {
	text, _ := units.BasisClassNamed("text")
	if got := text.Pounds(units.GSM(103.6)); math.Abs(got-69.99) > 0.005 {
		t.Errorf("103.6 g/m² is %.3f lb text, want 69.99", got)
	}
	for _, c := range units.BasisClasses() {
		if back := c.Pounds(c.Grammage(80)); math.Abs(back-80) > 0.001 {
			t.Errorf("80 lb %s comes back as %.4f lb", c.Name, back)
		}
	}
}

// TestPublishedLengths: the inch is 25.4 mm by definition; the fractions are the table of a trade handbook to 0.01 mm;
// 1 pt of caliper is 0.001 in, so a 10 pt cover is 254 µm (JCP L80: 0.26 mm); a typographic point of 1/72 in is 0.353 mm
// (from memory).
func TestPublishedLengths(t *testing.T) {
	for text, want := range map[string]float64{
		"1 in": 25.4, "1/32 in": 0.79, "1/16 in": 1.59, "3/32 in": 2.38, "1/8 in": 3.18, "1/4 in": 6.35, "3/8 in": 9.53, "5/8 in": 15.88,
		"1 pt": 0.353, "2 pt": 0.71, "3 pt": 1.06, "8 1/2 in": 215.9, "11 in": 279.4, "14 in": 355.6,
	} {
		if got, err := units.ParseLength(text, 0); err != nil || math.Abs(got.MM()-want) > 0.0051 {
			t.Errorf("%s = %v mm (%v), want %v", text, got.MM(), err, want)
		}
	}
	if got, err := units.ParseThickness("10 pt", 0); err != nil || got != 254*units.Micrometre {
		t.Errorf("a 10 pt cover is %v (%v), want 254 µm", got.Exact(), err)
	}
}

// TestPublishedSpeed: a trade magazine of 2002 gives 9000 in/min as the top speed of folders; that is 228.6 m/min.
func TestPublishedSpeed(t *testing.T) {
	if got, err := units.ParseSpeed("9000 in/min"); err != nil || got.MPerMin() != 228.6 {
		t.Errorf("9000 in/min = %v m/min (%v), want 228.6", got.MPerMin(), err)
	}
}
