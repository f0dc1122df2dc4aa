// Package draw makes the pictures that people look at and hold in their hands: one display list, written as SVG for the
// screen and as PDF for paper, so that both show the same thing.
//
// A [Picture] is measured in millimetres from its upper left corner, x to the right, y down. Everything drawn to scale
// says its scale. Lines follow the kinds of ISO 128; no meaning hangs on colour alone: what a colour says, a line kind,
// a letter or a word says too. Texts are drawn as text, never as shapes, so that they can be searched and read aloud.
//
// The same input gives the same bytes.
package draw

// Picture is a display list on a sheet of Width × Height mm.
type Picture struct {
	Width, Height float64
	Title         string // one line, for those who cannot see the picture
	Marks         []Mark // in the order in which they are painted
}

// Mark is one thing on the picture: [Stroke], [Fill] or [Text].
type Mark interface {
	bounds() Box
	placed(x, y, scale float64) Mark
}

// Box is a rectangle by its upper left corner.
type Box struct{ X, Y, W, H float64 }

// Right is the far edge of the box to the right.
func (b Box) Right() float64 { return b.X + b.W }

// Bottom is the far edge of the box downwards.
func (b Box) Bottom() float64 { return b.Y + b.H }

// Inset is the box less a margin on all sides.
func (b Box) Inset(m float64) Box { return Box{b.X + m, b.Y + m, b.W - 2*m, b.H - 2*m} }

// Overlaps says whether two boxes share area; boxes that touch do not.
func (b Box) Overlaps(c Box) bool {
	return b.X < c.Right() && c.X < b.Right() && b.Y < c.Bottom() && c.Y < b.Bottom()
}

// Contains says whether c lies in b, edges included.
func (b Box) Contains(c Box) bool {
	const slack = 1e-6 // sums of decimal millimetres
	return c.X >= b.X-slack && c.Y >= b.Y-slack && c.Right() <= b.Right()+slack && c.Bottom() <= b.Bottom()+slack
}

// Point is a place on the picture.
type Point struct{ X, Y float64 }

// Stroke is an open or closed run of straight lines.
type Stroke struct {
	Points []Point
	Closed bool
	Pen    Pen
}

// Fill is an area without an outline.
type Fill struct {
	Points []Point
	Ink    Ink
}

// Anchor says which point of a text stands at its place.
type Anchor uint8

const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of text; X, Y is on its base line.
type Text struct {
	X, Y   float64
	Size   float64 // of the em, mm
	Bold   bool
	Anchor Anchor
	Turns  int // quarter turns to the left about its place: 1 runs upwards, 2 stands on its head, 3 runs downwards
	Ink    Ink
	String string
}

func (s Stroke) bounds() Box { return boundsOf(s.Points) }
func (f Fill) bounds() Box   { return boundsOf(f.Points) }

// bounds is the room of the letters: from the height of a capital with its accent to the depth of a descender.
func (t Text) bounds() Box {
	w := TextWidth(t.String, t.Size, t.Bold)
	left := 0.0
	switch t.Anchor {
	case Middle:
		left = -w / 2
	case End:
		left = -w
	}
	up, down := ascent*t.Size, descent*t.Size
	switch t.Turns {
	case 1:
		return Box{t.X - up, t.Y - left - w, up + down, w}
	case 2:
		return Box{t.X - left - w, t.Y - down, w, up + down}
	case 3:
		return Box{t.X - down, t.Y + left, up + down, w}
	}
	return Box{t.X + left, t.Y - up, w, up + down}
}

func boundsOf(ps []Point) Box {
	if len(ps) == 0 {
		return Box{}
	}
	lo, hi := ps[0], ps[0]
	for _, p := range ps {
		lo.X, lo.Y = min(lo.X, p.X), min(lo.Y, p.Y)
		hi.X, hi.Y = max(hi.X, p.X), max(hi.Y, p.Y)
	}
	return Box{lo.X, lo.Y, hi.X - lo.X, hi.Y - lo.Y}
}

// Line draws a straight line.
func (p *Picture) Line(x1, y1, x2, y2 float64, pen Pen) {
	p.Marks = append(p.Marks, Stroke{Points: []Point{{x1, y1}, {x2, y2}}, Pen: pen})
}

// Outline draws the edge of a box.
func (p *Picture) Outline(b Box, pen Pen) {
	p.Marks = append(p.Marks, Stroke{Points: b.corners(), Closed: true, Pen: pen})
}

// Area fills a box.
func (p *Picture) Area(b Box, ink Ink) { p.Shape(b.corners(), ink) }

// Shape fills a polygon.
func (p *Picture) Shape(ps []Point, ink Ink) { p.Marks = append(p.Marks, Fill{Points: ps, Ink: ink}) }

// Path draws an open run of lines.
func (p *Picture) Path(ps []Point, pen Pen) { p.Marks = append(p.Marks, Stroke{Points: ps, Pen: pen}) }

// Write sets a line of text.
func (p *Picture) Write(t Text) {
	t.String = printable(t.String, t.Bold)
	p.Marks = append(p.Marks, t)
}

// arrow draws the head of an arrow that points along dx, dy (one of them 1 or -1, the other 0) to its tip.
func (p *Picture) arrow(tip Point, dx, dy, long float64, ink Ink) {
	base, half := Point{tip.X - dx*long, tip.Y - dy*long}, long*0.4
	p.Shape([]Point{tip, {base.X - dy*half, base.Y - dx*half}, {base.X + dy*half, base.Y + dx*half}}, ink)
}

func (b Box) corners() []Point {
	return []Point{{b.X, b.Y}, {b.Right(), b.Y}, {b.Right(), b.Bottom()}, {b.X, b.Bottom()}}
}
