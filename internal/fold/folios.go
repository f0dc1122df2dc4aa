package fold

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
