package draw

import (
	"fmt"
	"strconv"
	"strings"

	"foldwright/internal/fold"
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

// Dummy draws the flat sheet with creases and folios, front and back beside each other, into a picture of its own: what
// a folding dummy shows.
func Dummy(f *fold.Folded, say *words.Speaker) *Picture {
	const w, h, margin, head, foot = 277, 190, 10, 14, 24
	p := &Picture{Width: w, Height: h, Title: say.Say("Flat sheet %s × %s, front and back", f.Sheet.Length, f.Sheet.Width)}
	room := Box{margin, head, (w - 3*margin) / 2, h - head - foot - margin}
	sc := fit(f.Sheet.Length, f.Sheet.Width, room.W-12, room.H-8)
	for i, side := range []Side{FrontSide, BackSide} {
		box := Box{margin + float64(i)*(room.W+margin), room.Y, room.W, room.H}
		drawSide(p, box, f, side, sc, say)
	}
	dummyLegend(p, Box{margin, h - foot - margin + 4, w - 2*margin, foot}, sc, say)
	return p
}

// drawSide centres one side of the sheet in the box, with its name above and the travel beside it.
func drawSide(p *Picture, box Box, f *fold.Folded, side Side, sc scale, say *words.Speaker) {
	width, length := sc.mm(f.Sheet.Width), sc.mm(f.Sheet.Length)
	v := &sheetView{p: p, f: f, side: side, scale: sc, x: box.X + (box.W-width)/2, y: box.Y + (box.H-length)/2}
	name := say.Say("Front, as it looks up on the feed table")
	if side == BackSide {
		name = say.Say("Back, turned over about the line of travel")
	}
	p.Write(Text{X: box.X + box.W/2, Y: v.y - 4, Size: 3.4, Bold: true, Anchor: Middle, String: name})
	p.Outline(Box{v.x, v.y, width, length}, penEdge)
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

// dummyLegend says in words what the lines mean.
func dummyLegend(p *Picture, box Box, sc scale, say *words.Speaker) {
	items := []struct {
		pen  Pen
		word string
	}{
		{penEdge, say.Say("edge of the sheet")},
		{penValley, say.Say("valley fold, with its number")},
		{penMountain, say.Say("mountain fold, with its number")},
	}
	x := box.X
	for _, it := range items {
		p.Line(x, box.Y+6, x+14, box.Y+6, it.pen)
		p.Write(Text{X: x + 16, Y: box.Y + 7, Size: 2.8, String: it.word})
		x += 22 + TextWidth(it.word, 2.8, false)
	}
	p.Write(Text{X: box.Right(), Y: box.Y + 7, Size: 2.8, Anchor: End, Ink: Grey, String: fmt.Sprintf("%s %s", say.Say("scale"), sc.name())})
}
