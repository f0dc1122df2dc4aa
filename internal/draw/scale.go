package draw

import (
	"math"

	"foldwright/internal/units"
)

// scale maps lengths of the real thing to millimetres of the picture.
type scale struct{ ratio float64 } // picture : real

// fit is the largest usual scale at which length × width fit into w × h mm.
func fit(length, width units.Length, w, h float64) scale {
	r := math.Min(w/width.MM(), h/length.MM())
	return scale{usual(r)}
}

func (s scale) mm(l units.Length) float64 { return l.MM() * s.ratio }

// name writes the scale the way drawings do: 1:5, 2:1.
func (s scale) name() string {
	if s.ratio >= 1 {
		return num(s.ratio) + ":1"
	}
	return "1:" + num(math.Round(1000/s.ratio)/1000)
}

// usual is the greatest scale not above r that a drawing may have: those of ISO 5455 and the steps between that people
// can still divide by in their heads.
func usual(r float64) float64 {
	for _, denominator := range []float64{1, 2, 2.5, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100} {
		if 1/denominator <= r {
			return 1 / denominator
		}
	}
	return r
}
