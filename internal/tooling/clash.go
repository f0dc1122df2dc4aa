package tooling

import "foldwright/internal/units"

// Clash is two tools whose bodies overlap: they stand Distance apart and need Least.
type Clash struct {
	I, J            int
	Distance, Least units.Length
}

// Clashes lists every two tools that do not fit beside each other, by their numbers in tools, which must ascend. Bodies
// may touch; the clearance a shop wants between two hubs belongs into their bodies.
func Clashes(tools []Tool, body func(Type) Body) []Clash {
	var list []Clash
	for j, right := range tools {
		for i, left := range tools[:j] {
			least := body(left.Type).Right + body(right.Type).Left
			if d := right.At - left.At; d < least {
				list = append(list, Clash{i, j, d, least})
			}
		}
	}
	return list
}

// Beyond lists the tools whose bodies do not lie wholly on the usable part of the shaft.
func Beyond(tools []Tool, body func(Type) Body, usable Window) []int {
	var list []int
	for i, t := range tools {
		b := body(t.Type)
		if t.At-b.Left < usable.Lo || t.At+b.Right > usable.Hi {
			list = append(list, i)
		}
	}
	return list
}
