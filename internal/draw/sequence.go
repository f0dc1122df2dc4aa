package draw

import (
	"foldwright/internal/fold"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// Sequence draws the folding step by step: before every step the stack as it travels, to one scale, with the line and
// the part that moves; at the end the finished piece. It wraps into as many rows as the box takes.
func Sequence(f *fold.Folded, say *words.Speaker) *Picture {
	p := &Picture{Width: 277, Title: say.Say("Folding step by step, %d folds", f.Scheme.Folds())}
	const margin, gap, caption = 8.0, 9.0, 17.0
	frames := len(f.Scheme.Steps) + 1
	columns := min(frames, 6)
	cell := (p.Width - 2*margin - float64(columns-1)*gap) / float64(columns)
	longest, widest := extents(f)
	sc := fit(longest, widest, cell, 70)
	height := sc.mm(longest) + caption
	for i := range frames {
		box := Box{margin + float64(i%columns)*(cell+gap), margin + float64(i/columns)*(height+gap), cell, height}
		p.step(f, i, box, sc, say)
	}
	rows := (frames + columns - 1) / columns
	p.Height = 2*margin + float64(rows)*(height+gap)
	p.Write(Text{X: p.Width - margin, Y: p.Height - 3, Size: 2.8, Anchor: End, Ink: Grey, String: say.Say("scale") + " " + sc.name()})
	return p
}

// extents are the greatest length and width the stack ever has.
func extents(f *fold.Folded) (length, width units.Length) {
	for _, s := range f.States {
		length, width = max(length, s.Length), max(width, s.Width)
	}
	return length, width
}

// step draws the stack before step i (from 0), the finished piece when there is no such step.
func (p *Picture) step(f *fold.Folded, i int, box Box, sc scale, say *words.Speaker) {
	state := f.States[i]
	w, h := sc.mm(state.Width), sc.mm(state.Length)
	stack := Box{box.X + (box.W-w)/2, box.Y, w, h}
	p.layers(stack, state.Layers)
	first, second := say.Say("finished"), stackWords(f, i, say)
	if i < len(f.Scheme.Steps) {
		switch step := f.Scheme.Steps[i]; step.Op {
		case fold.Up, fold.Down:
			depth := f.FoldDepth(i + 1)
			p.foldLine(stack, sc.mm(depth), step.Op)
			first = say.Say(map[fold.Op]string{fold.Up: "%d: up at %s", fold.Down: "%d: down at %s"}[step.Op], i+1, depth)
		case fold.Left, fold.Right:
			p.turnArrow(stack, step.Op == fold.Left)
			first = say.Say(map[fold.Op]string{fold.Left: "%d: turn, left edge leads", fold.Right: "%d: turn, right edge leads"}[step.Op], i+1)
		}
	}
	x := box.X + box.W/2
	size := fitSize(first, 3, box.W+6)
	p.Write(Text{X: x, Y: stack.Bottom() + 6, Size: size, Bold: true, Anchor: Middle, String: first})
	p.Write(Text{X: x, Y: stack.Bottom() + 10.2, Size: fitSize(second, 2.6, box.W+6), Anchor: Middle, Ink: Grey, String: second})
}

func stackWords(f *fold.Folded, i int, say *words.Speaker) string {
	s := f.States[i]
	return say.Say("%s × %s, layers: %d", words.Bare(s.Length), words.Bare(s.Width), s.Layers)
}

// fitSize is the size, at most the wanted one, at which a text is no wider than the room.
func fitSize(s string, size, room float64) float64 {
	if w := TextWidth(s, size, true); w > room {
		return size * room / w
	}
	return size
}

// layers draws a stack, its layers hinted at by edges behind it.
func (p *Picture) layers(stack Box, n int) {
	for k := min(n-1, 3); k > 0; k-- {
		d := 0.7 * float64(k)
		behind := Box{stack.X + d, stack.Y + d, stack.W, stack.H}
		p.Area(behind, White)
		p.Outline(behind, penRuler)
	}
	p.Area(stack, White)
	p.Outline(stack, penEdge)
}

// foldLine draws the fold at a depth, the moving part shaded, and an arrow that goes over or (dashed) under the rest.
func (p *Picture) foldLine(stack Box, depth float64, op fold.Op) {
	p.Area(Box{stack.X, stack.Y, stack.W, depth}, Pale)
	p.Outline(stack, penEdge)
	pen, arrow := penValley, Pen{Width: Medium, Ink: Blue}
	if op == fold.Down {
		pen, arrow.Kind = penMountain, Dashed
	}
	y := stack.Y + depth
	p.Line(stack.X, y, stack.Right(), y, pen)
	reach := min(depth, 14) * 0.6
	x := stack.X + stack.W/2
	p.Line(x, y-reach, x, y+reach-1.8, arrow)
	p.arrow(Point{x, y + reach}, 0, 1, 2.4, Blue)
}

// turnArrow points from the edge that will lead to where it will be.
func (p *Picture) turnArrow(stack Box, left bool) {
	mid, dir := stack.Y+stack.H/2, 1.0
	edge := stack.X
	if !left {
		edge, dir = stack.Right(), -1
	}
	reach := min(stack.W*0.5, 9)
	x := edge + dir*reach
	top := mid - min(stack.H*0.3, 9)
	p.Path([]Point{{edge, mid}, {x, mid}, {x, top + 2}}, Pen{Width: Medium, Ink: Blue})
	p.arrow(Point{x, top}, 0, -1, 2.4, Blue)
	p.Line(edge, stack.Y, edge, stack.Bottom(), Pen{Width: Broad, Ink: Blue})
}
