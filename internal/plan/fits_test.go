package plan

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/settings"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// A world small enough to try every guide position: lengths are single nanometres.
const widest = 60

func lengthIn(t *rapid.T, lo, hi int, what string) units.Length {
	return units.Length(rapid.IntRange(lo, hi).Draw(t, what))
}

func drawTools(t *rapid.T) []tooling.Tool {
	kinds := []tooling.Kind{tooling.Slit, tooling.Score}
	tools := make([]tooling.Tool, rapid.IntRange(0, 3).Draw(t, "tools"))
	for i := range tools {
		tools[i] = tooling.Tool{Type: tooling.Type{Kind: rapid.SampledFrom(kinds).Draw(t, "kind")}, At: lengthIn(t, 0, widest, "at")}
	}
	slices.SortStableFunc(tools, func(a, b tooling.Tool) int { return int(a.At - b.At) })
	return tools
}

func drawGuide(t *rapid.T) settings.Guide {
	lo := lengthIn(t, 0, widest, "guide from")
	hi := lo + lengthIn(t, 0, widest, "guide reach")
	return settings.Guide{At: lengthIn(t, int(lo), int(hi), "guide"), Window: tooling.Window{Lo: lo, Hi: hi}}
}

func body(_ string, t tooling.Type) tooling.Body {
	if t.Kind == tooling.Slit {
		return tooling.Body{Left: 2, Right: 3}
	}
	return tooling.Body{Left: 1}
}

// touches tells whether something on the shafts is over the paper with the guide at g, point by point.
func touches(have []tooling.Tool, paper tooling.Window, shift units.Length) bool {
	for _, tool := range have {
		b := body("", tool.Type)
		for x := tool.At - b.Left; x <= tool.At+b.Right; x++ {
			if x >= paper.Lo+shift && x <= paper.Hi+shift {
				return true
			}
		}
	}
	return false
}

// Goal: a station without tools of its own is served exactly where nothing touches the sheet, and by the clear range next
// to where the guide would stand. Method: every guide position is tried point by point.
func TestPlainStationIsServedWhereNothingTouches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, have := drawGuide(t), drawTools(t)
		paper := tooling.Window{Lo: g.At - lengthIn(t, 0, 20, "left of the guide"), Hi: g.At + lengthIn(t, 0, 20, "right of the guide")}
		u := &settings.Unit{Engaged: true, Guide: g}
		got := fits(u, &settings.Station{Paper: paper}, tooling.Pattern{Tools: have}, 4, body)
		nearest := units.Length(-1) // distance from where the guide would stand to the nearest clear position
		for at := g.Window.Lo; at <= g.Window.Hi; at++ {
			clear := !touches(have, paper, at-g.At)
			if got.Has(at) && !clear {
				t.Fatalf("at %d something touches the sheet, yet %v is said to be clear", at, got)
			}
			if far := max(at-g.At, g.At-at); clear && (nearest < 0 || far < nearest) {
				nearest = far
			}
			if clear && !got.Has(at) && (got.Has(at-1) || got.Has(at+1)) {
				t.Fatalf("%d is clear and next to %v, yet left out", at, got)
			}
		}
		if got.Empty() != (nearest < 0) {
			t.Fatalf("served at %v, but the nearest clear position is %d away", got, nearest)
		}
		if !got.Empty() && distance(got, g.At) != nearest {
			t.Fatalf("served at %v, %d away; a clear position is %d away", got, distance(got, g.At), nearest)
		}
	})
}

// Goal: a station with tools of its own is served at a guide position exactly when every wanted line then lies within
// half the tolerance of its tool. Method: every guide position is tried tool by tool.
func TestToolsServeWhereEveryLineIsHit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, want := drawGuide(t), drawTools(t)
		have := drawTools(t)
		if rapid.Bool().Draw(t, "alike") { // the same tools a little elsewhere
			by := lengthIn(t, -10, 10, "by")
			have = slices.Clone(want)
			for i := range have {
				have[i].At += by + lengthIn(t, -2, 2, "off")
			}
		}
		tolerance := 2 * lengthIn(t, 0, 3, "half the tolerance")
		st := &settings.Station{}
		for _, w := range want {
			st.Tools = append(st.Tools, settings.Tool{Tool: w})
		}
		if len(want) == 0 {
			t.Skip("wants no tools")
		}
		got := fits(&settings.Unit{Engaged: true, Guide: g}, st, tooling.Pattern{Tools: have}, tolerance, body)
		for at := g.Window.Lo - 1; at <= g.Window.Hi+1; at++ {
			hit := g.Window.Has(at) && len(have) == len(want)
			for i := 0; hit && i < len(want); i++ {
				off := have[i].At - (want[i].At + at - g.At)
				hit = have[i].Type == want[i].Type && 2*max(off, -off) <= tolerance
			}
			if hit != got.Has(at) {
				t.Fatalf("with the guide at %d every line is hit: %v; said to serve at %v", at, hit, got)
			}
		}
	})
}
