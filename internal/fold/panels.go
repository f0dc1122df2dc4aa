package fold

import (
	"slices"

	"foldwright/internal/units"
)

// panels fills in where every panel lies on the sheet and in the stack.
func (f *Folded) panels() {
	s, t := f.exact.final.strips[S], f.exact.final.strips[T]
	f.Panels = make([]Panel, 0, len(s)*len(t))
	for i := range s {
		across := [2]units.Length{f.length(s[i].from), f.length(s[i].to)}
		for j := range t {
			f.Panels = append(f.Panels, Panel{
				S:         across,
				T:         [2]units.Length{f.length(t[j].from), f.length(t[j].to)},
				TopFaceUp: parity(s[i].moved|t[j].moved) == 0,
			})
		}
	}
	order := f.exact.order()
	if s.shared() && t.shared() {
		for rank, p := range order {
			f.Panels[p].Layer = rank + 1
		}
		return
	}
	f.pile(order)
}

// order lists the panels (by their index: piece of S × pieces of T + piece of T) from the bottom to the top.
func (e *exact) order() []uint32 {
	s, t := e.final.strips[S], e.final.strips[T]
	keys := make([]uint64, 0, len(s)*len(t))
	for i := range s {
		for j := range t {
			k := key(s[i].moved|t[j].moved, e.down, e.final.folds)
			keys = append(keys, uint64(k)<<32|uint64(len(keys)))
		}
	}
	slices.Sort(keys)
	order := make([]uint32, len(keys))
	for rank, k := range keys {
		order[rank] = uint32(k)
	}
	return order
}

// shared tells whether some place is covered by every piece; then each layer has a panel of its own.
func (s strip) shared() bool {
	from, to := s[0].span()
	for i := range s {
		lo, hi := s[i].span()
		from, to = max(from, lo), min(to, hi)
	}
	return from < to
}

// equal tells whether all pieces cover the same range.
func (s strip) equal() bool {
	lo, hi := s[0].span()
	for i := range s {
		if a, b := s[i].span(); a != lo || b != hi {
			return false
		}
	}
	return true
}

// pile counts layers from the bottom where panels lie beside each other: a panel lies one layer above the highest that it
// covers any part of.
func (f *Folded) pile(order []uint32) {
	s, t := f.exact.final.strips[S], f.exact.final.strips[T]
	xs, ys := s.edges(), t.edges()
	height := make([]int, len(xs)*len(ys)) // over the field that begins at xs[x], ys[y]
	for _, p := range order {
		x0, x1 := s[int(p)/len(t)].fields(xs)
		y0, y1 := t[int(p)%len(t)].fields(ys)
		layer := 0
		for x := x0; x < x1; x++ {
			layer = max(layer, slices.Max(height[x*len(ys)+y0:x*len(ys)+y1]))
		}
		layer++
		for x := x0; x < x1; x++ {
			for y := y0; y < y1; y++ {
				height[x*len(ys)+y] = layer
			}
		}
		f.Panels[p].Layer = layer
	}
}

// edges lists the places of the stack at which a piece begins or ends.
func (s strip) edges() []int64 {
	edges := make([]int64, 0, 2*len(s))
	for i := range s {
		lo, hi := s[i].span()
		edges = append(edges, lo, hi)
	}
	slices.Sort(edges)
	return slices.Compact(edges)
}

// fields gives the range of edges between which the piece lies.
func (p *piece) fields(edges []int64) (from, to int) {
	lo, hi := p.span()
	from, _ = slices.BinarySearch(edges, lo)
	to, _ = slices.BinarySearch(edges, hi)
	return from, to
}
