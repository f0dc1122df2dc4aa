package shop

import (
	"fmt"

	"foldwright/internal/settings"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// House is what the shop has decided for itself: tolerances, usual wheels, advice thresholds.
type House struct {
	Tolerance units.Length            // of alike patterns
	Usual     map[tooling.Kind]string // the spec that is meant when a docket names none
	Rings     settings.Rings
	Advice    settings.Advice
}

// DefaultHouse is what holds until the shop decides otherwise. The tolerance of alike patterns is about what a shaft set
// with a gauge keeps (common practice, no source).
func DefaultHouse() House {
	usual := settings.DefaultHouse()
	return House{Tolerance: 300 * units.Micrometre, Usual: usual.Usual, Rings: usual.Rings, Advice: usual.Advice}
}

// SettingsHouse is the house as the settings room asks it: with the bodies of the listed tools and what stands on the
// sets. It is worked out once from the shop, which must not change while it is in use.
func (s *Shop) SettingsHouse() *settings.House {
	bodies := s.bodies()
	index := tooling.NewIndex(s.Sets, s.House.Tolerance)
	return &settings.House{
		Body: func(class string, t tooling.Type) tooling.Body { return bodies[kindOfTool{class, t}] },
		Rack: func(class string, want tooling.Pattern) []tooling.Window {
			var windows []tooling.Window
			for _, m := range index.Serves(want) {
				windows = append(windows, m.Shift)
			}
			return windows
		},
		Usual:  s.House.Usual,
		Rings:  s.House.Rings,
		Advice: s.House.Advice,
	}
}

// toleranceMost is beyond what any eye would call alike.
const toleranceMost = 5 * units.Millimetre

func (c *checker) house() {
	h := c.shop.House
	if h.Tolerance < 0 || h.Tolerance > toleranceMost {
		c.add(CodeHouse, "house.tolerance", "a tolerance of "+h.Tolerance.Format(false), "0 to "+toleranceMost.Format(false)+"; 0.3 mm is usual")
	}
}

// weightMost is the dearest that a minute can be.
const weightMost = 1000

func (c *checker) weights() {
	w := c.shop.Weights
	for _, p := range []struct {
		field string
		price float64
	}{{"late", w.Late}, {"makeready", w.Makeready}, {"waiting", w.Waiting}, {"bench", w.Bench}} {
		if !(p.price >= 0 && p.price <= weightMost) { // a NaN is neither
			c.add(CodeWeight, "weights."+p.field, fmt.Sprintf("a minute that costs %g", p.price), fmt.Sprintf("0 to %d", weightMost))
		}
	}
	if w == (Weights{}) {
		c.add(CodeWeight, "weights", "nothing costs anything", "give at least one price above 0")
	}
}
