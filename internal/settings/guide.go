package settings

import (
	"cmp"
	"slices"

	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// guide chooses where the guide stands: as near as can be to where it is wanted, but where sets on the rack serve. The
// stations are asked in order, and each gets its way as far as those before it leave any. A guide that has to move for a
// set goes to the middle of what the set allows: the tolerance is for hands, not for plans. Tools stand as for the guide at
// want.
func (f *fitting) guide(stations []Station, window tooling.Window, want units.Length) (at units.Length, served int) {
	allowed := []tooling.Window{window}
	for k := range stations {
		if len(stations[k].Tools) == 0 {
			continue
		}
		shifts := f.house.windows(stations[k].Class, stations[k].Pattern())
		if both := meet(allowed, union(shifts, want)); len(both) > 0 {
			allowed = both
			served++
		}
	}
	if w := nearestWindow(allowed, want); served > 0 && !w.Has(want) {
		return w.Lo + (w.Hi-w.Lo)/2, served
	}
	return nearestIn(allowed, want), served
}

// union sorts windows, moves them by an offset and joins those that overlap.
func union(windows []tooling.Window, by units.Length) []tooling.Window {
	if len(windows) == 0 {
		return nil
	}
	list := make([]tooling.Window, 0, len(windows))
	for _, w := range windows {
		if !w.Empty() {
			list = append(list, w.Moved(by))
		}
	}
	slices.SortFunc(list, func(a, b tooling.Window) int { return cmp.Or(cmp.Compare(a.Lo, b.Lo), cmp.Compare(a.Hi, b.Hi)) })
	joined := list[:0]
	for _, w := range list {
		if last := len(joined) - 1; last >= 0 && w.Lo <= joined[last].Hi {
			joined[last].Hi = max(joined[last].Hi, w.Hi)
			continue
		}
		joined = append(joined, w)
	}
	return joined
}

// meet is what two ascending lists of disjoint windows have in common.
func meet(a, b []tooling.Window) []tooling.Window {
	var list []tooling.Window
	for i, k := 0, 0; i < len(a) && k < len(b); {
		if both := a[i].Meet(b[k]); !both.Empty() {
			list = append(list, both)
		}
		if a[i].Hi < b[k].Hi {
			i++
		} else {
			k++
		}
	}
	return list
}

// without is what is left of ascending disjoint windows when ascending disjoint others are taken out. The ends of what is
// taken out stay.
func without(a, out []tooling.Window) []tooling.Window {
	list := make([]tooling.Window, 0, len(a)+len(out))
	for _, w := range a {
		for _, o := range out {
			if o.Hi <= w.Lo || o.Lo >= w.Hi {
				continue
			}
			if o.Lo >= w.Lo {
				list = append(list, tooling.Window{Lo: w.Lo, Hi: o.Lo})
			}
			w.Lo = o.Hi
		}
		if !w.Empty() {
			list = append(list, w)
		}
	}
	return list
}

// nearestIn is the place in the windows nearest to want, the lower of two; the list must not be empty.
func nearestIn(windows []tooling.Window, want units.Length) units.Length {
	return nearestWindow(windows, want).Nearest(want)
}

// nearestWindow is the window nearest to want, the lower of two; the list must not be empty.
func nearestWindow(windows []tooling.Window, want units.Length) tooling.Window {
	best := windows[0]
	for _, w := range windows[1:] {
		if abs(w.Nearest(want)-want) < abs(best.Nearest(want)-want) {
			best = w
		}
	}
	return best
}

func abs(l units.Length) units.Length { return max(l, -l) }
