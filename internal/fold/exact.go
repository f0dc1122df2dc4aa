package fold

import "foldwright/internal/units"

// exact holds the folding in whole parts of a nanometre; see decision record 001.
type exact struct {
	grain  int64 // parts in a nanometre
	depths []int64
	lines  []line
	final  stack
	down   uint32 // bit k is set when fold k goes down
}

// line is a fold line right across the flat sheet.
type line struct {
	step, fold int
	axis       Axis
	at         int64
}

// keep copies the final stack out of the workspace it was made in, both strips into one piece of memory.
func (e *exact) keep(st *stack) {
	s, t := st.strips[S], st.strips[T]
	all := make(strip, 0, len(s)+len(t))
	all = append(append(all, s...), t...)
	e.final = stack{
		strips: [2]strip{all[:len(s):len(s)], all[len(s):]},
		length: st.length, width: st.width, along: st.along, folds: st.folds,
	}
}

// round gives the nearest nanometre, halves away from zero.
func (e *exact) round(n int64) units.Length {
	if n < 0 {
		return units.Length((n - e.grain/2) / e.grain)
	}
	return units.Length((n + e.grain/2) / e.grain)
}
