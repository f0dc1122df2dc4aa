package shop

import (
	"foldwright/internal/calendar"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/tooling"
)

// Folder returns the folder of that name.
func (s *Shop) Folder(name string) (*machine.Folder, bool) {
	return find(s.Folders, func(f *machine.Folder) bool { return f.Name == name })
}

// Calendar returns the calendar of that name.
func (s *Shop) Calendar(name string) (*calendar.Calendar, bool) {
	return find(s.Calendars, func(c *calendar.Calendar) bool { return c.Name == name })
}

// Class returns the shaft class of that name.
func (s *Shop) Class(name string) (*tooling.Class, bool) {
	return find(s.Classes, func(c *tooling.Class) bool { return c.Name == name })
}

// Tool returns the stock of a type of tool for shafts of a class.
func (s *Shop) Tool(class string, t tooling.Type) (*ToolStock, bool) {
	return find(s.Tools, func(k *ToolStock) bool { return k.Class == class && k.Type == t })
}

// Set returns the set with that label.
func (s *Shop) Set(label string) (*tooling.Set, bool) {
	return find(s.Sets, func(t *tooling.Set) bool { return t.Label == label })
}

// Mounted returns the set that stands in a station of a folder.
func (s *Shop) Mounted(folder, station string) (*tooling.Set, bool) {
	return find(s.Sets, func(t *tooling.Set) bool { return t.Place.Folder == folder && t.Place.Station == station })
}

// Stock returns the stock of that name.
func (s *Shop) Stock(name string) (*paper.Stock, bool) {
	return find(s.Stocks, func(k *paper.Stock) bool { return k.Name == name })
}

// Job returns the job of that name, among those to be planned and those done.
func (s *Shop) Job(name string) (*job.Job, bool) {
	named := func(j *job.Job) bool { return j.Name == name }
	if j, ok := find(s.Jobs, named); ok {
		return j, true
	}
	return find(s.Done, named)
}

// State returns what stands on a folder now, if the shop says so.
func (s *Shop) State(folder string) (*State, bool) {
	return find(s.States, func(t *State) bool { return t.Folder == folder })
}

// FolderHours is when a folder can work: its calendar but for the times it is down.
func (s *Shop) FolderHours(folder string) (calendar.Hours, bool) {
	f, ok := s.Folder(folder)
	if !ok {
		return calendar.Hours{}, false
	}
	c, ok := s.Calendar(f.Calendar)
	h := calendar.Hours{Calendar: c}
	if state, known := s.State(folder); known {
		h.Gaps = state.Down
	}
	return h, ok
}

// Hours is when the person is at the bench.
func (s *Shop) Hours(p *Person) (calendar.Hours, bool) {
	c, ok := s.Calendar(p.Calendar)
	return calendar.Hours{Calendar: c, Gaps: p.Away}, ok
}

// JobNames lists the jobs to be planned, in the order given.
func (s *Shop) JobNames() []string { return names(s.Jobs, func(j job.Job) string { return j.Name }) }

// FolderNames lists the folders, in the order of the shop.
func (s *Shop) FolderNames() []string {
	return names(s.Folders, func(f machine.Folder) string { return f.Name })
}

// SetLabels lists the sets, in the order of the shop.
func (s *Shop) SetLabels() []string {
	return names(s.Sets, func(t tooling.Set) string { return t.Label })
}

// find returns the first element for which is holds.
func find[T any](list []T, is func(*T) bool) (*T, bool) {
	for i := range list {
		if is(&list[i]) {
			return &list[i], true
		}
	}
	return nil, false
}

func names[T any](list []T, name func(T) string) []string {
	out := make([]string, len(list))
	for i, v := range list {
		out[i] = name(v)
	}
	return out
}
