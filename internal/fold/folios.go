package fold

import "foldwright/internal/units"

// Edge is an edge of a stack, looking with its travel.
type Edge uint8

const (
	Leading Edge = iota
	Trailing
	LeftEdge
	RightEdge
)

// number gives the panels their folios and heads, when they have any.
func (f *Folded) number() {
	f.Folios = f.leaves()
	if !f.Folios {
		return
	}
	n := len(f.Panels)
	head, _ := f.HeadEdge()
	for i := range f.Panels {
		p := &f.Panels[i]
		leaf := n - p.Layer // from the face that carries folio 1
		if f.Scheme.First == FaceDown {
			leaf = p.Layer - 1
		}
		outer, inner := 2*leaf+1, 2*leaf+2
		if p.TopFaceUp == (f.Scheme.First == FaceUp) {
			p.TopFolio, p.BottomFolio = outer, inner
		} else {
			p.TopFolio, p.BottomFolio = inner, outer
		}
		p.Head = f.exact.flatHead(head, i)
	}
}

// leaves tells whether every panel is a leaf of its own, all of one size: with allowances and the lap left aside, all
// panels cover the same rectangle, and the allowances have made no other panels.
func (f *Folded) leaves() bool {
	final := f.exact.final.strips
	if !f.Scheme.allowances() {
		return final[S].equal() && final[T].equal()
	}
	var w workspace
	nominal, ok := f.nominal(&w)
	if !ok {
		return false
	}
	for axis, s := range nominal.strips {
		if !s.equal() || !sameFolds(s, final[axis]) {
			return false
		}
	}
	return true
}

func (s Scheme) allowances() bool {
	if s.Lap != 0 {
		return true
	}
	for _, st := range s.Steps {
		if !st.Depth.Share.IsZero() && !st.Depth.Plus.IsZero() {
			return true
		}
	}
	return false
}

// nominal folds by the shares alone; a depth without a share keeps its length.
func (f *Folded) nominal(w *workspace) (stack, bool) {
	plain := f.Scheme
	plain.Lap = 0
	plain.Steps = make([]Step, len(f.Scheme.Steps))
	for i, st := range f.Scheme.Steps {
		if !st.Depth.Share.IsZero() {
			st.Depth.Plus = Ratio{}
		}
		plain.Steps[i] = st
	}
	depths := plain.depths(f.Sheet, f.exact.grain)
	st := w.flat(int64(f.Sheet.Length)*f.exact.grain, int64(f.Sheet.Width)*f.exact.grain)
	spare := strip(w.spare[:0])
	for i, step := range plain.Steps {
		if !step.Op.IsFold() {
			st.turn(step.Op)
			continue
		}
		if depths[i] <= 0 || depths[i] >= st.length {
			return st, false
		}
		st, spare = st.fold(depths[i], spare, func(int64) {})
	}
	return st, true
}

func sameFolds(a, b strip) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].moved != b[i].moved {
			return false
		}
	}
	return true
}

// HeadEdge tells which edge of the finished stack, in its own travel, the heads of the pages point to; ok is false when
// there are no folios.
//
// The last fold is the spine. With folio 1 in front and the spine on its left, up is head: on a stack that carries
// folio 1 on top and travels with its spine ahead, that is its right edge; seen from below, its left. Without any fold
// the leading edge stands for the spine.
func (f *Folded) HeadEdge() (Edge, bool) {
	head := RightEdge
	if f.Scheme.First == FaceDown {
		head = LeftEdge
	}
	for _, op := range f.Scheme.turnsAtEnd() {
		head = head.turned(op.Op)
	}
	return head, f.Folios
}

// SpineEdge tells which edge of the finished stack is the last fold.
func (f *Folded) SpineEdge() Edge {
	spine := Leading
	for _, op := range f.Scheme.turnsAtEnd() {
		spine = spine.turned(op.Op)
	}
	return spine
}

// turnsAtEnd gives the turns after the last fold.
func (s Scheme) turnsAtEnd() []Step {
	i := len(s.Steps)
	for i > 0 && !s.Steps[i-1].Op.IsFold() {
		i--
	}
	return s.Steps[i:]
}

// turned is where the edge is after a turn.
func (e Edge) turned(turn Op) Edge {
	after := [...]Edge{Leading: RightEdge, RightEdge: Trailing, Trailing: LeftEdge, LeftEdge: Leading}
	if turn == Right {
		after = [...]Edge{Leading: LeftEdge, LeftEdge: Trailing, Trailing: RightEdge, RightEdge: Leading}
	}
	return after[e]
}

// opposite is the edge on the other side.
func (e Edge) opposite() Edge {
	return [...]Edge{Leading: Trailing, Trailing: Leading, LeftEdge: RightEdge, RightEdge: LeftEdge}[e]
}

// flatHead is the direction of an edge of the stack on the flat sheet, seen from panel p.
func (e *exact) flatHead(edge Edge, p int) Head {
	t := e.final.strips[T]
	pieces := [2]*piece{&e.final.strips[S][p/len(t)], &t[p%len(t)]}
	axis := e.final.along
	if edge == LeftEdge || edge == RightEdge {
		axis = other(axis)
	}
	forward := (edge == Trailing || edge == RightEdge) == (pieces[axis].sign > 0)
	return [2][2]Head{S: {HeadSMinus, HeadSPlus}, T: {HeadTMinus, HeadTPlus}}[axis][index(forward)]
}

func index(b bool) int {
	if b {
		return 1
	}
	return 0
}

// Trimmed is the finished stack after its trims.
func (f *Folded) Trimmed() State {
	st, tr := f.Finished(), f.Scheme.Trims
	leaf, height := &st.Length, &st.Width
	if spine := f.SpineEdge(); spine == LeftEdge || spine == RightEdge {
		leaf, height = height, leaf
	}
	*leaf -= tr.Front
	*height -= tr.Head + tr.Foot
	return st
}

func (f *Folded) checkTrims() error {
	tr := f.Scheme.Trims
	for _, l := range []units.Length{tr.Head, tr.Foot, tr.Front} {
		if l < 0 || l > maxSide {
			return bad(codeTrim, "trims", mm(l)+" is no trim", "0 or a few millimetres")
		}
	}
	if st := f.Trimmed(); st.Length <= 0 || st.Width <= 0 {
		whole := f.Finished()
		return bad(codeTrim, "trims", "nothing is left of the finished piece",
			"less than "+mm(whole.Length)+" × "+mm(whole.Width)+" in all")
	}
	return nil
}
