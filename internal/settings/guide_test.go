package settings

import (
	"slices"
	"testing"

	"foldwright/internal/fold"
	"foldwright/internal/machine"
	"foldwright/internal/tooling"
	"foldwright/internal/units"

	"pgregory.net/rapid"
)

// rackOf is a rack of patterns, asked as the shop asks its index.
func rackOf(tolerance units.Length, patterns ...tooling.Pattern) func(string, tooling.Pattern) []tooling.Window {
	return func(_ string, want tooling.Pattern) []tooling.Window {
		var list []tooling.Window
		for _, have := range patterns {
			if shift, ok := tooling.Alike(want, have, tolerance); ok {
				list = append(list, shift)
			}
		}
		return list
	}
}

func perforations(class string, at ...units.Length) tooling.Pattern {
	p := tooling.Pattern{Class: class}
	for _, a := range at {
		p.Tools = append(p.Tools, tooling.Tool{Type: tooling.Type{Kind: tooling.Perforate}, At: a * mm})
	}
	return p
}

// The 610 mm stack stands centred at 75 on the 760 mm shaft of willow's unit 1, the line of fold 2 at 75 + 305 = 380. A set
// moves the guide only when it must, then right onto its tools, and never out of reach.
func TestTheGuideMovesForASetOnTheRack(t *testing.T) {
	const tolerance = 300 * units.Micrometre
	for name, c := range map[string]struct {
		rack  []tooling.Pattern
		guide units.Length
	}{
		"no rack":                  {nil, 75 * mm},
		"a set in place":           {[]tooling.Pattern{perforations("wide 35", 380)}, 75 * mm},
		"a set within tolerance":   {[]tooling.Pattern{{Class: "wide 35", Tools: []tooling.Tool{{Type: tooling.Type{Kind: tooling.Perforate}, At: 380*mm + 150*units.Micrometre}}}}, 75 * mm},
		"a set 12 mm on":           {[]tooling.Pattern{perforations("wide 35", 392)}, 87 * mm},
		"the nearer of two":        {[]tooling.Pattern{perforations("wide 35", 350), perforations("wide 35", 400)}, 95 * mm},
		"a set out of reach":       {[]tooling.Pattern{perforations("wide 35", 700)}, 75 * mm},
		"a set of another class":   {[]tooling.Pattern{perforations("wide 30", 392)}, 75 * mm},
		"a set with one tool more": {[]tooling.Pattern{perforations("wide 35", 392, 420)}, 75 * mm},
	} {
		t.Run(name, func(t *testing.T) {
			j, folded := docket(t, 860*mm, 610*mm, "up 1/2, left, up 1/2", "perforate fold 2")
			h := house()
			h.Rack = rackOf(tolerance, c.rack...)
			best, miss := Best(j, folded, combination(), h)
			if miss != nil {
				t.Fatal(miss.Why())
			}
			u := best.Units[0]
			if u.Guide.At != c.guide || u.Stations[0].Tools[0].At != c.guide+305*mm {
				t.Errorf("guide at %s, tool at %s, want the guide at %s", u.Guide.At.Exact(), u.Stations[0].Tools[0].At.Exact(), c.guide.Exact())
			}
		})
	}
}

// A way for which the rack has a set goes before the way as drawn: with the tail leading the line lies 100 mm from the
// guide instead of 300, and the set at 205 serves with the guide at 105.
func TestAServingSetComesFirst(t *testing.T) {
	j, folded := docket(t, 600*mm, 400*mm, "up 1/2", "perforate at t 100 mm")
	f := combination()
	f.Units[0].Guide.Range = span(100, 110)
	h := house()
	if first, _ := Best(j, folded, f, h); first.Feed != (Feed{S0, Front}) {
		t.Errorf("without a rack: %v", first.Feed)
	}
	h.Rack = rackOf(0, perforations("wide 35", 205))
	best, _ := Best(j, folded, f, h)
	if u := best.Units[0]; best.Feed != (Feed{S1, Front}) || u.Guide.At != 105*mm || u.Stations[0].Tools[0].At != 205*mm {
		t.Errorf("fed %v, guide %v, tools %v", best.Feed, u.Guide, u.Stations[0].Tools)
	}
}

// Two stations: all on the first as long as nothing speaks for more; split when the rack has a set for each half; not
// split for the sake of one half alone.
func TestStationsShareToolsAsTheRackHasThem(t *testing.T) {
	f := combination()
	second := f.Units[0].Stations[0]
	second.Name, second.Class = "1B", "other 35"
	f.Units[0].Stations = append(f.Units[0].Stations, second)
	first, other := perforations("wide 35", 285), perforations("other 35", 485) // 75 + 610 − 400, 75 + 610 − 200
	for name, c := range map[string]struct {
		rack []tooling.Pattern
		want string
	}{
		"no rack":            {nil, "perforate perforate | "},
		"a set for all":      {[]tooling.Pattern{perforations("wide 35", 285, 485)}, "perforate perforate | "},
		"a set for each":     {[]tooling.Pattern{first, other}, "perforate | perforate"},
		"a set for one only": {[]tooling.Pattern{first}, "perforate perforate | "},
	} {
		t.Run(name, func(t *testing.T) {
			j, folded := docket(t, 860*mm, 610*mm, "up 1/2", "perforate at t 200 mm", "perforate at t 400 mm")
			h := house()
			h.Rack = rackOf(0, c.rack...)
			ways, miss := Ways(j, folded, f, h)
			if miss != nil {
				t.Fatal(miss.Why())
			}
			stations := ways[0].Units[0].Stations
			if got := kinds(stations[0]) + " | " + kinds(stations[1]); got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
		})
	}
}

// The window arithmetic against a count of every whole number.
func TestWindowsAgainstCounting(t *testing.T) {
	windows := rapid.Custom(func(t *rapid.T) []tooling.Window {
		list := make([]tooling.Window, rapid.IntRange(0, 4).Draw(t, "n"))
		for i := range list {
			lo := units.Length(rapid.IntRange(-20, 20).Draw(t, "lo"))
			list[i] = tooling.Window{Lo: lo, Hi: lo + units.Length(rapid.IntRange(-1, 9).Draw(t, "wide"))}
		}
		return list
	})
	in := func(list []tooling.Window, x units.Length) bool {
		return slices.ContainsFunc(list, func(w tooling.Window) bool { return w.Has(x) })
	}
	rapid.Check(t, func(t *rapid.T) {
		a, b := windows.Draw(t, "a"), windows.Draw(t, "b")
		ua, ub := union(a, 0), union(b, 0)
		both, rest := meet(ua, ub), without(ua, ub)
		for x := units.Length(-40); x <= 40; x++ {
			if in(a, x) != in(ua, x) || in(both, x) != (in(a, x) && in(b, x)) {
				t.Fatalf("at %d: union %v, meet %v", x, ua, both)
			}
			inside := slices.ContainsFunc(ub, func(w tooling.Window) bool { return w.Lo < x && x < w.Hi })
			if in(rest, x) && (!in(a, x) || inside) || (in(a, x) && !in(b, x) && !in(rest, x)) {
				t.Fatalf("at %d: %v without %v is %v", x, ua, ub, rest)
			}
		}
		if want := units.Length(rapid.IntRange(-40, 40).Draw(t, "want")); len(ua) > 0 {
			at := nearestIn(ua, want)
			for x := units.Length(-40); x <= 40; x++ {
				if in(ua, x) && abs(x-want) < abs(at-want) || !in(ua, at) {
					t.Fatalf("nearest to %d in %v: %d", want, ua, at)
				}
			}
		}
	})
}

// Trims of head and foot lie inside the edges that the heads and feet of the pages come to, whatever the feed: the head
// edge of a panel on the flat sheet is followed through the folding.
func TestTrimsLieAtHeadAndFoot(t *testing.T) {
	for _, scheme := range []string{"F8-7", "F16-6", "F16-7", "F16-8", "F32-4", "up 1/2, left, up 1/2, left", "up 1/2, left, up 1/2, right, right"} {
		j, folded := docket(t, 840*mm, 600*mm, scheme, "trim 3 mm at the head", "trim 5 mm at the foot")
		f := combination()
		both := []machine.Entry{machine.TurnLeft, machine.TurnRight}
		f.Units[2].Kind, f.Units[2].Plates = machine.Buckle, plates(span(20, 900), span(20, 900), span(20, 900), span(20, 900))
		f.Units[1].Enters, f.Units[2].Enters = both, both
		f.Units[2].Stations = []machine.Station{{Name: "3A", Class: "short 35", To: 600 * mm}}
		fourth := f.Units[2]
		fourth.Stations = []machine.Station{{Name: "4A", Class: "short 35", To: 600 * mm}}
		f.Units = append(f.Units, fourth)
		ways, miss := Ways(j, folded, f, house())
		if miss != nil {
			t.Errorf("%s: %s", scheme, miss.Why())
			continue
		}
		for i := range ways {
			checkTrims(t, f, &ways[i], folded)
		}
	}
}

func checkTrims(t *testing.T, f *machine.Folder, s *Settings, folded *fold.Folded) {
	t.Helper()
	scheme, sheet, steps := asFed(f, s, folded.Sheet)
	last := len(s.Units) - 1
	for !s.Units[last].Engaged {
		last--
	}
	p := folded.Panels[0]
	head := map[fold.Head][2]units.Length{
		fold.HeadSMinus: {p.S[0], (p.T[0] + p.T[1]) / 2}, fold.HeadSPlus: {p.S[1], (p.T[0] + p.T[1]) / 2},
		fold.HeadTMinus: {(p.S[0] + p.S[1]) / 2, p.T[0]}, fold.HeadTPlus: {(p.S[0] + p.S[1]) / 2, p.T[1]},
	}[p.Head]
	fs, ft := onFed(s.Feed, folded.Sheet, head[0], head[1])
	_, headAt := locate(scheme, sheet, steps[last], fs, ft)
	wide := s.Units[last].Out.Width
	want := map[string]units.Length{"trim head": 3 * mm, "trim foot": wide - 5*mm}
	if headAt == wide {
		want = map[string]units.Length{"trim head": wide - 3*mm, "trim foot": 5 * mm}
	} else if headAt != 0 {
		t.Fatalf("the head lies at %v of %v", headAt, wide)
	}
	for _, st := range s.Units[last].Stations {
		for _, tool := range st.Tools {
			if tool.T != want[tool.For.String()] {
				t.Errorf("%s, fed %v: %s at t %v, want %v", folded.Scheme.Name, s.Feed, tool.For, tool.T, want[tool.For.String()])
			}
			delete(want, tool.For.String())
		}
	}
	if len(want) > 0 {
		t.Errorf("%s, fed %v: %v missing", folded.Scheme.Name, s.Feed, want)
	}
}
