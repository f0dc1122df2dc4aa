package changeover

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"foldwright/internal/machine"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

const tolerance = 300 * units.Micrometre

func perforations(places ...float64) tooling.Pattern {
	p := tooling.Pattern{Class: "wide 35"}
	for _, x := range places {
		p.Tools = append(p.Tools, tooling.Tool{Type: tooling.Type{Kind: tooling.Perforate, Spec: "12 tpi"}, At: mm(x)})
	}
	return p
}

// Worked by hand with the default minutes. They keep to what is known in the trade (common practice, no source): a preset
// pair in a couple of minutes plus the way to the shafts, a pattern from scratch 10–15 min, up to 20 when complicated.
func TestToolingMinutes(t *testing.T) {
	std := Default()
	open := machine.Station{Name: "2A", Class: "wide 35"}
	behind := machine.Station{Name: "1A", Class: "wide 35", AccessMin: 2.5, ExitShaft: true}
	for _, c := range []struct {
		name string
		got  time.Duration
		want time.Duration
	}{
		{"swap: 2 shafts × 1 min", std.Swap(open), 2 * minute},
		{"swap: 2 × 1 + 2.5 + 1.5 min", std.Swap(behind), 6 * minute},
		{"access", std.Access(behind), 150 * time.Second},
		{"guide", std.GuideMove(), minute},
		{"two from scratch: 4 + 2 × 3", std.InFolder(perforations(), perforations(100, 300), tolerance), 10 * minute},
		{"three from scratch: 4 + 3 × 3", std.InFolder(perforations(), perforations(100, 300, 500), tolerance), 13 * minute},
		{"five from scratch: 4 + 5 × 3", std.InFolder(perforations(), perforations(100, 200, 300, 400, 500), tolerance), 19 * minute},
		{"one slid: 4 + 2", std.InFolder(perforations(100, 300), perforations(100, 320), tolerance), 6 * minute},
		{"stripped: 4 + 2 × 1", std.InFolder(perforations(100, 300), perforations(), tolerance), 6 * minute},
		{"nothing to do", std.InFolder(perforations(100, 300.1), perforations(100, 300), tolerance), 0},
		// The tools must end up where they are wanted, not only as far apart: both are slid.
		{"alike at a shift", std.InFolder(perforations(100, 300), perforations(140, 340), tolerance), 8 * minute},
		{"bench, two from scratch: 3 + 2 × 2.5", std.OnBench(perforations(), perforations(100, 300), tolerance), 8 * minute},
		{"bench, one slid: 3 + 1.5", std.OnBench(perforations(100, 300), perforations(100, 320), tolerance), 270 * time.Second},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
}

func TestToolingLines(t *testing.T) {
	std := Default()
	behind := machine.Station{Name: "1A", AccessMin: 2.5, ExitShaft: true}
	open := machine.Station{Name: "2A"}
	for _, c := range []struct {
		name string
		got  Line
		want told
	}{
		{"swap", std.SwapLine(open, "W35-02"), told{"tooling 2A", "set W35-02 in: 2 shafts 2 min", 2 * minute}},
		{
			"swap behind an exit shaft", std.SwapLine(behind, "W35-02"),
			told{"tooling 1A", "set W35-02 in: 2 shafts 2 min, way to the shafts 2.5 min, exit shaft out and in 1.5 min", 6 * minute},
		},
		// 4 min + 1 removed + 1 slid × 2 min + 2.5 min of way = 9.5 min.
		{
			"fit", std.FitLine(behind, perforations(50, 100, 300), perforations(100, 320), tolerance),
			told{"tooling 1A", "tools at the machine: take off 1, slide 1, leave 1; way to the shafts 2.5 min", 9*minute + 30*time.Second},
		},
		{
			"fit from plain", std.FitLine(open, perforations(), perforations(100, 320), tolerance),
			told{"tooling 2A", "tools at the machine: fit 2", 10 * minute},
		},
		{"nothing to fit", std.FitLine(behind, perforations(100), perforations(100), tolerance), told{"tooling 1A", "all tools stay", 0}},
		{"one guide", std.GuideLine(1), told{"guides", "side guide moved: unit 1", minute}},
		{"two guides", std.GuideLine(1, 3), told{"guides", "side guides moved: units 1 and 3", 2 * minute}},
		{"three guides", std.GuideLine(1, 2, 3), told{"guides", "side guides moved: units 1, 2 and 3", 3 * minute}},
	} {
		if got := tell([]Line{c.got})[0]; got != c.want {
			t.Errorf("%s:\n got %+v\nwant %+v", c.name, got, c.want)
		}
	}
}

func TestEditWords(t *testing.T) {
	for _, c := range []struct {
		edit tooling.Edit
		want string
	}{
		{tooling.Edit{}, "no tools"},
		{tooling.Edit{Keep: 1}, "leave 1"},
		{tooling.Edit{Keep: 3}, "leave 3"},
		{tooling.Edit{Remove: 2, Add: 1, Slide: 1, Keep: 1}, "take off 2, fit 1, slide 1, leave 1"},
	} {
		if got := EditWords(c.edit).String(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.edit, got, c.want)
		}
	}
}

// Whatever the standards: a line's time is what the planner's figures add up to, in whole seconds.
func TestFitLineIsAccessAndWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		std := standards().Draw(t, "standards")
		st := machine.Station{Name: "1A", AccessMin: rapid.Float64Range(0, 30).Draw(t, "access"), ExitShaft: rapid.Bool().Draw(t, "exit")}
		places := rapid.SliceOfN(rapid.Float64Range(0, 700), 0, 4)
		have, want := sorted(places.Draw(t, "have")), sorted(places.Draw(t, "want"))
		work := std.InFolder(have, want, tolerance)
		line := std.FitLine(st, have, want, tolerance)
		if expected := std.Access(st) + work; work > 0 && line.Time != expected || work == 0 && line.Time != 0 {
			t.Fatalf("line %v, access and work %v", line.Time, expected)
		}
		if work < 0 || work%time.Second != 0 || std.Swap(st) < 0 || std.Swap(st)%time.Second != 0 {
			t.Fatalf("work %v, swap %v", work, std.Swap(st))
		}
		if std.SwapLine(st, "S").Time != std.Swap(st) {
			t.Fatal("the line of a swap is not its time")
		}
	})
}
