// Package paper knows sheets as material: sizes with names, grammage and basis weight, caliper, grain.
package paper

import "foldwright/internal/units"

// Grain is the direction of the fibres on the sheet as drawn.
type Grain uint8

const (
	GrainUnknown Grain = iota
	GrainAlongS        // along the sheet's length, the travel on the feed table
	GrainAlongT        // along its width
)

// Finish is how the surface was made; it decides default caliper and when to score.
type Finish uint8

const (
	Uncoated Finish = iota
	Coated
	Laminated
	Board
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
func (s Stock) Caliper() (t units.Length, estimated bool) { panic("not written yet") }
