package draw

import (
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// ruler draws a scale of the shaft along y, from one place to another; x maps places to the picture.
type ruler struct {
	y        float64
	from, to units.Length
	x        func(units.Length) float64
}

// grading is how far apart the ticks of a ruler stand: fine, middle and named ones.
type grading struct{ fine, middle, named units.Length }

// gradings are ordered from fine to coarse.
var (
	metric = []grading{
		{units.Millimetre, 5 * units.Millimetre, 10 * units.Millimetre},
		{5 * units.Millimetre, 10 * units.Millimetre, 50 * units.Millimetre},
		{10 * units.Millimetre, 50 * units.Millimetre, 100 * units.Millimetre},
		{20 * units.Millimetre, 100 * units.Millimetre, 200 * units.Millimetre},
	}
	imperial = []grading{
		{units.Inch / 16, units.Inch / 4, units.Inch / 2},
		{units.Inch / 4, units.Inch / 2, units.Inch},
		{units.Inch / 2, units.Inch, 2 * units.Inch},
		{units.Inch, 2 * units.Inch, 4 * units.Inch},
	}
)

// draw picks the finest grading whose ticks and figures keep apart and draws it, ticks upwards, figures below.
func (r ruler) draw(p *Picture, say *words.Speaker) {
	const size, closest, roomy = 2.4, 0.9, 9.0
	scales := metric
	if say.Inch {
		scales = imperial
	}
	g := scales[len(scales)-1]
	for _, s := range scales {
		if r.x(s.fine)-r.x(0) >= closest && r.x(s.named)-r.x(0) >= roomy {
			g = s
			break
		}
	}
	p.Line(r.x(r.from), r.y, r.x(r.to), r.y, penRuler)
	first := (r.from + g.fine - 1) / g.fine * g.fine
	for at := first; at <= r.to; at += g.fine {
		tick := 1.2
		switch {
		case at%g.named == 0:
			tick = 3
			p.Write(Text{X: r.x(at), Y: r.y + size + 0.6, Size: size, Anchor: Middle, Ink: Grey, String: say.Bare(at)})
		case at%g.middle == 0:
			tick = 2
		}
		p.Line(r.x(at), r.y, r.x(at), r.y-tick, penRuler)
	}
}
