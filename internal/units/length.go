// Package units holds the quantities of the shop as whole numbers: [Length] in nanometres, [Grammage] in milligrams a
// square metre, [Speed] in nanometres a minute.
//
// Whole nanometres hold every millimetre, micrometre and 1/64 inch exactly, so inches at the edges cost nothing inside.
// What people type is read by [ParseLength] and its siblings; what people read is written by the Format methods.
package units

// Length is a distance or a thickness in nanometres. It is used as time.Duration is: 3 * Millimetre.
type Length int64

const (
	Nanometre  Length = 1
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Metre             = 1000 * Millimetre
	Inch              = 25_400_000 * Nanometre
)

// MM returns the length in millimetres.
func (l Length) MM() float64 { return float64(l) / float64(Millimetre) }

// Inches returns the length in inches.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// Microns returns the length in micrometres.
func (l Length) Microns() float64 { return float64(l) / float64(Micrometre) }

// MM makes a length of a number of millimetres, rounded to the nearest nanometre.
func MM(mm float64) Length { return Length(round(mm * float64(Millimetre))) }

func round(x float64) int64 {
	if x < 0 {
		return -int64(-x + 0.5)
	}
	return int64(x + 0.5)
}

// Grammage is mass per area in milligrams a square metre; 80 g/m² is 80 * GramPerM2.
type Grammage int64

// GramPerM2 is one gram a square metre.
const GramPerM2 Grammage = 1000

// G returns the grammage in g/m².
func (g Grammage) G() float64 { return float64(g) / float64(GramPerM2) }

// Speed is a length a minute.
type Speed int64

// MetrePerMin is one metre a minute.
const MetrePerMin Speed = Speed(Metre)

// MPerMin returns the speed in m/min.
func (s Speed) MPerMin() float64 { return float64(s) / float64(MetrePerMin) }
