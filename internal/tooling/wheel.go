package tooling

import (
	"math"
	"strconv"
	"strings"

	"foldwright/internal/units"
)

// Perforation is what a perforating wheel leaves: so far from the start of one cut to the next, and the share of it that
// is cut (0 when the spec tells the pitch alone).
type Perforation struct {
	Pitch units.Length
	Cut   float64
}

// Perforation reads the spec of a perforating wheel; it is not known when the spec is empty or of another kind of tool.
// The pitch of 12 teeth to the inch is 25.4/12 mm, rounded to the nanometre.
func (t Type) Perforation() (p Perforation, ok bool) {
	if t.Kind != Perforate {
		return Perforation{}, false
	}
	if number, ok := strings.CutSuffix(t.Spec, " tpi"); ok {
		teeth, err := strconv.ParseFloat(number, 64)
		if err != nil || teeth <= 0 {
			return Perforation{}, false
		}
		return Perforation{Pitch: units.Length(math.Round(float64(units.Inch) / teeth))}, true
	}
	cutText, tieText, ok := strings.Cut(t.Spec, "/")
	if !ok {
		return Perforation{}, false
	}
	cut, err1 := units.ParseLength(cutText, units.Millimetre)
	tie, err2 := units.ParseLength(tieText, units.Millimetre)
	if err1 != nil || err2 != nil || cut+tie <= 0 {
		return Perforation{}, false
	}
	return Perforation{Pitch: cut + tie, Cut: float64(cut) / float64(cut+tie)}, true
}

// Teeth is how many teeth a wheel of a diameter carries for a wanted pitch, at least one, and the pitch that this truly
// gives: the rim, π · diameter, holds a whole number of teeth only.
func Teeth(diameter, pitch units.Length) (teeth int, actual units.Length) {
	rim := math.Pi * float64(diameter)
	teeth = max(1, int(math.Round(rim/float64(pitch))))
	return teeth, units.Length(math.Round(rim / float64(teeth)))
}

// Run is the set after so many sheets of that length along the travel have passed: its wear in thousand metres grows.
func (s Set) Run(sheets int, length units.Length) Set {
	s.MetresK += float64(sheets) * length.MM() / 1e6
	return s
}
