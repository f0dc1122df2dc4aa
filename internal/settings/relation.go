package settings

import (
	"foldwright/internal/fold"
	"foldwright/internal/machine"
	"foldwright/internal/units"
)

// relation is how the stack in the machine lies against the stack as drawn: which edge of the drawn stack leads, and
// whether its top looks down. Four edges and two faces make eight, and every feed, turn and fold goes from one to another.
type relation struct {
	leads   side
	flipped bool
}

// side is an edge of a stack in its own frame: s = 0, t = 0, s = length, t = width. They are numbered going round
// anticlockwise as seen from the top with the travel away from the viewer, so that adding 1 turns left.
type side uint8

const (
	leading side = iota
	left
	tail
	right
)

// turn is the side that lies by quarters anticlockwise from s.
func (s side) turn(by int) side { return side((int(s) + by + 4) % 4) }

// across tells whether the drawn travel is the machine's travel, forwards or backwards: whether a drawn fold lies across.
func (r relation) across() bool { return r.leads == leading || r.leads == tail }

// redrawn follows a turn of the drawing. Nothing moves in the machine; only the names of the drawn edges change: after
// "left" the former left edge is the leading one, the former leading edge the right one.
func (r relation) redrawn(op fold.Op) relation {
	if op == fold.Left {
		return relation{r.leads.turn(-1), r.flipped}
	}
	return relation{r.leads.turn(1), r.flipped}
}

// entered follows the machine: the stack's left or right edge, looking with the machine's travel, leads from now on. Seen
// from the drawn top that is the other hand when the stack lies on its face.
func (r relation) entered(how machine.Entry) relation {
	by := 0
	switch how {
	case machine.TurnLeft:
		by = 1
	case machine.TurnRight:
		by = -1
	}
	if r.flipped {
		by = -by
	}
	return relation{r.leads.turn(by), r.flipped}
}

// folded gives what the machine does for a drawn fold at depth of a stack of that length: the distance from the machine's
// leading edge to the line, and the sense. Only for relations that are across.
//
// The bend is a fact of the paper: drawn up is a valley on the drawn top, and a valley on the top as it lies is up. When
// the drawn tail leads, the machine moves the part that the drawing leaves lying. Its stack is then the drawn one turned
// over about the fold, which leads in both: so flipped changes and the drawn leading edge leads.
func (r relation) folded(op fold.Op, depth, length units.Length) (stop units.Length, up bool, after relation) {
	up = (op == fold.Up) != r.flipped
	if r.leads == tail {
		return length - depth, up, relation{leading, !r.flipped}
	}
	return depth, up, r
}

// extent gives a drawn state in the machine's frame.
func (r relation) extent(drawn fold.State) fold.State {
	if !r.across() {
		drawn.Length, drawn.Width = drawn.Width, drawn.Length
	}
	return drawn
}

// along tells whether a line Axis = … of the drawn stack runs along the machine's travel.
func (r relation) along(axis fold.Axis) bool { return (axis == fold.T) == r.across() }

// t is the machine's t of a line that runs along its travel, given its place in the drawn stack.
func (r relation) t(at units.Length, drawn fold.State) units.Length {
	extent := drawn.Width
	mirrored := r.leads == tail
	if !r.across() {
		extent = drawn.Length
		mirrored = r.leads == left
	}
	if mirrored != r.flipped {
		return extent - at
	}
	return at
}
