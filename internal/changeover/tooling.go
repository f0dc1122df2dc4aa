package changeover

import (
	"fmt"
	"math"
	"strings"
	"time"

	"foldwright/internal/machine"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// Access is the way to the shafts of a station, there and back.
func (s *Standards) Access(st machine.Station) time.Duration {
	return time.Duration(math.Round(st.AccessMin*60)) * time.Second
}

// Swap is one set out of a station and another in: two shafts, the way to them, the exit shaft when it is in the way.
func (s *Standards) Swap(st machine.Station) time.Duration {
	t := s.Access(st) + 2*s.Shaft
	if st.ExitShaft {
		t += s.ExitShaft
	}
	return t
}

// GuideMove is one side guide moved.
func (s *Standards) GuideMove() time.Duration { return s.Guide }

// InFolder makes one pattern of another at the machine, without the way to the shafts ([Standards.Access]); the tools end
// up at the wanted positions themselves. Nothing to do takes no time.
func (s *Standards) InFolder(have, want tooling.Pattern, tolerance units.Length) time.Duration {
	return s.AtFolder.time(s.AtFolder.edit(have, want, tolerance))
}

// OnBench makes one pattern of another on the bench.
func (s *Standards) OnBench(have, want tooling.Pattern, tolerance units.Length) time.Duration {
	return s.AtBench.time(s.AtBench.edit(have, want, tolerance))
}

func (f Fitting) edit(have, want tooling.Pattern, tolerance units.Length) tooling.Edit {
	return tooling.ConvertWithin(have, want, f.EditCost, tolerance, tooling.Window{})
}

func (f Fitting) time(e tooling.Edit) time.Duration {
	if e.Remove+e.Add+e.Slide == 0 {
		return 0
	}
	return f.Start + e.Time
}

// GuideLine explains the guides moved, by the numbers of their units.
func (s *Standards) GuideLine(units ...int) Line {
	return Line{"guides", "side guide moved: " + unitList(units), time.Duration(len(units)) * s.Guide}
}

// SwapLine explains a swap at a station: the named set goes in.
func (s *Standards) SwapLine(st machine.Station, set string) Line {
	parts := []string{"2 shafts " + units.FormatMinutes(2*s.Shaft)}
	if a := s.Access(st); a > 0 {
		parts = append(parts, "way to the shafts "+units.FormatMinutes(a))
	}
	if st.ExitShaft && s.ExitShaft > 0 {
		parts = append(parts, "exit shaft out and in "+units.FormatMinutes(s.ExitShaft))
	}
	return Line{"tooling " + st.Name, fmt.Sprintf("set %s in: %s", set, strings.Join(parts, ", ")), s.Swap(st)}
}

// FitLine explains tools changed at the machine in a station.
func (s *Standards) FitLine(st machine.Station, have, want tooling.Pattern, tolerance units.Length) Line {
	e := s.AtFolder.edit(have, want, tolerance)
	t := s.AtFolder.time(e)
	if t == 0 {
		return Line{What: "tooling " + st.Name, Why: "all tools stay"}
	}
	why := EditWords(e)
	if a := s.Access(st); a > 0 {
		t += a
		why += ", way to the shafts " + units.FormatMinutes(a)
	}
	return Line{"tooling " + st.Name, "at the machine: " + why, t}
}

// EditWords says what an edit does: "1 tool taken off, 2 fitted, 1 slid, 3 stay".
func EditWords(e tooling.Edit) string {
	var parts []string
	add := func(n int, what string) {
		if n == 0 {
			return
		}
		if parts == nil {
			what = plural(n, "tool", "tools") + " " + what
		}
		parts = append(parts, fmt.Sprintf("%d %s", n, what))
	}
	add(e.Remove, "taken off")
	add(e.Add, "fitted")
	add(e.Slide, "slid")
	add(e.Keep, plural(e.Keep, "stays", "stay"))
	if parts == nil {
		return "no tools"
	}
	return strings.Join(parts, ", ")
}
