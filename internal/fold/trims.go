package fold

import "foldwright/internal/units"

// Trimmed is the finished stack after its trims.
func (f *Folded) Trimmed() State {
	st, tr := f.Finished(), f.Scheme.Trims
	leaf, height := &st.Length, &st.Width
	if spine := f.SpineEdge(); spine == LeftEdge || spine == RightEdge {
		leaf, height = height, leaf
	}
	*leaf -= tr.Front
	*height -= tr.Head + tr.Foot
	return st
}

func (f *Folded) checkTrims() error {
	tr := f.Scheme.Trims
	for _, l := range []units.Length{tr.Head, tr.Foot, tr.Front} {
		if l < 0 || l > maxSide {
			return bad(codeTrim, "trims", mm(l)+" is no trim", "0 or a few millimetres")
		}
	}
	if st := f.Trimmed(); st.Length <= 0 || st.Width <= 0 {
		whole := f.Finished()
		return bad(codeTrim, "trims", "nothing is left of the finished piece",
			"less than "+mm(whole.Length)+" × "+mm(whole.Width)+" in all")
	}
	return nil
}
