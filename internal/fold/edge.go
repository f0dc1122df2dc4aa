package fold

// Edge is an edge of a stack, looking with its travel.
type Edge uint8

const (
	Leading Edge = iota
	Trailing
	LeftEdge
	RightEdge
)

// HeadEdge tells which edge of the finished stack, in its own travel, the heads of the pages point to; ok is false when
// there are no folios.
//
// The last fold is the spine. With folio 1 in front and the spine on its left, up is head: on a stack that carries
// folio 1 on top and travels with its spine ahead, that is its right edge; seen from below, its left. Without any fold
// the leading edge stands for the spine.
func (f *Folded) HeadEdge() (Edge, bool) {
	head := RightEdge
	if f.Scheme.First == FaceDown {
		head = LeftEdge
	}
	for _, op := range f.Scheme.turnsAtEnd() {
		head = head.turned(op.Op)
	}
	return head, f.Folios
}

// SpineEdge tells which edge of the finished stack is the last fold.
func (f *Folded) SpineEdge() Edge {
	spine := Leading
	for _, op := range f.Scheme.turnsAtEnd() {
		spine = spine.turned(op.Op)
	}
	return spine
}

// turnsAtEnd gives the turns after the last fold.
func (s Scheme) turnsAtEnd() []Step {
	i := len(s.Steps)
	for i > 0 && !s.Steps[i-1].Op.IsFold() {
		i--
	}
	return s.Steps[i:]
}

// turned is where the edge is after a turn.
func (e Edge) turned(turn Op) Edge {
	after := [...]Edge{Leading: RightEdge, RightEdge: Trailing, Trailing: LeftEdge, LeftEdge: Leading}
	if turn == Right {
		after = [...]Edge{Leading: LeftEdge, LeftEdge: Trailing, Trailing: RightEdge, RightEdge: Leading}
	}
	return after[e]
}
