// Package fold computes what becomes of a flat sheet that is folded.
//
// A stack travels: s runs from its leading edge to the tail, t from the left edge, looking with the travel. A fold lays
// the leading part on top of the rest (up) or beneath it (down); the fold becomes the new leading edge. A turn makes a
// side edge the leading one. All layers at a line fold together. "Top" is the face that looks up on the feed table.
//
// Lengths are exact: two panels that cover the same rectangle compare equal, however many thirds and halves led there.
// Allowances change panel sizes, never layer order. Faults name the step and the depth that would have been allowed.
//
// Start with [Parse], then [Scheme.Apply]; [Find] answers the reverse question. The package knows no paper, no folder
// and no clock.
package fold

import "foldwright/internal/units"

// Sheet is a flat sheet: Length along s, the travel on the feed table, Width along t.
type Sheet struct{ Length, Width units.Length }

// Ratio is an exact fraction; Den is positive in a valid one. The zero value is 0.
type Ratio struct{ Num, Den int64 }

// Depth is the distance of a fold from the leading edge: Share of the unfolded extent of the sheet in that direction,
// plus Plus nanometres. "1/2" is a share, "210 mm" a plus, and a letter fold with a short inner panel needs both.
type Depth struct{ Share, Plus Ratio }

// Op is what a step does to the stack.
type Op uint8

const (
	Up    Op = iota + 1 // fold: the leading part comes over the rest
	Down                // fold: the leading part goes under the rest
	Left                // turn: the left edge becomes the leading edge
	Right               // turn: the right edge becomes the leading edge
)

// IsFold tells folds from turns.
func (o Op) IsFold() bool { return o == Up || o == Down }

// Step is one fold or one turn; a turn has no depth.
type Step struct {
	Op    Op
	Depth Depth
}

// Face is a face of the sheet or of the delivered stack, by the way it looks on the table.
type Face uint8

const (
	FaceUp Face = iota
	FaceDown
)

// Trims are taken off the finished piece after the last fold; the spine is never trimmed here.
type Trims struct{ Head, Foot, Front units.Length }

// Scheme is a list of folds and turns with what goes with it.
type Scheme struct {
	Name  string // catalogue name such as F16-7, or the shop's own, or empty
	Steps []Step
	First Face         // the face of the delivered stack that carries folio 1
	Lap   units.Length // the last fold is shifted by Lap/2, so that one half stands out by Lap (negative: the other half)
	Trims Trims
}

// Folds counts the folds of the scheme.
func (s Scheme) Folds() int {
	n := 0
	for _, st := range s.Steps {
		if st.Op.IsFold() {
			n++
		}
	}
	return n
}
