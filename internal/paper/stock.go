// Package paper knows sheets as material: sizes with names, grammage, caliper, mass, grain.
//
// A caliper that nobody measured is an estimate from grammage and specific volume; [Stock.Caliper] says so, and whoever
// shows the figure says so too: the grades themselves are made to ±5 % of the grammage and ±0.013 mm of the thickness.
package paper

import (
	"math"

	"foldwright/internal/units"
)

// Stock is the paper of a job.
type Stock struct {
	Name     string
	Grammage units.Grammage
	Finish   Finish
	Grain    Grain
	Volume   float64      // specific volume in cm³/g; 0 = the default of the finish
	Measured units.Length // measured caliper of one sheet; 0 = not measured
}

// Caliper is the thickness of one sheet: the measured one, or grammage × specific volume as an estimate.
func (s Stock) Caliper() (t units.Length, estimated bool) {
	if s.Measured > 0 {
		return s.Measured, false
	}
	volume := s.Volume
	if volume == 0 {
		volume, _ = s.Finish.DefaultVolume()
	}
	return CaliperOf(s.Grammage, volume), true
}

// CaliperOf is the thickness of paper of a grammage and a specific volume in cm³/g: g/m² × cm³/g = µm.
func CaliperOf(g units.Grammage, volume float64) units.Length {
	return units.Length(math.Round(float64(g) * volume)) // mg/m² × cm³/g = nm
}

// VolumeOf is the specific volume in cm³/g of paper of a grammage and a caliper.
func VolumeOf(g units.Grammage, caliper units.Length) float64 { return float64(caliper) / float64(g) }

// PagesPerInch is how many pages are an inch thick; a leaf has two.
func PagesPerInch(caliper units.Length) float64 { return 2 * float64(units.Inch) / float64(caliper) }

// MassPer1000 is the mass in kilograms of 1000 sheets.
func MassPer1000(g units.Grammage, length, width units.Length) float64 {
	area := float64(length) / float64(units.Metre) * float64(width) / float64(units.Metre)
	return g.G() * area // g a sheet, hence kg a thousand
}
