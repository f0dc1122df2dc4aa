package settings

import (
	"foldwright/internal/machine"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// shaft puts a stack of a width onto the shafts of a unit.
type shaft struct {
	unit  *machine.Unit
	width units.Length
}

// offset is what is added to the guide's position on the shaft to reach the place t on the stack.
//
// The datum shoulder stands on the operator's side, so the shaft's scale runs with t when the operator is on the left and
// against it on the right. The guide stands at the stack's left edge (t = 0) or at its right edge (t = width).
func (s shaft) offset(t units.Length) units.Length {
	if s.unit.Guide.Side == machine.RightSide {
		t -= s.width
	}
	if s.unit.Operator == machine.RightSide {
		return -t
	}
	return t
}

// paper is what the stack covers of the shaft with the guide at 0.
func (s shaft) paper() tooling.Window {
	a, b := s.offset(0), s.offset(s.width)
	return tooling.Window{Lo: min(a, b), Hi: max(a, b)}
}

// centred is where the guide stands when the middle of the stack is over the middle of a station's usable part; without
// stations, in the middle of the guide's own range.
func (s shaft) centred() units.Length {
	middle := (s.unit.Guide.Range.Min + s.unit.Guide.Range.Max) / 2
	if len(s.unit.Stations) == 0 {
		return middle
	}
	station := &s.unit.Stations[0]
	paper := s.paper()
	return (station.From + station.To - paper.Lo - paper.Hi) / 2
}

// guideRange is where the guide can stand.
func (s shaft) guideRange() tooling.Window {
	return tooling.Window{Lo: s.unit.Guide.Range.Min, Hi: s.unit.Guide.Range.Max}
}

// onShafts is where the guide can stand so that the whole stack runs over the usable part of every station; empty when
// the stack is wider than that.
func (s shaft) onShafts() tooling.Window {
	paper, all := s.paper(), s.guideRange()
	for i := range s.unit.Stations {
		station := &s.unit.Stations[i]
		all = all.Meet(tooling.Window{Lo: station.From - paper.Lo, Hi: station.To - paper.Hi})
	}
	return all
}
