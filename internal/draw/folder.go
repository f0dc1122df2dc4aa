package draw

import (
	"math"
	"strconv"

	"foldwright/internal/machine"
	"foldwright/internal/words"
)

// The measures of the side view of a folder, mm on the picture. It is a diagram, not to scale: what counts is the order in
// which a stack meets plates, knife and shafts.
const (
	sideMargin   = 6.0
	feederWidth  = 34.0
	plateStep    = 13.0
	plateLength  = 20.0
	plateSlope   = 0.45 // how far a plate leans back, as a share of its length
	knifeWidth   = 22.0
	stationStep  = 15.0
	unitGap      = 15.0
	rollerRadius = 2.1
	shaftRadius  = 3.4
	sideTravel   = 42.0 // from the top to where the stack travels
	sideHeight   = 88.0
)

// Folder draws a folder from the side, in the order of travel: feeder, units with their plates as they fold up or down,
// the shaft stations behind the last nip, and how the stack comes from one unit into the next.
func Folder(f *machine.Folder, say *words.Speaker) *Picture {
	p := &Picture{Height: sideHeight, Title: say.Say("%s from the side, in the order of travel, not to scale", f.Name)}
	v := &sideView{p: p, say: say, x: sideMargin, y: sideTravel}
	v.feeder(f)
	for i := range f.Units {
		v.unit(i, &f.Units[i])
	}
	p.Line(v.x, v.y, v.x+8, v.y, Pen{Width: Medium})
	p.arrow(Point{v.x + 10, v.y}, 1, 0, 3, Black)
	p.Width = v.x + 10 + sideMargin
	return p
}

// sideView goes along the folder with the stack.
type sideView struct {
	p    *Picture
	say  *words.Speaker
	x, y float64 // where the stack has come to
}

// feeder is a pile with the sheets it takes.
func (v *sideView) feeder(f *machine.Folder) {
	for i := range 5 {
		y := v.y + 2 + 2*float64(i)
		v.p.Line(v.x, y, v.x+feederWidth-8, y, Pen{Width: Narrow, Ink: Grey})
	}
	v.p.Line(v.x, v.y, v.x+feederWidth, v.y, Pen{Width: Wide})
	r := f.Feeder
	for i, text := range []string{
		v.say.Say("feeder"),
		v.say.Bare(r.Length.Min) + "–" + v.say.Bare(r.Length.Max) + " ×",
		v.say.Bare(r.Width.Min) + "–" + v.say.Bare(r.Width.Max) + " " + v.say.Unit(),
	} {
		v.write(v.x, v.y+17+4*float64(i), text, Start, i == 0)
	}
	v.x += feederWidth
}

// unit is one unit with how the stack comes in and what stands behind its last nip.
func (v *sideView) unit(i int, u *machine.Unit) {
	v.entry(i, u)
	began := v.x
	if u.Kind == machine.Knife {
		v.knife(u)
	} else {
		v.buckle(u)
	}
	for k := range u.Stations {
		v.station(&u.Stations[k])
	}
	v.p.Line(began, v.y, v.x, v.y, Pen{Width: Wide})
	v.p.Outline(Box{began, 4, v.x - began, sideHeight - 8}, Pen{Kind: Dashed, Width: Narrow, Ink: Grey})
	name := v.say.Say("unit %d", i+1)
	v.p.Write(Text{X: began + 2, Y: sideHeight - 6, Size: fitSize(name, 3, v.x-began-4), Bold: true, String: name})
}

// entry is the way into a unit: straight on, or turned, which the arrow shows and a word says.
func (v *sideView) entry(i int, u *machine.Unit) {
	if i == 0 {
		return
	}
	v.p.Line(v.x, v.y, v.x+unitGap, v.y, Pen{Kind: Dashed, Width: Medium})
	for k, e := range u.Enters {
		text := map[machine.Entry]string{machine.Straight: v.say.Say("straight"), machine.TurnLeft: v.say.Say("left"), machine.TurnRight: v.say.Say("right")}[e]
		v.p.Write(Text{X: v.x + unitGap/2, Y: v.y + 6 + 4*float64(k), Size: fitSize(text, 2.8, unitGap-1), Anchor: Middle, String: text})
	}
	v.x += unitGap
}

// buckle draws the nips with the plates between them, each on the side to which it folds.
func (v *sideView) buckle(u *machine.Unit) {
	v.nip(v.x + 4)
	v.x += 4
	for n := range u.Plates {
		v.plate(n+1, u)
		v.x += plateStep
		v.nip(v.x)
	}
	v.x += 6
}

// plate is a plate with its number and how far its stop goes.
func (v *sideView) plate(n int, u *machine.Unit) {
	side := 1.0 // downwards on the picture
	if u.FoldsUp(n) {
		side = -1
	}
	at := v.x + plateStep/2
	from, to := Point{at, v.y + side*4}, Point{at - plateSlope*plateLength/2, v.y + side*plateLength}
	for _, dx := range []float64{0, 1.8} {
		v.p.Path([]Point{{from.X + dx, from.Y}, {to.X + dx, to.Y}}, Pen{Width: Medium})
	}
	y := v.y + side*(plateLength+3)
	if side > 0 {
		y += 5
	}
	stop := u.Plates[n-1].Stop
	number, reach := strconv.Itoa(n), v.say.Bare(stop.Min)+"–"+v.say.Bare(stop.Max)
	v.p.Write(Text{X: to.X + 1, Y: y, Size: 3.2, Bold: true, Anchor: Middle, String: number})
	v.p.Write(Text{X: to.X + 1, Y: y + side*4, Size: fitSize(reach, 2.4, plateStep+1), Anchor: Middle, String: reach})
}

// knife draws the blade above its pair of rollers.
func (v *sideView) knife(u *machine.Unit) {
	at := v.x + knifeWidth/2
	v.p.Shape([]Point{{at - 1, v.y - 16}, {at + 1, v.y - 16}, {at, v.y - 2}}, Black)
	for _, dx := range []float64{-rollerRadius - 0.3, rollerRadius + 0.3} {
		v.p.circle(at+dx, v.y+3.4, rollerRadius, Pen{Width: Medium})
	}
	v.write(at, v.y-19, v.say.Say("knife"), Middle, true)
	v.write(at, v.y+12, v.say.Bare(u.Stop.Min)+"–"+v.say.Bare(u.Stop.Max), Middle, false)
	v.x += knifeWidth
}

// station is a pair of slitter shafts with its name and the class of sets it takes.
func (v *sideView) station(s *machine.Station) {
	at := v.x + stationStep/2
	for _, dy := range []float64{-shaftRadius, shaftRadius} {
		v.p.circle(at, v.y+dy, shaftRadius, Pen{Width: Wide, Ink: Blue})
	}
	v.write(at, v.y-shaftRadius*2-2, s.Name, Middle, true)
	v.p.Write(Text{X: at, Y: v.y + shaftRadius*2 + 4.5, Size: fitSize(s.Class, 2.6, stationStep-1), Anchor: Middle, String: s.Class})
	v.x += stationStep
}

// nip is a pair of fold rollers.
func (v *sideView) nip(x float64) {
	for _, dy := range []float64{-rollerRadius, rollerRadius} {
		v.p.circle(x, v.y+dy, rollerRadius, Pen{Width: Medium})
	}
}

func (v *sideView) write(x, y float64, text string, anchor Anchor, bold bool) {
	v.p.Write(Text{X: x, Y: y, Size: 2.8, Bold: bold, Anchor: anchor, String: text})
}

// circle draws a circle as a polygon fine enough for the eye.
func (p *Picture) circle(x, y, radius float64, pen Pen) {
	const corners = 24
	ring := make([]Point, corners)
	for i := range ring {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		ring[i] = Point{x + radius*cos, y + radius*sin}
	}
	p.Marks = append(p.Marks, Stroke{Points: ring, Closed: true, Pen: pen})
}
