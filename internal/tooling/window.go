package tooling

import "foldwright/internal/units"

// Window is a closed range of positions or of shifts; empty when Lo > Hi.
type Window struct{ Lo, Hi units.Length }

// Anywhere is wider than any shaft: the shifts at which a plain pattern stands for a plain pattern. Positions and shifts
// of a real shaft can be added to its ends without overflow.
var Anywhere = Window{-kilometre, kilometre}

const kilometre = 1000 * units.Metre

// Empty tells whether nothing lies in the window.
func (w Window) Empty() bool { return w.Lo > w.Hi }

// Has tells whether l lies in the window.
func (w Window) Has(l units.Length) bool { return w.Lo <= l && l <= w.Hi }

// Meet is what both windows hold.
func (w Window) Meet(v Window) Window { return Window{max(w.Lo, v.Lo), min(w.Hi, v.Hi)} }

// Moved is the window with both ends moved by d.
func (w Window) Moved(d units.Length) Window { return Window{w.Lo + d, w.Hi + d} }

// Nearest is the place in the window that lies nearest to l. The window must not be empty.
func (w Window) Nearest(l units.Length) units.Length { return min(max(l, w.Lo), w.Hi) }
