package plan

import (
	"cmp"
	"slices"

	"foldwright/internal/settings"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// bodies tells the room a tool takes on the shafts of a class.
type bodies func(class string, t tooling.Type) tooling.Body

// fits tells at which guide positions what stands on the shafts serves a job at a station the sheet passes; the window is
// empty when it never does.
//
//   - The job wants tools: the patterns must be alike, and the shift that makes them so moves the guide by the same
//     amount, because every tool of the job is measured from the guide.
//   - The job wants none: nothing on the shafts may touch the sheet, holders included.
func fits(u *settings.Unit, st *settings.Station, have tooling.Pattern, tolerance units.Length, body bodies) tooling.Window {
	if len(st.Tools) == 0 {
		return untouched(u.Guide, st.Paper, have, body)
	}
	shift, ok := tooling.Alike(st.Pattern(), have, tolerance)
	if !ok {
		return tooling.Window{Lo: 1, Hi: 0}
	}
	return shift.Moved(u.Guide.At).Meet(u.Guide.Window)
}

// untouched returns the guide positions at which no tool is over the paper: of the ranges between the tools, the one
// nearest to where the guide would stand by itself.
func untouched(g settings.Guide, paper tooling.Window, have tooling.Pattern, body bodies) tooling.Window {
	best := tooling.Window{Lo: 1, Hi: 0}
	offer := func(w tooling.Window) {
		w = w.Meet(g.Window)
		if !w.Empty() && (best.Empty() || distance(w, g.At) < distance(best, g.At)) {
			best = w
		}
	}
	low := tooling.Anywhere.Lo
	for _, b := range blocked(g.At, paper, have, body) {
		offer(tooling.Window{Lo: low, Hi: b.Lo})
		low = max(low, b.Hi)
	}
	offer(tooling.Window{Lo: low, Hi: tooling.Anywhere.Hi})
	return best
}

// blocked returns, ascending, the ranges of guide positions at which a tool is over the paper. At either end of a range
// the body stands a nanometre clear of the edge.
func blocked(at units.Length, paper tooling.Window, have tooling.Pattern, body bodies) []tooling.Window {
	out := make([]tooling.Window, len(have.Tools))
	for i, t := range have.Tools {
		b := body(have.Class, t.Type)
		out[i] = tooling.Window{Lo: at + t.At - b.Left - paper.Hi - 1, Hi: at + t.At + b.Right - paper.Lo + 1}
	}
	slices.SortFunc(out, func(a, b tooling.Window) int { return cmp.Compare(a.Lo, b.Lo) })
	return out
}

// distance is how far a place is from a window; 0 inside.
func distance(w tooling.Window, at units.Length) units.Length {
	return max(w.Lo-at, at-w.Hi, 0)
}
