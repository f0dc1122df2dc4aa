package units

import (
	"maps"
	"math/big"
)

// lengthUnits are the names of units of length, in nanometres. The inch is 25.4 mm exactly.
var lengthUnits = map[string]*big.Rat{
	"um": whole(Micrometre), "micron": whole(Micrometre), "microns": whole(Micrometre),
	"mm": whole(Millimetre), "cm": whole(10 * Millimetre), "m": whole(Metre),
	"in": whole(Inch), "inch": whole(Inch), "inches": whole(Inch), `"`: whole(Inch),
	"mil": big.NewRat(int64(Inch), 1000), "mils": big.NewRat(int64(Inch), 1000),
}

var (
	lengths = measure{
		name: "length", code: CodeLength, zero: true,
		units:   with(lengthUnits, "pt", big.NewRat(int64(Inch), 72)), // typographic: rules and spaces
		most:    int64(100 * Metre),
		mostIs:  "100 m",
		example: "a number and mm, cm, m, µm, in or pt, such as 210 mm, 8.5 in or 8 1/2 in",
	}
	thicknesses = measure{
		name: "thickness", code: CodeThickness, zero: false,
		units:   with(lengthUnits, "pt", big.NewRat(int64(Inch), 1000)), // of caliper: a 10 pt cover is 0.010 in thick
		most:    int64(100 * Millimetre),
		mostIs:  "100 mm",
		example: "a number and µm, mm, pt, mil or in, such as 95 µm, 0.1 mm or 10 pt",
	}
	speeds = measure{
		name: "speed", code: CodeSpeed, zero: false,
		units: map[string]*big.Rat{
			"m/min": whole(Metre), "mm/min": whole(Millimetre), "in/min": whole(Inch), "ft/min": whole(12 * Inch),
			"m/s": whole(60 * Metre),
		},
		most:    int64(2000 * Metre),
		mostIs:  "2000 m/min",
		example: "a number and m/min, in/min or ft/min, such as 120 m/min",
	}
)

// ParseLength reads a length that is not negative: "210 mm", "8 1/2 in", `23-1/16"`, "0.5 cm". A number alone is in the
// unit bare, [Millimetre] or [Inch]; with bare 0 it is refused. Here pt is the typographic point, 1/72 in.
func ParseLength(text string, bare Length) (Length, error) {
	n, err := lengths.parse(text, unit(bare), false)
	return Length(n), err
}

// ParseOffset reads a length with a sign, such as a lap to the other side; otherwise it is as [ParseLength].
func ParseOffset(text string, bare Length) (Length, error) {
	n, err := lengths.parse(text, unit(bare), true)
	return Length(n), err
}

// ParseThickness reads the thickness of a sheet or of a tool's edge. Here pt is the caliper point, 1/1000 in; otherwise
// it is as [ParseLength], and bare is most often [Micrometre].
func ParseThickness(text string, bare Length) (Length, error) {
	n, err := thicknesses.parse(text, unit(bare), false)
	return Length(n), err
}

// ParseSpeed reads a speed; a number alone is m/min.
func ParseSpeed(text string) (Speed, error) {
	n, err := speeds.parse(text, whole(Metre), false)
	return Speed(n), err
}

func whole(l Length) *big.Rat { return big.NewRat(int64(l), 1) }

// unit is the size of a bare number; nil, which refuses it, when there is none.
func unit(bare Length) *big.Rat {
	if bare == 0 {
		return nil
	}
	return whole(bare)
}

// with returns the units and one more.
func with(units map[string]*big.Rat, name string, size *big.Rat) map[string]*big.Rat {
	all := maps.Clone(units)
	all[name] = size
	return all
}
