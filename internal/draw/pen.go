package draw

// Ink is a colour by what it stands for, so that screens can turn it round for the dark and paper can do without.
type Ink uint8

const (
	Black  Ink = iota // what is there: edges, texts
	Grey              // what helps: rulers, dimensions, grids
	Pale              // areas behind something
	White             // gaps in areas
	Blue              // what is set or fitted for this job
	Orange            // what must not be overlooked: cuts, late jobs
	Green             // what stays as it is
)

// rgb are the colours on paper: told apart in greys and by people who confuse red with green (after the public set of
// Okabe and Ito, from memory).
var rgb = [...][3]uint8{
	Black: {0, 0, 0}, Grey: {96, 96, 96}, Pale: {232, 232, 228}, White: {255, 255, 255},
	Blue: {0, 92, 150}, Orange: {190, 80, 0}, Green: {0, 110, 85},
}

var inkNames = [...]string{
	Black: "black", Grey: "grey", Pale: "pale", White: "white", Blue: "blue", Orange: "orange", Green: "green",
}

// Kind is a line kind of ISO 128-2; the numbers are the standard's.
type Kind uint8

const (
	Continuous             Kind = 1
	Dashed                 Kind = 2
	LongDashedDotted       Kind = 4
	LongDashedDoubleDotted Kind = 5
	Dotted                 Kind = 7
)

// dashes gives dash and gap in turn, as multiples of the line's width (ISO 128-20 table of line elements, from memory:
// dash 12 d, long dash 24 d, gap 3 d, dot at most 0.5 d).
var dashes = map[Kind][]float64{
	Dashed:                 {12, 3},
	LongDashedDotted:       {24, 3, 0.5, 3},
	LongDashedDoubleDotted: {24, 3, 0.5, 3, 0.5, 3},
	Dotted:                 {0.5, 3},
}

// Pen is how a line is drawn.
type Pen struct {
	Kind  Kind // zero = continuous
	Width float64
	Ink   Ink
}

// Widths of the ISO 128 series, narrow to extra-wide, mm.
const (
	Narrow = 0.18
	Medium = 0.25
	Wide   = 0.5
	Broad  = 0.7
)

// dash is the pen's dash pattern in mm; nil for a continuous line.
func (p Pen) dash() []float64 {
	unit := dashes[p.Kind]
	if unit == nil {
		return nil
	}
	mm := make([]float64, len(unit))
	for i, u := range unit {
		mm[i] = u * p.Width
	}
	return mm
}
