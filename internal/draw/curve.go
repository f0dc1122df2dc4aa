package draw

import (
	"math"
	"strconv"

	"foldwright/internal/words"
)

// Curve is what more shaft sets would save: point i is for i more sets, the first for none.
type Curve struct {
	Saved []float64 // minutes a year, not descending
	Sets  []string  // what the set is that comes in at each point; shorter when nobody names them
	Knee  int       // the point from which further sets save little; 0 when there is none
}

// The measures of a curve, mm.
const (
	curveWidth, curveHeight  = 180.0, 110.0
	curveLeft, curveTop      = 26.0, 18.0
	curveRight, curveBottom  = 8.0, 18.0
	curveGrids               = 5
	curveSmallest, curveText = 2.2, 2.8
)

// Picture draws the curve with its axes named, the knee marked by a diamond and a dashed line and said in words.
func (c *Curve) Picture(say *words.Speaker) *Picture {
	p := &Picture{Width: curveWidth, Height: curveHeight, Title: say.Say("Minutes saved a year by more shaft sets")}
	p.Write(Text{X: curveLeft, Y: 8, Size: 4, Bold: true, String: p.Title})
	v := &curveView{p: p, c: c, say: say, step: niceStep(c.most() / curveGrids)}
	v.top = v.step * max(1, math.Ceil(c.most()/v.step))
	v.grid()
	v.line()
	v.knee()
	return p
}

// most is the greatest saving.
func (c *Curve) most() float64 {
	most := 0.0
	for _, s := range c.Saved {
		most = max(most, s)
	}
	return most
}

// niceStep is the least of 1, 2, 5, 10, 20, 50, … that is not below x.
func niceStep(x float64) float64 {
	decade := 1.0
	for {
		for _, n := range []float64{1, 2, 5} {
			if n*decade >= x {
				return n * decade
			}
		}
		decade *= 10
	}
}

// curveView is a curve on its picture.
type curveView struct {
	p         *Picture
	c         *Curve
	say       *words.Speaker
	step, top float64 // minutes between two grid lines, and at the uppermost
}

func (v *curveView) at(i int) Point {
	wide := curveWidth - curveLeft - curveRight
	x := curveLeft + wide*float64(i)/float64(max(1, len(v.c.Saved)-1))
	return Point{x, v.y(v.c.Saved[i])}
}

func (v *curveView) y(minutes float64) float64 {
	return curveHeight - curveBottom - (curveHeight-curveTop-curveBottom)*minutes/v.top
}

// grid draws both axes with their names and figures.
func (v *curveView) grid() {
	right := curveWidth - curveRight
	for m := 0.0; m <= v.top+v.step/2; m += v.step {
		pen := penRuler
		if m == 0 {
			pen = penRun
		}
		v.p.Line(curveLeft, v.y(m), right, v.y(m), pen)
		v.p.Write(Text{X: curveLeft - 1.5, Y: v.y(m) + 1, Size: curveText, Anchor: End, Ink: Grey, String: v.say.Number(m, 0)})
	}
	v.p.Write(Text{X: 6, Y: v.y(0), Size: curveText, Turns: 1, String: v.say.Say("minutes saved a year")})
	v.p.Write(Text{X: right, Y: curveHeight - 3, Size: curveText, Anchor: End, String: v.say.Say("shaft sets more than now")})
	every := 1 + (len(v.c.Saved)-1)/20
	for i := 0; i < len(v.c.Saved); i += every {
		x := v.at(i).X
		v.p.Line(x, v.y(0), x, v.y(0)+1.2, penRun)
		v.p.Write(Text{X: x, Y: v.y(0) + 5, Size: curveText, Anchor: Middle, Ink: Grey, String: strconv.Itoa(i)})
	}
}

// line draws the curve with a mark at each point, and names the sets that come in, upwards below the line where there is
// room.
func (v *curveView) line() {
	var run []Point
	for i := range v.c.Saved {
		run = append(run, v.at(i))
	}
	v.p.Path(run, Pen{Width: Wide, Ink: Blue})
	for i, at := range run {
		v.p.Area(Box{at.X - 0.7, at.Y - 0.7, 1.4, 1.4}, Blue)
		if i == 0 || i >= len(v.c.Sets) || at.X-run[i-1].X < curveSmallest*1.4 {
			continue
		}
		if room := v.y(0) - at.Y - 3; TextWidth(v.c.Sets[i], curveSmallest, false) < room {
			v.p.Write(Text{X: at.X - 0.9, Y: v.y(0) - 1, Size: curveSmallest, Turns: 1, Ink: Grey, String: v.c.Sets[i]})
		}
	}
}

// knee marks the point from which further sets save little.
func (v *curveView) knee() {
	if v.c.Knee <= 0 || v.c.Knee >= len(v.c.Saved) {
		return
	}
	at := v.at(v.c.Knee)
	v.p.Line(at.X, curveTop-2, at.X, v.y(0), Pen{Kind: Dashed, Width: Medium, Ink: Orange})
	v.p.Shape([]Point{{at.X, at.Y - 1.8}, {at.X + 1.8, at.Y}, {at.X, at.Y + 1.8}, {at.X - 1.8, at.Y}}, Orange)
	text := Text{X: at.X + 1.5, Y: curveTop - 3, Size: curveText, Bold: true, Ink: Orange, String: v.say.Say("sets: %d; more save little", v.c.Knee)}
	if text.bounds().Right() > curveWidth-2 {
		text.X, text.Anchor = at.X-1.5, End
	}
	v.p.Write(text)
}
