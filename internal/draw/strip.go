package draw

import (
	"strconv"

	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// The measures of a full-scale strip, mm. Pages lie, so that fewer are needed.
const (
	stripMargin  = 12.0
	stripOverlap = 10.0 // what one page repeats of the last, to be laid on top
	stripAxis    = 105.0
	stripTall    = 20.0  // half the height of a tool
	stripHead    = 30.0  // where the words above end
	control      = 100.0 // the length that proves the print
)

// Strip draws a pair of shafts at full scale over as many pages as it is long, to be cut out and laid along the shaft. Each
// page carries a control length of 100 mm: when that does not measure 100 mm, the page was scaled in printing.
func (s *Shaft) Strip(paper Paper, say *words.Speaker) []*Picture {
	width, height := max(paper.Width, paper.Height), min(paper.Width, paper.Height)
	step := width - 2*stripMargin - stripOverlap
	var pages []*Picture
	for from := 0.0; from == 0 || from+stripOverlap < s.Class.Length.MM(); from += step {
		p := &Picture{Width: width, Height: height, Title: say.Say("Full-scale strip: %s, page %d", s.Name, len(pages)+1)}
		pages = append(pages, p)
		s.stripPage(p, from, from+step+stripOverlap, len(pages), say)
	}
	return pages
}

func (s *Shaft) stripPage(p *Picture, from, to float64, page int, say *words.Speaker) {
	end := min(to, s.Class.Length.MM())
	x := func(l units.Length) float64 { return stripMargin + l.MM() - from }
	p.Write(Text{X: stripMargin, Y: 18, Size: fitSize(s.Name, 6, p.Width/2), Bold: true, String: s.Name})
	p.Write(Text{X: p.Width - stripMargin, Y: 18, Size: 4, Anchor: End, String: say.Say("page %d", page)})
	span := say.Say("%s to %s from the datum shoulder, full scale", words.Bare(units.MM(from)), units.MM(end))
	p.Write(Text{X: stripMargin, Y: 26, Size: 3.6, String: span})
	s.controlLength(p, say)
	p.Line(x(units.MM(from)), stripAxis, x(units.MM(end)), stripAxis, Pen{Kind: LongDashedDotted, Width: Medium, Ink: Grey})
	if from == 0 {
		p.Area(Box{x(0) - 4, stripAxis - 14, 4, 28}, Black)
		p.Write(Text{X: x(0) + 1, Y: stripAxis - 16, Size: 3, Ink: Grey, String: say.Say("datum")})
	} else {
		s.joint(p, stripMargin+stripOverlap, say)
	}
	for i, t := range s.Tools {
		if at := t.At.MM(); at >= from && at <= end {
			s.stripTool(p, i, x, say)
		}
	}
	ruler{y: stripAxis + stripTall + 16, from: units.MM(from), to: units.MM(end), x: x}.draw(p, say)
}

// stripTool draws one tool with its body, the line to set the wheel to, and what it is.
func (s *Shaft) stripTool(p *Picture, i int, x func(units.Length) float64, say *words.Speaker) {
	t := s.Tools[i]
	body := s.Body(t.Type)
	p.Outline(Box{x(t.At - body.Left), stripAxis - stripTall, (body.Left + body.Right).MM(), 2 * stripTall}, penTool)
	p.Line(x(t.At), stripAxis-stripTall-2, x(t.At), stripAxis+stripTall+16, Pen{Width: Narrow})
	if w, ok := t.Width(); ok && t.Kind == tooling.Strip {
		for _, at := range []units.Length{t.At - w/2, t.At + w/2} {
			p.Line(x(at), stripAxis-stripTall, x(at), stripAxis+stripTall, penCut)
		}
	}
	text := strconv.Itoa(i+1) + " · " + say.Length(t.At) + " · " + say.Tool(t.Type)
	top := stripAxis - stripTall - 4
	p.Write(centred(Text{X: x(t.At), Y: top, Size: fitSize(text, 4.4, top-stripHead), Bold: true, Turns: 1, String: text}))
}

// joint marks the edge up to which this page lies on the one before.
func (s *Shaft) joint(p *Picture, x float64, say *words.Speaker) {
	p.Line(x, stripAxis-stripTall-4, x, stripAxis+stripTall+27, Pen{Kind: Dashed, Width: Narrow, Ink: Grey})
	p.Write(Text{X: x + 1, Y: stripAxis + stripTall + 26, Size: 2.6, Ink: Grey, String: say.Say("lies on the page before up to here")})
}

// controlLength is a line of 100 mm with sharp ends.
func (s *Shaft) controlLength(p *Picture, say *words.Speaker) {
	x0, y := stripMargin, 178.0
	p.Line(x0, y, x0+control, y, Pen{Width: Medium})
	for _, x := range []float64{x0, x0 + control} {
		p.Line(x, y-4, x, y+4, Pen{Width: Narrow})
	}
	p.Write(Text{X: x0 + control/2, Y: y - 1.6, Size: 3.4, Bold: true, Anchor: Middle, String: say.Say("this must measure 100 mm")})
	p.Write(Text{X: x0 + control + 5, Y: y + 1.2, Size: 3, String: say.Say("if it does not, print again at 100 %%, without fitting to the page")})
}
