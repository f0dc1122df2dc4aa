package settings

import (
	"slices"

	"foldwright/internal/fold"
	"foldwright/internal/units"
)

// model is a sheet cut along all its creases into cards, folded by laying cards about: no geometry but a pencil mark in
// the middle of each card, no layers but a pile.
type model struct {
	s, t   []units.Length // the mark of each card on the flat sheet
	pile   []int          // cards from the bottom up
	faceUp []bool
	at     [][2]units.Length // the mark in the stack
}

// fold carries a scheme out whose depths are plain lengths.
func (m *model) fold(scheme fold.Scheme, sheet fold.Sheet) {
	m.pile, m.faceUp, m.at = nil, make([]bool, len(m.s)), make([][2]units.Length, len(m.s))
	for i := range m.s {
		m.pile, m.faceUp[i] = append(m.pile, i), true
	}
	for n, step := range scheme.Steps {
		if !step.Op.IsFold() {
			continue
		}
		var moved, rest []int
		for _, i := range m.pile {
			s, _ := locate(scheme, sheet, n, m.s[i], m.t[i])
			if s < units.Length(step.Depth.Plus.Num) {
				moved, m.faceUp[i] = append(moved, i), !m.faceUp[i]
			} else {
				rest = append(rest, i)
			}
		}
		slices.Reverse(moved)
		if step.Op == fold.Up {
			m.pile = append(rest, moved...)
		} else {
			m.pile = append(moved, rest...)
		}
	}
	for i := range m.s {
		s, t := locate(scheme, sheet, len(scheme.Steps), m.s[i], m.t[i])
		m.at[i] = [2]units.Length{s, t}
	}
}

// cards cuts the flat sheet at every crease and gives the middles of the cards and their half extents.
func cards(folded *fold.Folded) (s, t, halfS, halfT []units.Length) {
	cut := [2][]units.Length{fold.S: {0, folded.Sheet.Length}, fold.T: {0, folded.Sheet.Width}}
	for _, c := range folded.Creases {
		cut[c.Axis] = append(cut[c.Axis], c.At)
	}
	for a := range cut {
		slices.Sort(cut[a])
		cut[a] = slices.Compact(cut[a])
	}
	for i := range cut[fold.S][1:] {
		for k := range cut[fold.T][1:] {
			s0, s1, t0, t1 := cut[fold.S][i], cut[fold.S][i+1], cut[fold.T][k], cut[fold.T][k+1]
			s, halfS = append(s, (s0+s1)/2), append(halfS, (s1-s0)/2)
			t, halfT = append(t, (t0+t1)/2), append(halfT, (t1-t0)/2)
		}
	}
	return s, t, halfS, halfT
}

// plainDepths is the scheme as drawn with every depth as a plain length.
func plainDepths(folded *fold.Folded) fold.Scheme {
	plain := fold.Scheme{Steps: slices.Clone(folded.Scheme.Steps)}
	for i := range plain.Steps {
		plain.Steps[i].Depth = fold.Depth{Plus: fold.Ratio{Num: int64(folded.FoldDepth(i + 1)), Den: 1}}
	}
	return plain
}

// samePile tells whether the drawing and the machine lay the same cards on one another in the same order, the same faces
// up; the machine may deliver the pile turned over.
func samePile(drawn, fed *fold.Folded, feed Feed) (turned, ok bool) {
	s, t, halfS, halfT := cards(drawn)
	asDrawn := model{s: s, t: t}
	asDrawn.fold(plainDepths(drawn), drawn.Sheet)
	made := model{s: make([]units.Length, len(s)), t: make([]units.Length, len(s))}
	for i := range s {
		made.s[i], made.t[i] = onFed(feed, drawn.Sheet, s[i], t[i])
	}
	made.fold(fed.Scheme, fed.Sheet)
	turned = (made.faceUp[0] != (feed.FaceUp == Back)) != asDrawn.faceUp[0]
	for i := range s {
		if (made.faceUp[i] != (feed.FaceUp == Back)) != (asDrawn.faceUp[i] != turned) {
			return turned, false
		}
	}
	below := func(m *model, a, b int) bool { return slices.Index(m.pile, a) < slices.Index(m.pile, b) }
	flips := 0 // turns leave cards as they are or swap their extents, the same for all
	for _, step := range plainDepths(drawn).Steps {
		if !step.Op.IsFold() {
			flips++
		}
	}
	for a := range s {
		for b := range a {
			da, db := max(asDrawn.at[a][0]-asDrawn.at[b][0], asDrawn.at[b][0]-asDrawn.at[a][0]), max(asDrawn.at[a][1]-asDrawn.at[b][1], asDrawn.at[b][1]-asDrawn.at[a][1])
			hs, ht := halfS[a]+halfS[b], halfT[a]+halfT[b]
			if flips%2 == 1 {
				hs, ht = ht, hs
			}
			if da < hs && db < ht && below(&asDrawn, a, b) != (below(&made, a, b) != turned) {
				return turned, false
			}
		}
	}
	return turned, true
}
