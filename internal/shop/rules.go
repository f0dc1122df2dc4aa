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
	Spread    Spread // of the minutes about those that a plan reckons with
}

// Spread is how far minutes scatter: the standard deviation as a share of the mean, for what a plan takes to be the middle,
// as often longer as shorter.
type Spread struct{ Makeready, Run, Bench float64 }

// DefaultSpread holds until the shop knows better from its records: a make-ready a quarter up or down, a run a tenth, bench
// work a quarter (common practice, no source).
func DefaultSpread() Spread { return Spread{Makeready: 0.25, Run: 0.1, Bench: 0.25} }

// DefaultHouse is what holds until the shop decides otherwise. The tolerance of alike patterns is about what a shaft set
// with a gauge keeps (common practice, no source).
func DefaultHouse() House {
	usual := settings.DefaultHouse()
	return House{Tolerance: 300 * units.Micrometre, Usual: usual.Usual, Rings: usual.Rings, Advice: usual.Advice, Spread: DefaultSpread()}
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

// spreadMost is a spread beyond which nobody would speak of standard minutes.
const spreadMost = 2

// toleranceMost is beyond what any eye would call alike.
const toleranceMost = 5 * units.Millimetre

func (c *checker) house() {
	h := c.shop.House
	if h.Tolerance < 0 || h.Tolerance > toleranceMost {
		c.add(CodeHouse, "house.tolerance", "a tolerance of "+h.Tolerance.Format(false), "0 to "+toleranceMost.Format(false)+"; 0.3 mm is usual")
	}
	if r := h.Rings; r.Width < 0 || r.Clearance < 0 || r.Width > bodyMost || r.Clearance > bodyMost {
		c.add(CodeHouse, "house.rings", fmt.Sprintf("rings of %s with %s beside them", r.Width.Format(false), r.Clearance.Format(false)), "0 to "+bodyMost.Format(false)+" each")
	}
	c.upTo("house.rings.apart", "rings apart by a share of", h.Rings.Apart, 1)
	c.upTo("house.spread.makeready", "a spread of", h.Spread.Makeready, spreadMost)
	c.upTo("house.spread.run", "a spread of", h.Spread.Run, spreadMost)
	c.upTo("house.spread.bench", "a spread of", h.Spread.Bench, spreadMost)
	c.advice(h.Advice)
}

func (c *checker) advice(a settings.Advice) {
	if a.PierceLayers < 0 {
		c.add(CodeHouse, "house.advice.pierce_layers", fmt.Sprintf("%d layers", a.PierceLayers), "0 or more")
	}
	if a.Creep < 0 {
		c.add(CodeHouse, "house.advice.creep", "a creep of "+a.Creep.Format(false), "0 or more")
	}
	c.upTo("house.advice.creep_round", "a roundness of", a.CreepRound, 2)
	c.upTo("house.advice.groove_along", "a groove factor of", a.GrooveAlong, 10)
	c.upTo("house.advice.groove_across", "a groove factor of", a.GrooveAcross, 10)
	for i, l := range a.MostLayers {
		field := fmt.Sprintf("house.advice.most_layers[%d]", i)
		if l.Layers < 1 {
			c.add(CodeHouse, field, fmt.Sprintf("at most %d layers", l.Layers), "1 or more")
		}
		if l.UpTo <= 0 || i > 0 && l.UpTo <= a.MostLayers[i-1].UpTo {
			c.add(CodeHouse, field, "the grammages do not ascend", "list them in ascending order, any last")
		}
	}
}

// upTo holds a figure to 0 to most; a NaN is never in there.
func (c *checker) upTo(field, what string, is, most float64) {
	if !(is >= 0 && is <= most) {
		c.add(CodeHouse, field, fmt.Sprintf("%s %g", what, is), fmt.Sprintf("0 to %g", most))
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
