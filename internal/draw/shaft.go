package draw

import (
	"strconv"

	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// Shaft is a pair of shafts as it is to be drawn, with everything on it measured from the datum shoulder.
type Shaft struct {
	Name      string // of the station or of the set
	Class     tooling.Class
	Usable    tooling.Window
	Tools     []tooling.Tool
	Body      func(tooling.Type) tooling.Body
	Rings     []units.Length
	RingWidth units.Length
	Paper     tooling.Window // what the stack covers; empty when no sheet is meant
}

// The heights of an elevation, mm on the picture; they are the same at every scale, only lengths along the shaft are true.
const (
	wheelHeight    = 6.0
	shaftHeight    = 2.6
	numberHeight   = 4.8  // above the wheels: numbers
	spacingHeight  = 4.2  // above those, where there are two tools or more: spacings
	positionHeight = 11.5 // below them: positions, written upwards
	rulerHeight    = 7.0
)

// above is the room above the wheels.
func (s *Shaft) above() float64 {
	if len(s.Tools) < 2 {
		return numberHeight
	}
	return numberHeight + spacingHeight
}

// Height is what the elevation of a shaft takes on the picture.
func (s *Shaft) Height() float64 {
	return s.above() + 2*wheelHeight + positionHeight + rulerHeight
}

var (
	penShaft = Pen{Width: Medium}
	penTool  = Pen{Width: Medium, Ink: Blue}
	penRing  = Pen{Width: Narrow, Ink: Grey}
	penCut   = Pen{Width: Wide, Ink: Orange}
	penPerf  = Pen{Kind: Dotted, Width: Wide, Ink: Blue}
	penScore = Pen{Kind: LongDashedDoubleDotted, Width: Medium, Ink: Blue}
)

// elevation draws a shaft at a place of the picture.
type elevation struct {
	p     *Picture
	s     *Shaft
	say   *words.Speaker
	scale float64 // picture : real
	left  float64 // the datum shoulder on the picture
	axis  float64 // where the paper runs between the two shafts
}

// Elevation draws the pair of shafts to scale into the box, the datum shoulder at the left, and returns the scale's name.
func (p *Picture) Elevation(box Box, s *Shaft, say *words.Speaker) string {
	const shoulder = 6
	sc := scale{usual((box.W - 2*shoulder) / s.Class.Length.MM())}
	e := &elevation{p: p, s: s, say: say, scale: sc.ratio, left: box.X + shoulder, axis: box.Y + s.above() + wheelHeight}
	e.shafts()
	e.paper()
	for _, at := range s.Rings {
		e.ring(at)
	}
	for i, t := range s.Tools {
		e.tool(i, t)
	}
	e.spacings()
	e.positions()
	ruler{y: e.axis + wheelHeight + positionHeight + 3.2, to: s.Class.Length, x: e.x}.draw(p, say)
	return sc.name()
}

func (e *elevation) x(at units.Length) float64 { return e.left + at.MM()*e.scale }

// shafts draws both shafts from the datum shoulder; what tools cannot use is pale.
func (e *elevation) shafts() {
	end := e.x(e.s.Class.Length)
	for _, y := range []float64{e.axis - wheelHeight/2, e.axis + wheelHeight/2} {
		body := Box{e.left, y - shaftHeight/2, end - e.left, shaftHeight}
		e.p.Area(body, Pale)
		lo, hi := e.x(max(0, e.s.Usable.Lo)), e.x(min(e.s.Class.Length, e.s.Usable.Hi))
		e.p.Area(Box{lo, body.Y, hi - lo, shaftHeight}, White)
		e.p.Outline(body, penShaft)
		e.p.Area(Box{e.left - 2.2, y - wheelHeight*0.36, 2.2, wheelHeight * 0.72}, Black) // the shoulder
	}
	e.p.Write(Text{X: e.left - 3.2, Y: e.axis + wheelHeight, Size: 2.4, Turns: 1, Ink: Grey, String: e.say.Say("datum")})
}

// paper draws the stack edge-on between the shafts.
func (e *elevation) paper() {
	if e.s.Paper.Empty() {
		return
	}
	lo, hi := e.x(e.s.Paper.Lo), e.x(e.s.Paper.Hi)
	e.p.Area(Box{lo, e.axis - 0.5, hi - lo, 1}, Green)
	for _, x := range []float64{lo, hi} {
		e.p.Line(x, e.axis-wheelHeight, x, e.axis+wheelHeight, Pen{Kind: Dashed, Width: Narrow, Ink: Green})
	}
}

func (e *elevation) ring(at units.Length) {
	w := e.s.RingWidth.MM() * e.scale
	for _, y := range []float64{e.axis - wheelHeight*0.9, e.axis + 0.5} {
		b := Box{e.x(at) - w/2, y, w, wheelHeight*0.9 - 0.5}
		e.p.Area(b, Pale)
		e.p.Outline(b, penRing)
	}
}

// tool draws the body of a tool on both shafts and its working line, each kind in its own way, with its number above.
func (e *elevation) tool(i int, t tooling.Tool) {
	e.block(t)
	e.workingLine(t)
	e.p.Write(Text{X: e.x(t.At), Y: e.axis - wheelHeight - 1.4, Size: 3, Bold: true, Anchor: Middle, String: strconv.Itoa(i + 1)})
}

// workingLine marks where the tool works: cuts run right through, a strip is shaded, perforations are dotted, scores
// long-dashed double-dotted.
func (e *elevation) workingLine(t tooling.Tool) {
	top, bottom := e.axis-wheelHeight, e.axis+wheelHeight
	at := []units.Length{t.At}
	pen := map[tooling.Kind]Pen{tooling.Slit: penCut, tooling.Strip: penCut, tooling.Perforate: penPerf, tooling.Score: penScore}[t.Kind]
	if w, ok := t.Width(); ok && t.Kind == tooling.Strip {
		at = []units.Length{t.At - w/2, t.At + w/2}
		e.p.Area(Box{e.x(at[0]), top, e.x(at[1]) - e.x(at[0]), bottom - top}, Pale)
	}
	for _, a := range at {
		e.p.Line(e.x(a), top, e.x(a), bottom, pen)
	}
}

// spacings writes the distance between neighbours above the numbers, where there is room for it.
func (e *elevation) spacings() {
	const size = 2.4
	y := e.axis - wheelHeight - 5.6
	for i := 1; i < len(e.s.Tools); i++ {
		a, b := e.s.Tools[i-1].At, e.s.Tools[i].At
		text := e.say.Bare(b - a)
		from, to := e.x(a), e.x(b)
		e.p.Line(from, y, to, y, penRuler)
		e.p.Line(from, y-0.8, from, y+0.8, penRuler)
		e.p.Line(to, y-0.8, to, y+0.8, penRuler)
		if TextWidth(text, size, false) < to-from-1 {
			e.p.Write(Text{X: (from + to) / 2, Y: y - 0.8, Size: size, Anchor: Middle, Ink: Grey, String: text})
		}
	}
}

// positions writes the place of every tool and, smaller, of every ring below it, upwards, moved aside where they would touch.
func (e *elevation) positions() {
	const size, pitch = 2.6, 3.1
	last := e.left - pitch
	for _, m := range e.marks() {
		x := max(e.x(m.at), last+pitch)
		last = x
		foot := e.axis + wheelHeight + positionHeight - 0.8
		text := Text{X: x + 0.9, Y: foot, Size: size, Bold: m.tool, Turns: 1, String: e.say.Bare(m.at)}
		if !m.tool {
			text.Ink = Grey
		}
		e.p.Line(e.x(m.at), e.axis+wheelHeight, x, foot-TextWidth(text.String, size, m.tool)-0.6, penRuler)
		e.p.Write(text)
	}
}

// mark is a place that is written out.
type mark struct {
	at   units.Length
	tool bool
}

// marks lists tools and rings from the datum on.
func (e *elevation) marks() []mark {
	var list []mark
	rings := e.s.Rings
	for _, t := range e.s.Tools {
		for len(rings) > 0 && rings[0] < t.At {
			list, rings = append(list, mark{rings[0], false}), rings[1:]
		}
		list = append(list, mark{t.At, true})
	}
	for _, at := range rings {
		list = append(list, mark{at, false})
	}
	return list
}
