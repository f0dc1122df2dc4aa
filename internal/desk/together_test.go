package desk

import (
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// Goal: together finds a common shift exactly when there is one. Method: on a grid of whole nanometres every shift can be
// tried.
func TestTogetherAgreesWithTryingEveryShift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		window := rapid.Custom(func(t *rapid.T) tooling.Window {
			lo := rapid.IntRange(-6, 6).Draw(t, "lo")
			return tooling.Window{Lo: units.Length(lo), Hi: units.Length(lo + rapid.IntRange(-1, 4).Draw(t, "width"))}
		})
		match := rapid.Custom(func(t *rapid.T) tooling.Match { return tooling.Match{Shift: window.Draw(t, "shift")} })
		lists := rapid.SliceOfN(rapid.SliceOfN(match, 1, 3), 0, 3).Draw(t, "lists")
		mine := window.Draw(t, "mine")

		got, ok := together(mine, lists)
		common := func(shift units.Length) bool {
			if !mine.Has(shift) {
				return false
			}
			for _, list := range lists {
				some := false
				for _, m := range list {
					some = some || m.Shift.Has(shift)
				}
				if !some {
					return false
				}
			}
			return true
		}
		exists := false
		for shift := units.Length(-12); shift <= 12; shift++ {
			exists = exists || common(shift)
			if ok && got.Has(shift) && !common(shift) {
				t.Fatalf("%v is said to suit all, %v does not", got, shift)
			}
		}
		if exists != ok {
			t.Fatalf("together says %v, a common shift exists: %v", ok, exists)
		}
	})
}
