// Package units holds the quantities of the shop as whole numbers: [Length] in nanometres, [Grammage] in milligrams a
// square metre, [Speed] in nanometres a minute. Durations are the standard library's.
//
// Whole nanometres hold every millimetre, micrometre and 1/64 inch exactly, so inches at the edges cost nothing inside.
// What does not come out whole (a third of an inch, a typographic point) is rounded once, to the nearest nanometre.
//
// What people type is read by [ParseLength], [ParseOffset], [ParseThickness], [ParseGrammage], [ParseSpeed] and
// [ParseMinutes], which share one grammar of numbers: 210, 8.5, 8,5, 1/2, 8 1/2, 23-1/16, 8½. They give a [fault.Fault]
// that says what would be right, and never guess: "1,189" and "60 lb" are refused because each can be read two ways.
// What people read is written by the Format methods; the Exact methods write what reads back as the very same value.
package units

import "math"

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

// MM makes a length of a number of millimetres, rounded to the nearest nanometre; halves go away from zero.
func MM(mm float64) Length { return Length(math.Round(mm * float64(Millimetre))) }
