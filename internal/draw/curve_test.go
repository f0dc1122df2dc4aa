package draw

import (
	"fmt"
	"testing"

	"foldwright/internal/words"
)

// A curve of our own making, 0 to 8 more sets.
var savings = Curve{
	Saved: []float64{0, 1460, 2310, 2890, 3160, 3290, 3370, 3420, 3440},
	Sets:  []string{"", "2 x perforate 12 tpi", "strip 6 mm", "score 0.7 mm", "perforate 18 tpi", "slit", "slit", "score 1 mm", "strip 8 mm"},
	Knee:  4,
}

func TestCurve(t *testing.T) {
	golden(t, "curve.svg", savings.Picture(words.NewSpeaker(words.English, false)).SVG())
	for reader, say := range readers() {
		for n := range savings.Saved {
			for knee := range n + 1 {
				c := Curve{Saved: savings.Saved[:n+1], Sets: savings.Sets, Knee: knee}
				holdLayout(t, fmt.Sprintf("curve of %d points, knee %d, %s", n+1, knee, reader), c.Picture(say))
			}
		}
		long := Curve{Knee: 30}
		for i := range 60 {
			long.Saved = append(long.Saved, float64(i)*1234)
			long.Sets = append(long.Sets, "perforate 12 tpi, perforate 12 tpi")
		}
		holdLayout(t, "long curve, "+reader, long.Picture(say))
	}
}

// The steps of the grid, by hand.
func TestNiceStep(t *testing.T) {
	for x, want := range map[float64]float64{0: 1, 1: 1, 1.1: 2, 3: 5, 7: 10, 688: 1000, 201: 500, 2000: 2000} {
		if got := niceStep(x); got != want {
			t.Errorf("niceStep(%g) is %g, want %g", x, got, want)
		}
	}
}
