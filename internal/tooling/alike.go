package tooling

import "foldwright/internal/units"

// Alike tells whether have can stand for want, and the shifts at which it does: added to every wanted position, they
// bring it within half the tolerance of its tool.
//
// Half, so that the window is non-empty exactly when every spacing agrees within the whole tolerance: with
// d = have − want for each tool, |d − shift| ≤ tolerance/2 can hold for all tools together just when the greatest and the
// least d differ by no more than the tolerance. Costs O(tools) and allocates nothing.
func Alike(want, have Pattern, tolerance units.Length) (shift Window, ok bool) {
	if want.Class != have.Class || len(want.Tools) != len(have.Tools) {
		return Window{}, false
	}
	shift = Anywhere
	for i, w := range want.Tools {
		h := have.Tools[i]
		if h.Type != w.Type {
			return Window{}, false
		}
		shift = shift.Meet(reach(w.At, h.At, tolerance))
	}
	return shift, !shift.Empty()
}

// reach is the shifts that bring a wanted position to a tool within half the tolerance. It is exactly the tolerance wide
// also when that is an odd number of nanometres.
func reach(want, have, tolerance units.Length) Window {
	d := have - want
	return Window{d - tolerance/2, d + tolerance - tolerance/2}
}
