package settings

import (
	"slices"

	"foldwright/internal/machine"
	"foldwright/internal/units"
)

// WithGuide is the same way to run the job with the side guide of a unit (from 1) brought to another place of its window,
// and everything measured with it: tools, paper and drive rings keep their places on the sheet. A ring that would leave
// the part of the shaft that tools may use is no longer suggested. The settings themselves stay as they are.
func (s *Settings) WithGuide(f *machine.Folder, unit int, at units.Length) *Settings {
	by := at - s.Units[unit-1].Guide.At
	if by == 0 {
		return s
	}
	moved := *s
	moved.Units = slices.Clone(s.Units)
	u := &moved.Units[unit-1]
	u.Guide.At = at
	u.Stations = slices.Clone(u.Stations)
	for k := range u.Stations {
		u.Stations[k] = u.Stations[k].moved(by, &f.Units[unit-1].Stations[k])
	}
	return &moved
}

// moved is the station with all that stands on its shafts moved; where tells how far that may go.
func (s Station) moved(by units.Length, where *machine.Station) Station {
	s.Paper = s.Paper.Moved(by)
	s.Tools = slices.Clone(s.Tools)
	for i := range s.Tools {
		s.Tools[i].At += by
	}
	var rings []units.Length
	for _, at := range s.DriveRings {
		if at += by; at >= where.From && at <= where.To {
			rings = append(rings, at)
		}
	}
	s.DriveRings = rings
	return s
}
