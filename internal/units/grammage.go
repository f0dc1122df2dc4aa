package units

import (
	"math"
	"math/big"
	"strings"

	"foldwright/internal/fault"
)

// Grammage is mass per area in milligrams a square metre; 80 g/m² is 80 * GramPerM2.
type Grammage int64

// GramPerM2 is one gram a square metre.
const GramPerM2 Grammage = 1000

// G returns the grammage in g/m².
func (g Grammage) G() float64 { return float64(g) / float64(GramPerM2) }

// BasisClass is a class of North American paper. Its basis weight is the mass in pounds of 500 sheets of a basic size,
// which differs from class to class: 80 lb cover is 1.83 times as heavy as 80 lb text.
type BasisClass struct {
	Name          string
	Length, Width Length // the basic size
	names         []string
}

// basisClasses: the basic sizes agree in public lists of the trade.
var basisClasses = []BasisClass{
	{"bond", 22 * Inch, 17 * Inch, []string{"bond", "writing", "ledger"}},
	{"text", 38 * Inch, 25 * Inch, []string{"text", "book", "offset"}},
	{"cover", 26 * Inch, 20 * Inch, []string{"cover"}},
	{"index", 61 * Inch / 2, 51 * Inch / 2, []string{"index"}},
	{"bristol", 57 * Inch / 2, 45 * Inch / 2, []string{"bristol"}},
	{"tag", 36 * Inch, 24 * Inch, []string{"tag", "newsprint"}},
}

// BasisClasses returns the classes: bond, text, cover, index, bristol, tag.
func BasisClasses() []BasisClass { return append([]BasisClass(nil), basisClasses...) }

// BasisClassNamed finds a class by its name or by another name of the trade for the same basic size.
func BasisClassNamed(name string) (BasisClass, bool) {
	for _, c := range basisClasses {
		for _, n := range c.names {
			if n == strings.ToLower(strings.TrimSpace(name)) {
				return c, true
			}
		}
	}
	return BasisClass{}, false
}

// perPound is the grammage of one pound of the class, in mg/m²: the pound is 453.59237 g exactly, a ream 500 sheets.
func (c BasisClass) perPound() *big.Rat {
	ream := big.NewRat(500, 1) // m²
	ream.Mul(ream, big.NewRat(int64(c.Length), int64(Metre)))
	ream.Mul(ream, big.NewRat(int64(c.Width), int64(Metre)))
	pound := big.NewRat(453_592_370, 1000) // mg
	return pound.Quo(pound, ream)
}

// Grammage converts a basis weight in pounds.
func (c BasisClass) Grammage(pounds float64) Grammage {
	perPound, _ := c.perPound().Float64()
	return GSM(pounds * perPound / float64(GramPerM2))
}

// Pounds gives the basis weight of a grammage.
func (c BasisClass) Pounds(g Grammage) float64 {
	perPound, _ := c.perPound().Float64()
	return float64(g) / perPound
}

var grammages = measure{
	name: "grammage", code: CodeGrammage, zero: false,
	units: map[string]*big.Rat{
		"g": gram, "g/m2": gram, "g/m^2": gram, "g/qm": gram, "gsm": gram,
	},
	most:    5000 * int64(GramPerM2),
	mostIs:  "5000 g/m²",
	example: "a number and g/m², or a basis weight with its class, such as 80 g/m² or 60 lb text",
}

var gram = big.NewRat(int64(GramPerM2), 1)

// ParseGrammage reads "80", "80 g/m²", "80 gsm", or a basis weight with its class: "60 lb text", "20# bond". A number
// alone is g/m²; pounds without a class are refused, for nobody can tell which paper is meant.
func ParseGrammage(text string) (Grammage, error) {
	m := grammages
	unsigned, _ := cutSign(tidy(text))
	if _, unit, wrong := number(unsigned); wrong == "" {
		if class, isPounds := cutPounds(unit); isPounds {
			c, known := BasisClassNamed(class)
			if !known {
				return 0, noClass(text, class)
			}
			m.units = map[string]*big.Rat{unit: c.perPound()}
		}
	}
	n, err := m.parse(text, gram, false)
	return Grammage(n), err
}

// cutPounds takes the sign of pounds off a unit; what is left is the class.
func cutPounds(unit string) (class string, ok bool) {
	for _, pounds := range []string{"lbs", "lb", "#"} {
		if class, ok := strings.CutPrefix(unit, pounds); ok {
			return strings.TrimSpace(class), true
		}
	}
	return "", false
}

// noClass is the fault of pounds that may mean any paper.
func noClass(text, class string) fault.Fault {
	f := fault.Fault{Code: CodeClass, Wrong: quote(text) + " does not say the class of the paper", Right: "write bond, text, cover, index, bristol or tag after the pounds, such as 60 lb text"}
	if class != "" {
		f.Wrong = quote(class) + " is no class of paper whose basic size is known"
	}
	return f
}

// GSM makes a grammage of a number of grams a square metre, rounded to the nearest milligram.
func GSM(g float64) Grammage { return Grammage(math.Round(g * float64(GramPerM2))) }

// Format gives the grammage for people, in g/m² to at most one decimal.
func (g Grammage) Format() string {
	return decimalText(big.NewRat(int64(g), int64(GramPerM2)), 1) + " g/m²"
}

// Exact gives the grammage so that [ParseGrammage] reads the same value back.
func (g Grammage) Exact() string {
	return decimalText(big.NewRat(int64(g), int64(GramPerM2)), 3) + " g/m²"
}
