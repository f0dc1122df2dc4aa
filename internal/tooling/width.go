package tooling

import "foldwright/internal/units"

// Width is the width told by the spec: of the strip that a [Strip] takes out, or of the edge of a [Score].
func (t Type) Width() (w units.Length, ok bool) {
	if t.Kind != Strip && t.Kind != Score {
		return 0, false
	}
	w, err := units.ParseLength(t.Spec, units.Millimetre)
	return w, err == nil
}
