package settings

import (
	"slices"

	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// rings suggests places for the drive rings of station k with the guide at its place: on the paper and the usable part of
// the shaft, off tools, fold lines and cuts, at least two, and far enough apart that the stack runs straight. Every piece
// that the cuts of the unit leave gets at least one.
func (f *fitting) rings(k int, guide units.Length) ([]units.Length, bool) {
	station, need := &f.shaft.unit.Stations[k], &f.house.Rings
	paper := f.shaft.paper().Moved(guide)
	usable := paper.Meet(tooling.Window{Lo: station.From, Hi: station.To})
	blocked := f.blocked(k, guide)
	var places []units.Length
	pieces := f.pieces(paper, guide)
	for _, piece := range pieces {
		room := piece.Meet(usable)
		room.Lo, room.Hi = room.Lo+need.Width/2, room.Hi-need.Width/2
		if !room.Empty() {
			places = append(places, need.in(without([]tooling.Window{room}, blocked), piece, len(pieces) == 1)...)
		}
	}
	apart := units.Length(need.Apart * float64(f.shaft.width))
	if n := len(places); n >= 2 && places[n-1]-places[0] >= apart {
		return places, true
	}
	f.note(0.5, func() words.Text { return f.noRings(k, places, apart) })
	return nil, false
}

func (f *fitting) noRings(k int, places []units.Length, apart units.Length) words.Text {
	station := f.shaft.unit.Stations[k].Name
	if len(places) == 0 {
		return words.T("station %s of unit %d has no room for two drive rings at least %s apart, on the paper and off tools, cuts and fold lines: none",
			station, f.number, apart)
	}
	found := make(words.List, len(places))
	for i, at := range places {
		found[i] = at
	}
	return words.T("station %s of unit %d has no room for two drive rings at least %s apart, on the paper and off tools, cuts and fold lines: only at %s",
		station, f.number, apart, found)
}

// blocked is where the middle of no ring may stand, ascending and disjoint.
func (f *fitting) blocked(k int, guide units.Length) []tooling.Window {
	need := f.house.Rings
	margin := need.Width/2 + need.Clearance
	list := make([]tooling.Window, 0, len(f.folds)+len(f.wheels))
	for _, at := range f.folds {
		list = append(list, tooling.Window{Lo: at - margin, Hi: at + margin})
	}
	for i := range f.wheels {
		w := &f.wheels[i]
		left, right := w.strip/2, w.strip/2
		if f.on[i] == k {
			left, right = max(left, w.bodies[k].Left), max(right, w.bodies[k].Right)
		}
		list = append(list, tooling.Window{Lo: w.at - left - margin, Hi: w.at + right + margin})
	}
	return union(list, guide)
}

// pieces is what the cuts of the unit leave of the stack, on the shaft, ascending; strips that fall out are no pieces, and
// waste too narrow for a ring is carried by nothing.
func (f *fitting) pieces(paper tooling.Window, guide units.Length) []tooling.Window {
	list := make([]tooling.Window, 0, len(f.wheels)+1)
	from := paper.Lo
	for i := range f.wheels {
		w := &f.wheels[i]
		if !w.cuts() {
			continue
		}
		list = append(list, tooling.Window{Lo: from, Hi: w.at + guide - w.strip/2})
		from = w.at + guide + w.strip/2
	}
	list = append(list, tooling.Window{Lo: from, Hi: paper.Hi})
	return slices.DeleteFunc(list, func(p tooling.Window) bool { return p.Hi-p.Lo < f.house.Rings.Width })
}

// partings counts the wheels that leave a piece on either side; spots are in ascending t. Where the docket does not say
// two-up, what is narrower than a drive ring is waste.
func partings(spots []spot, width, narrow units.Length) int {
	n, from := 0, units.Length(0)
	for i := range spots {
		s := &spots[i]
		if !s.cuts() {
			continue
		}
		to := width
		for k := range spots[i+1:] {
			if next := &spots[i+1+k]; next.cuts() {
				to = next.t - next.strip/2
				break
			}
		}
		wide := min(s.t-s.strip/2-from, to-s.t-s.strip/2)
		if s.parts && (s.twoUp || wide >= narrow) {
			n++
		}
		from = s.t + s.strip/2
	}
	return n
}

// pairFrom is how many ring widths a piece measures from which it gets two rings of its own. Common practice, no source.
const pairFrom = 10

// in chooses ring places on a piece from what is free of it. A piece alone on the shaft gets two rings, at its quarters or
// as far apart as can be; of several pieces the narrow ones get one, in the middle.
func (r *Rings) in(free []tooling.Window, piece tooling.Window, alone bool) []units.Length {
	if len(free) == 0 {
		return nil
	}
	quarter := (piece.Hi - piece.Lo) / 4
	if alone || piece.Hi-piece.Lo >= pairFrom*r.Width {
		a, b := nearestIn(free, piece.Lo+quarter), nearestIn(free, piece.Hi-quarter)
		if b-a < max(quarter, r.Width+r.Clearance) {
			a, b = free[0].Lo, free[len(free)-1].Hi
		}
		if b-a >= r.Width+r.Clearance {
			return []units.Length{a, b}
		}
	}
	return []units.Length{nearestIn(free, piece.Lo+2*quarter)}
}
