package changeover

import (
	"math"
	"time"

	"foldwright/internal/machine"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
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
	why := words.T("side guides moved: units %s", words.Numbers(units))
	if len(units) == 1 {
		why = words.T("side guide moved: unit %d", units[0])
	}
	return Line{words.T("guides"), why, time.Duration(len(units)) * s.Guide}
}

// SwapLine explains a swap at a station: the named set goes in.
func (s *Standards) SwapLine(st machine.Station, set string) Line {
	parts := words.Joined{words.T("2 shafts %s", 2*s.Shaft)}
	if a := s.Access(st); a > 0 {
		parts = append(parts, words.T("way to the shafts %s", a))
	}
	if st.ExitShaft && s.ExitShaft > 0 {
		parts = append(parts, words.T("exit shaft out and in %s", s.ExitShaft))
	}
	return Line{toolingAt(st), words.T("set %s in: %s", set, parts), s.Swap(st)}
}

// FitLine explains tools changed at the machine in a station.
func (s *Standards) FitLine(st machine.Station, have, want tooling.Pattern, tolerance units.Length) Line {
	e := s.AtFolder.edit(have, want, tolerance)
	t := s.AtFolder.time(e)
	if t == 0 {
		return Line{What: toolingAt(st), Why: words.T("all tools stay")}
	}
	why := words.Series{words.T("tools at the machine: %s", EditWords(e))}
	if a := s.Access(st); a > 0 {
		t += a
		why = append(why, words.T("way to the shafts %s", a))
	}
	return Line{toolingAt(st), words.T("%s", why), t}
}

func toolingAt(st machine.Station) words.Text { return words.T("tooling %s", st.Name) }

// EditWords says what an edit does, by the number of tools: "take off 1, fit 2, slide 1, leave 3".
func EditWords(e tooling.Edit) words.Text {
	var parts words.Joined
	add := func(n int, what string) {
		if n > 0 {
			parts = append(parts, words.T(what, n))
		}
	}
	add(e.Remove, "take off %d")
	add(e.Add, "fit %d")
	add(e.Slide, "slide %d")
	add(e.Keep, "leave %d")
	if parts == nil {
		return words.T("no tools")
	}
	return words.T("%s", parts)
}
