package fold

// creases fills in the fold lines: every line runs right across the sheet, and its bend changes wherever an earlier fold
// across it turned the layer over.
func (f *Folded) creases() {
	f.Creases = make([]Crease, 0, len(f.Panels)*2)
	for _, l := range f.exact.lines {
		k := l.fold - 1
		before := uint32(1)<<k - 1 // the folds that were there when this one was made
		along := f.exact.final.strips[l.axis].at(l.at) & before
		pieces := f.exact.final.strips[other(l.axis)]
		for i := 0; i < len(pieces); {
			across := pieces[i].moved & before
			from := pieces[i].from
			for i < len(pieces) && pieces[i].moved&before == across {
				i++
			}
			f.Creases = append(f.Creases, Crease{
				Step: l.step, Fold: l.fold, Axis: l.axis, At: f.length(l.at),
				From: f.length(from), To: f.length(pieces[i-1].to),
				Bend: bend(f.exact.down>>k&1 == 1, parity(along|across) == 1),
			})
		}
	}
}

// at gives the folds that moved the piece beginning at x.
func (s strip) at(x int64) uint32 {
	for i := range s {
		if s[i].from == x {
			return s[i].moved
		}
	}
	panic("fold: no piece begins at this crease")
}

// bend is how a fold looks from the top of the flat sheet: folding up makes a valley in a layer that looks up.
func bend(down, flipped bool) Bend {
	if down != flipped {
		return Mountain
	}
	return Valley
}
