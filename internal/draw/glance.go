package draw

import (
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// The measures of a set at a glance, mm on the picture.
const (
	glanceWidth  = 58.0
	glanceHeight = 2*wheelHeight + 2
	glanceEdge   = 3.0
)

// Glance draws the pair of shafts small and without letters, for lists: the datum shoulder at the left, a block where each
// tool sits, its line as its kind is drawn everywhere. All of a list are drawn to the scale of the longest.
func (s *Shaft) Glance(longest units.Length) *Picture {
	p := &Picture{Width: glanceWidth, Height: glanceHeight}
	e := &elevation{p: p, s: s, scale: (glanceWidth - 2*glanceEdge) / longest.MM(), left: glanceEdge, axis: glanceHeight / 2}
	for _, y := range []float64{e.axis - 3, e.axis + 3} {
		p.Line(e.left, y, e.x(s.Class.Length), y, Pen{Width: Wide})
	}
	p.Area(Box{e.left - 2, e.axis - 5, 2, 10}, Black)
	for _, t := range s.Tools {
		e.block(t)
		e.workingLine(t)
	}
	return p
}

// block is the room a tool takes on both shafts.
func (e *elevation) block(t tooling.Tool) {
	body := e.s.Body(t.Type)
	lo, hi := e.x(t.At-body.Left), e.x(t.At+body.Right)
	for _, y := range []float64{e.axis - wheelHeight, e.axis + 0.5} {
		b := Box{lo, y, hi - lo, wheelHeight - 0.5}
		e.p.Area(b, White)
		e.p.Outline(b, penTool)
	}
}
