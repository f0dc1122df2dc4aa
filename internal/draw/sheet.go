package draw

import (
	"strconv"
	"strings"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// The lines of a flat sheet. Which is which, the legend says in words.
var (
	penEdge     = Pen{Width: Wide}
	penValley   = Pen{Kind: Dashed, Width: Medium, Ink: Blue}
	penMountain = Pen{Kind: LongDashedDotted, Width: Medium, Ink: Blue}
	penRuler    = Pen{Width: Narrow, Ink: Grey}
)

// Side is a side of the flat sheet.
type Side uint8

const (
	FrontSide Side = iota // looks up on the feed table
	BackSide              // seen after turning the sheet over about the line of travel
)

// sheetView draws one side of a flat sheet to scale, the leading edge at the top.
type sheetView struct {
	p     *Picture
	f     *fold.Folded
	side  Side
	scale scale
	x, y  float64 // upper left corner of the sheet
}

// Dummy draws the flat sheet with creases, folios and the lines of tools, front and back beside each other, into a picture
// of its own: what a folding dummy shows.
func Dummy(f *fold.Folded, wanted []job.Operation, say *words.Speaker) *Picture {
	const w, h, margin, head, foot = 277, 190, 10, 14, 24
	p := &Picture{Width: w, Height: h, Title: say.Say("Flat sheet %s × %s, front and back", f.Sheet.Length, f.Sheet.Width)}
	room := Box{margin, head, (w - 3*margin) / 2, h - head - foot - margin}
	sc := fit(f.Sheet.Length, f.Sheet.Width, room.W-12, room.H-8)
	for i, side := range []Side{FrontSide, BackSide} {
		box := Box{margin + float64(i)*(room.W+margin), room.Y, room.W, room.H}
		drawSide(p, box, f, wanted, side, sc, say)
	}
	dummyLegend(p, Box{margin, h - foot - margin + 4, w - 2*margin, foot}, wanted, sc, say)
	return p
}

// drawSide centres one side of the sheet in the box, with its name above and the travel beside it.
func drawSide(p *Picture, box Box, f *fold.Folded, wanted []job.Operation, side Side, sc scale, say *words.Speaker) {
	width, length := sc.mm(f.Sheet.Width), sc.mm(f.Sheet.Length)
	v := &sheetView{p: p, f: f, side: side, scale: sc, x: box.X + (box.W-width)/2, y: box.Y + (box.H-length)/2}
	name := say.Say("Front, as it looks up on the feed table")
	if side == BackSide {
		name = say.Say("Back, turned over about the line of travel")
	}
	p.Write(Text{X: box.X + box.W/2, Y: v.y - 4, Size: 3.4, Bold: true, Anchor: Middle, String: name})
	p.Outline(Box{v.x, v.y, width, length}, penEdge)
	v.tools(wanted)
	v.creases()
	v.folios()
	travelArrow(p, v.x-5, v.y+length, v.y+length-min(24, length), say)
}

// across is where t lies on the picture, along where s does.
func (v *sheetView) across(t units.Length) float64 {
	if v.side == BackSide {
		t = v.f.Sheet.Width - t
	}
	return v.x + v.scale.mm(t)
}

func (v *sheetView) along(s units.Length) float64 { return v.y + v.scale.mm(s) }

// creases draws the fold lines with their numbers at the ends.
func (v *sheetView) creases() {
	numbered := map[fold.Crease]bool{}
	for _, c := range v.f.Creases {
		pen := penValley
		if (c.Bend == fold.Mountain) != (v.side == BackSide) {
			pen = penMountain
		}
		line := fold.Crease{Fold: c.Fold, Axis: c.Axis, At: c.At}
		if c.Axis == fold.S {
			y := v.along(c.At)
			v.p.Line(v.across(c.From), y, v.across(c.To), y, pen)
			if !numbered[line] {
				v.p.Write(Text{X: v.x + v.scale.mm(v.f.Sheet.Width) + 1.2, Y: y + 1, Size: 2.8, Ink: Blue, String: strconv.Itoa(c.Fold)})
			}
		} else {
			x := v.across(c.At)
			v.p.Line(x, v.along(c.From), x, v.along(c.To), pen)
			if !numbered[line] {
				v.p.Write(Text{X: x, Y: v.y + v.scale.mm(v.f.Sheet.Length) + 3.2, Size: 2.8, Anchor: Middle, Ink: Blue, String: strconv.Itoa(c.Fold)})
			}
		}
		numbered[line] = true
	}
}

// folios writes every folio in the middle of its panel, standing as its page stands.
func (v *sheetView) folios() {
	if !v.f.Folios {
		return
	}
	for _, panel := range v.f.Panels {
		w, h := v.scale.mm(panel.T[1]-panel.T[0]), v.scale.mm(panel.S[1]-panel.S[0])
		cx := (v.across(panel.T[0]) + v.across(panel.T[1])) / 2
		cy := (v.along(panel.S[0]) + v.along(panel.S[1])) / 2
		folio := panel.TopFolio
		if v.side == BackSide {
			folio = panel.BottomFolio
		}
		size := min(9, 0.45*min(w, h))
		t := Text{X: cx, Y: cy, Size: size, Anchor: Middle, Turns: v.turns(panel.Head), String: strconv.Itoa(folio)}
		v.p.Write(centred(t))
		if readsUpsideDown(t.String) {
			v.p.Shape(underline(t), Black)
		}
	}
}

// readsUpsideDown tells whether a folio is also a number when it stands on its head, as 6 and 9, 16 and 91 are.
func readsUpsideDown(folio string) bool {
	return strings.Trim(folio, "01689") == "" && strings.ContainsAny(folio, "69")
}

// underline is a bar beneath a text that is centred on its place, so that nobody takes a 6 for a 9.
func underline(t Text) []Point {
	half, near := TextWidth(t.String, t.Size, t.Bold)/2, CapHeight*t.Size/2+0.06*t.Size
	far := near + 0.07*t.Size
	corners := []Point{{-half, near}, {half, near}, {half, far}, {-half, far}}
	for i, c := range corners {
		for range t.Turns {
			c = Point{c.Y, -c.X}
		}
		corners[i] = Point{t.X + c.X, t.Y + c.Y}
	}
	return corners
}

// turns stands a folio with its head the way the panel's head points: s runs down the picture, t to the right on the
// front and to the left on the back.
func (v *sheetView) turns(h fold.Head) int {
	turns := map[fold.Head]int{fold.HeadTMinus: 1, fold.HeadSPlus: 2, fold.HeadTPlus: 3}[h]
	if v.side == BackSide && turns%2 == 1 {
		return 4 - turns
	}
	return turns
}

// centred moves the base line of a text so that its capitals are centred on its place.
func centred(t Text) Text {
	drop := CapHeight * t.Size / 2
	switch t.Turns {
	case 0:
		t.Y += drop
	case 1:
		t.X += drop
	case 2:
		t.Y -= drop
	case 3:
		t.X -= drop
	}
	return t
}

// travelArrow points the way the sheet travels, up the picture.
func travelArrow(p *Picture, x, from, to float64, say *words.Speaker) {
	p.Line(x, from, x, to+2.4, Pen{Width: Medium, Ink: Grey})
	p.arrow(Point{x, to}, 0, -1, 2.6, Grey)
	p.Write(Text{X: x - 1.4, Y: from, Size: 2.8, Turns: 1, Ink: Grey, String: say.Say("travel")})
}

// tools draws the lines that tools make, under the creases; trims are made on the folded piece and lie on no flat line.
func (v *sheetView) tools(wanted []job.Operation) {
	for _, op := range wanted {
		for _, line := range flatLines(v.f, op) {
			from, to := line.Span()
			if line.Axis == fold.S {
				v.p.Line(v.across(from), v.along(line.At()), v.across(to), v.along(line.At()), flatPens[op.Kind])
			} else {
				v.p.Line(v.across(line.At()), v.along(from), v.across(line.At()), v.along(to), flatPens[op.Kind])
			}
		}
	}
}

// flatPens are broader than those of creases, so that both are seen where they lie on one another.
var flatPens = map[tooling.Kind]Pen{
	tooling.Slit:      {Width: Broad, Ink: Orange},
	tooling.Strip:     {Width: Broad, Ink: Orange},
	tooling.Perforate: {Kind: Dotted, Width: 1.2, Ink: Grey},
	tooling.Score:     {Kind: LongDashedDoubleDotted, Width: Broad, Ink: Grey},
}

// flatLines are where an operation lies on the flat sheet.
func flatLines(f *fold.Folded, op job.Operation) []fold.Segment {
	switch op.Target {
	case job.OnFold:
		return f.FoldLine(op.Fold)
	case job.OnLine:
		return f.FlatLine(op.Axis, op.At)
	}
	return nil
}

// dummyLegend says in words what the lines mean, and what is trimmed besides.
func dummyLegend(p *Picture, box Box, wanted []job.Operation, sc scale, say *words.Speaker) {
	const size, sample, near, far, pitch = 2.8, 14.0, 2.0, 6.0, 5.0
	name := say.Say("scale") + " " + sc.name()
	p.Write(Text{X: box.Right(), Y: box.Y + 7, Size: size, Anchor: End, Ink: Grey, String: name})
	right := box.Right() - TextWidth(name, size, false) - far
	x, y := box.X, box.Y+6
	item := func(pen Pen, word string) {
		wide := sample + near + TextWidth(word, size, false)
		if x > box.X && x+wide > right {
			x, y = box.X, y+pitch
		}
		if pen.Width > 0 {
			p.Line(x, y, x+sample, y, pen)
		}
		p.Write(Text{X: x + sample + near, Y: y + 1, Size: size, String: word})
		x += wide + far
	}
	item(penEdge, say.Say("edge of the sheet"))
	item(penValley, say.Say("valley fold, with its number"))
	item(penMountain, say.Say("mountain fold, with its number"))
	for _, op := range wanted {
		pen := flatPens[op.Kind]
		if op.Target == job.OnEdge {
			pen = Pen{} // no line to show
		}
		item(pen, say.Text(op.Words()))
	}
}
