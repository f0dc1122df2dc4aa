package plan_test

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/exchange"
	"foldwright/internal/machine"
	"foldwright/internal/settings"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// world is the state of the tools while the day is replayed: one moment after the other, all folders and the bench.
type world struct {
	*auditDay
	sets    map[string]*setState
	mounted map[stationKey]string    // label; empty = no set
	guides  map[unitKey]units.Length // absent = not known
	loose   map[looseKey]int
	before  map[string]*settings.Settings // by folder: what it is set for; nil = not known
}

type setState struct {
	class string
	at    string    // "rack", "bench" or the station
	free  time.Time // on the rack from then on
	tools []tooling.Tool
}

type stationKey struct{ folder, station string }

type unitKey struct {
	folder string
	unit   int
}

type looseKey struct {
	class string
	tooling.Type
}

// moment is something that happens: what came before at the same time is given back first.
type moment struct {
	at   time.Time
	give bool
	do   func()
}

// replay goes through the day in the order of time.
func (a *auditDay) replay() {
	w := a.world()
	var moments []moment
	for i := range a.day.Folders {
		lane := &a.day.Folders[i]
		f, ok := a.shop.Folder(lane.Folder)
		if !ok {
			continue
		}
		for n := range lane.Tasks {
			task := &lane.Tasks[n]
			moments = append(moments, moment{task.MakereadyStart, false, func() { moments = append(moments, w.makeready(f, task)) }})
		}
	}
	for i := range a.day.Bench {
		b := &a.day.Bench[i]
		moments = append(moments, moment{b.Start, false, func() { moments = append(moments, w.build(b)) }})
	}
	for len(moments) > 0 {
		next := 0
		for i := range moments {
			if earlier(moments[i], moments[next]) {
				next = i
			}
		}
		now := moments[next]
		moments = slices.Delete(moments, next, next+1)
		now.do()
	}
	for key, n := range w.loose {
		if n < 0 {
			a.object("%d loose %s of class %s at the end", n, key.Type, key.class)
		}
	}
}

// difference is how many tools of each type are wanted beyond those that are there; negative: how many are left over.
func difference(class string, want, have []tooling.Tool) map[looseKey]int {
	out := map[looseKey]int{}
	for _, t := range want {
		out[looseKey{class, t.Type}]++
	}
	for _, t := range have {
		out[looseKey{class, t.Type}]--
	}
	return out
}

func earlier(a, b moment) bool {
	if !a.at.Equal(b.at) {
		return a.at.Before(b.at)
	}
	return a.give && !b.give
}

// world is how things stand at the start of the plan, by the shop file.
func (a *auditDay) world() *world {
	w := &world{
		auditDay: a,
		sets:     map[string]*setState{},
		mounted:  map[stationKey]string{},
		guides:   map[unitKey]units.Length{},
		loose:    map[looseKey]int{},
		before:   map[string]*settings.Settings{},
	}
	for _, s := range a.shop.Sets {
		state := &setState{class: s.Class, at: "rack", free: a.doc.From, tools: s.Tools}
		if s.Place.Folder != "" {
			state.at = s.Place.Folder + " " + s.Place.Station
			w.mounted[stationKey{s.Place.Folder, s.Place.Station}] = s.Label
		}
		w.sets[s.Label] = state
	}
	for _, t := range a.shop.Tools {
		w.loose[looseKey{t.Class, t.Type}] += t.Loose
	}
	for _, st := range a.shop.States {
		w.present(st.Folder, st.Job)
		for _, g := range st.Guides {
			w.guides[unitKey{st.Folder, g.Unit}] = g.At
		}
	}
	return w
}

// present sets a folder as the job that stands on it left it.
func (w *world) present(folder, name string) {
	j, ok := w.shop.Job(name)
	f, known := w.shop.Folder(folder)
	if !ok || !known {
		return
	}
	way := w.bestWay(j, f)
	if way == nil {
		return
	}
	w.before[folder] = way
	for u := range way.Units {
		if comesThrough(way, u) {
			w.guides[unitKey{folder, u + 1}] = way.Units[u].Guide.At
		}
	}
}

// comesThrough: the stack passes unit u (from 0), because a fold is made there or further on.
func comesThrough(way *settings.Settings, u int) bool {
	return slices.ContainsFunc(way.Units[u:], func(unit settings.Unit) bool { return unit.Engaged })
}

// makeready replays one changeover and returns the moment at which what it took out is free again.
func (w *world) makeready(f *machine.Folder, task *exchange.PlanTask) moment {
	at := fmt.Sprintf("%s, %s", f.Name, task.Job)
	way := w.way(task.Job, f.Name)
	if way == nil {
		return moment{task.RunStart, true, func() {}}
	}
	c := &change{world: w, at: at, folder: f, task: task, way: way}
	c.run()
	return moment{task.RunStart, true, func() {
		for _, give := range c.after {
			give()
		}
	}}
}

// change is one changeover on its way through the replay.
type change struct {
	*world
	at     string
	folder *machine.Folder
	task   *exchange.PlanTask
	way    *settings.Settings
	time   time.Duration // that it takes by the standards
	moved  []int         // units whose guide moves
	after  []func()      // what happens when the run starts
}

func (c *change) run() {
	std := &c.shop.Standards
	before := c.before[c.folder.Name]
	base := changeover.Base(std, before, c.way)
	c.time = changeover.Sum(base)
	for _, l := range base {
		if says := c.says(l.What.String()); says != l.Time && !c.started() {
			c.object("%s: %s takes %v, should take %v", c.at, l.What, says, l.Time)
		}
	}
	stations := map[string]exchange.PlanStation{}
	for _, st := range c.task.Stations {
		stations[st.Station] = st
	}
	for u := range c.folder.Units {
		moved := c.guide(u, before)
		for k := range c.folder.Units[u].Stations {
			st := &c.folder.Units[u].Stations[k]
			told, ok := stations[st.Name]
			if !ok {
				c.object("%s: station %s is not mentioned", c.at, st.Name)
				continue
			}
			c.station(u, st, told, moved)
			delete(stations, st.Name)
		}
	}
	for name := range stations {
		c.object("%s: there is no station %s", c.at, name)
	}
	c.time += time.Duration(len(c.moved)) * std.GuideMove()
	started := c.started()
	if !started && c.time != minutesOf(c.task.MakereadyMin) {
		c.object("%s: the make-ready is %v min; settings, guides and tools take %v", c.at, c.task.MakereadyMin, c.time)
	}
	if started && c.task.MakereadyMin != 0 {
		c.object("%s: it runs already but has a make-ready", c.at)
	}
	c.before[c.folder.Name] = c.way
}

func (c *change) started() bool {
	j, ok := c.shop.Job(c.task.Job)
	return ok && j.Pin.Started
}

// guide moves the guide of unit u (from 0) to where the plan has it, and tells whether it moved.
func (c *change) guide(u int, before *settings.Settings) bool {
	key := unitKey{c.folder.Name, u + 1}
	was, known := c.guides[key]
	used := comesThrough(c.way, u)
	var to units.Length
	if len(c.folder.Units[u].Stations) == 0 {
		if !used {
			return false
		}
		// Where no set binds it the guide stands where the job alone has it; of a unit out of use nothing is remembered.
		to = c.way.Units[u].Guide.At
		known = known && before != nil && comesThrough(before, u)
	} else {
		i := slices.IndexFunc(c.task.Guides, func(g exchange.PlanGuide) bool { return g.Unit == u+1 })
		if i < 0 {
			if known || used && !c.started() {
				c.object("%s: the guide of unit %d is not mentioned", c.at, u+1)
			}
			return false
		}
		to = units.MM(c.task.Guides[i].AtMM)
	}
	if g := c.way.Units[u].Guide.Window; used && !c.started() && !g.Has(to) {
		c.object("%s: the guide of unit %d stands at %v mm, it may stand from %v to %v", c.at, u+1, to.MM(), g.Lo.MM(), g.Hi.MM())
	}
	c.guides[key] = to
	if known && was == to {
		return false
	}
	c.moved = append(c.moved, u+1)
	return true
}

// station replays what happens at a station.
func (c *change) station(u int, st *machine.Station, told exchange.PlanStation, guideMoved bool) {
	key := stationKey{c.folder.Name, st.Name}
	std := &c.shop.Standards
	was := c.mounted[key]
	used := comesThrough(c.way, u)
	want := c.wanted(u, st)
	var took time.Duration
	switch changeover.Mode(told.Mode) {
	case changeover.Keep, changeover.Shift:
		if told.Set != was || (told.Mode == string(changeover.Shift)) != guideMoved {
			c.object("%s: station %s says %s of set %q; there is %q, guide moved: %v", c.at, st.Name, told.Mode, told.Set, was, guideMoved)
		}
	case changeover.Swap, changeover.Plain, changeover.Built:
		took = std.Swap(*st)
		c.swap(key, st, told.Set)
		c.swapped(st, told, want)
	case changeover.InFolder:
		took = std.Access(*st)
		if told.Set != was {
			took = std.Swap(*st)
			c.swap(key, st, told.Set)
		}
		took += c.fit(st, told.Set, want.Pattern().Tools)
	default:
		c.object("%s: station %s has the unknown mode %q", c.at, st.Name, told.Mode)
	}
	c.time += took
	c.line(st, took)
	if used && !c.started() { // what is running has been made ready by people who know better
		c.serves(u, st, told.Set, want)
	}
}

// line: the tooling of a station stands on a line of its own.
func (c *change) line(st *machine.Station, took time.Duration) {
	if says := c.says("tooling " + st.Name); says != took && !c.started() {
		c.object("%s: the tooling of station %s is %v, should be %v", c.at, st.Name, says, took)
	}
}

// says is the time of the lines of a name.
func (c *change) says(what string) time.Duration {
	var sum time.Duration
	for _, l := range c.task.Lines {
		if l.What == what {
			sum += minutesOf(l.Min)
		}
	}
	return sum
}

// swap takes the set out that stands in a station and puts another in, which must be on the rack by now.
func (c *change) swap(key stationKey, st *machine.Station, label string) {
	in, ok := c.sets[label]
	switch {
	case !ok:
		c.object("%s: there is no set %q", c.at, label)
		return
	case in.at != "rack":
		c.object("%s: set %s goes into station %s but is at %s", c.at, label, st.Name, in.at)
	case c.task.MakereadyStart.Before(in.free):
		c.object("%s: set %s goes into station %s at %s but is free at %s", c.at, label, st.Name, c.task.MakereadyStart, in.free)
	case in.class != st.Class:
		c.object("%s: set %s of class %s goes into station %s for class %s", c.at, label, in.class, st.Name, st.Class)
	}
	if out, ok := c.sets[c.mounted[key]]; ok {
		out.at, out.free = "rack", c.task.RunStart
	}
	in.at = key.folder + " " + key.station
	c.mounted[key] = label
}

// swapped: a plain swap is one of plain shafts for a job that wants none; a built set was built for this very job.
func (c *change) swapped(st *machine.Station, told exchange.PlanStation, want *settings.Station) {
	set := c.sets[told.Set]
	if set == nil {
		return
	}
	switch changeover.Mode(told.Mode) {
	case changeover.Plain:
		if len(set.tools)+len(want.Tools) > 0 {
			c.object("%s: plain shafts at station %s, but %d tools on set %s and %d wanted", c.at, st.Name, len(set.tools), told.Set, len(want.Tools))
		}
	case changeover.Built:
		i := slices.IndexFunc(c.day.Bench, func(b exchange.PlanBuild) bool {
			return b.Set == told.Set && b.ForJob == c.task.Job && b.Station == st.Name && b.Folder == c.folder.Name
		})
		if i < 0 {
			c.object("%s: set %s for station %s is built nowhere", c.at, told.Set, st.Name)
		} else if c.day.Bench[i].End.After(c.task.MakereadyStart) {
			c.object("%s: set %s is built at %s, after the make-ready starts", c.at, told.Set, c.day.Bench[i].End)
		}
	}
}

// fit makes of a mounted set what the job wants, and tells how long that takes.
func (c *change) fit(st *machine.Station, label string, want []tooling.Tool) time.Duration {
	set := c.sets[label]
	if set == nil {
		return 0
	}
	have := tooling.Pattern{Class: set.class, Tools: set.tools}
	took := c.shop.Standards.InFolder(have, tooling.Pattern{Class: st.Class, Tools: want}, 0)
	c.after = append(c.after, c.draw(c.at, set, want))
	return took
}

// draw takes what a set lacks from the loose tools and returns how what it has too many of is given back.
func (w *world) draw(at string, set *setState, want []tooling.Tool) func() {
	need := difference(set.class, want, set.tools)
	set.tools = want
	for key, n := range need {
		if n > 0 {
			w.loose[key] -= n
			if w.loose[key] < 0 {
				w.object("%s: %d %s of class %s too few loose", at, -w.loose[key], key.Type, key.class)
			}
		}
	}
	return func() {
		for key, n := range need {
			w.loose[key] += max(0, -n)
		}
	}
}

// wanted is what the job wants at a station.
func (c *change) wanted(u int, st *machine.Station) *settings.Station {
	for i := range c.way.Units[u].Stations {
		if c.way.Units[u].Stations[i].Name == st.Name {
			return &c.way.Units[u].Stations[i]
		}
	}
	return &settings.Station{Name: st.Name, Class: st.Class}
}

// serves: with the guide where it stands every wheel hits its line within half the tolerance, and nothing else touches
// the sheet.
func (c *change) serves(u int, st *machine.Station, label string, want *settings.Station) {
	set := c.sets[label]
	if set == nil {
		c.object("%s: no set in station %s, which the sheet passes", c.at, st.Name)
		return
	}
	shift := c.guides[unitKey{c.folder.Name, u + 1}] - c.way.Units[u].Guide.At
	if len(want.Tools) == 0 {
		for _, t := range set.tools {
			b := c.house.Body(set.class, t.Type)
			if t.At+b.Right >= want.Paper.Lo+shift && t.At-b.Left <= want.Paper.Hi+shift {
				c.object("%s: %s on set %s in station %s marks the sheet", c.at, t, label, st.Name)
			}
		}
		return
	}
	if len(set.tools) != len(want.Tools) {
		c.object("%s: set %s in station %s has %d tools, %d are wanted", c.at, label, st.Name, len(set.tools), len(want.Tools))
		return
	}
	for i, t := range set.tools {
		wanted := want.Tools[i]
		off := t.At - (wanted.At + shift)
		if t.Type != wanted.Type || 2*max(off, -off) > c.shop.House.Tolerance+1 {
			c.object("%s: %s on set %s in station %s is to serve %s, %v mm off", c.at, t, label, st.Name, wanted.Tool, off.MM())
		}
	}
}

// build replays a piece of bench work and returns the moment of its end.
func (w *world) build(b *exchange.PlanBuild) moment {
	set := w.sets[b.Set]
	if set == nil {
		w.object("the bench builds on set %q, which does not exist", b.Set)
		return moment{b.End, true, func() {}}
	}
	at := "bench, set " + b.Set
	if set.at != "rack" || b.Start.Before(set.free) {
		w.object("%s is to be built at %s but is at %s, free from %s", at, b.Start, set.at, set.free)
	}
	if !slices.Equal(toolTexts(b.From), texts(set.tools)) {
		w.object("%s has %v, the plan says %v", at, texts(set.tools), toolTexts(b.From))
	}
	var want []tooling.Tool // none: stripped for its tools
	if !b.Frees {
		want = w.wantedBy(b)
	}
	if b.Frees == w.usesBuild(*b) {
		w.object("%s is built for job %s; it only frees tools: %v, the job swaps it in: %v", at, b.ForJob, b.Frees, w.usesBuild(*b))
	}
	if !slices.Equal(toolTexts(b.To), texts(want)) {
		w.object("%s becomes %v, job %s wants %v", at, toolTexts(b.To), b.ForJob, texts(want))
	}
	work := w.shop.Standards.OnBench(tooling.Pattern{Class: set.class, Tools: set.tools}, tooling.Pattern{Class: set.class, Tools: want}, 0)
	if work != minutesOf(b.WorkMin) {
		w.object("%s takes %v min, should take %v", at, b.WorkMin, work)
	}
	if b.Remove-b.Add != len(set.tools)-len(want) || b.Remove+b.Slide > len(set.tools) || b.Add+b.Slide > len(want) {
		w.object("%s: %d off, %d on, %d slid does not make %d tools of %d", at, b.Remove, b.Add, b.Slide, len(want), len(set.tools))
	}
	give := w.draw(at, set, want)
	set.at, set.free = "bench", b.End
	return moment{b.End, true, func() {
		give()
		set.at = "rack"
	}}
}

// wantedBy is the pattern that the job of a build wants at its station.
func (w *world) wantedBy(b *exchange.PlanBuild) []tooling.Tool {
	way := w.way(b.ForJob, b.Folder)
	if way == nil {
		return nil
	}
	for _, u := range way.Units {
		for _, st := range u.Stations {
			if st.Name == b.Station {
				return st.Pattern().Tools
			}
		}
	}
	return nil
}

// bench: a person does one thing at a time, in working hours.
func (a *auditDay) bench() {
	byPerson := map[string][]exchange.PlanBuild{}
	for _, b := range a.day.Bench {
		byPerson[b.Person] = append(byPerson[b.Person], b)
	}
	for _, p := range a.shop.Bench {
		cal := a.hours(p.Calendar, p.Away)
		builds := byPerson[p.Name]
		delete(byPerson, p.Name)
		slices.SortFunc(builds, func(x, y exchange.PlanBuild) int { return cmp.Or(x.Start.Compare(y.Start), x.End.Compare(y.End)) })
		free := a.doc.From
		for _, b := range builds {
			if b.Start.Before(free) {
				a.object("%s starts on set %s at %s but is busy until %s", p.Name, b.Set, b.Start, free)
			}
			if is := cal.Between(b.Start, b.End); is != minutesOf(b.WorkMin) {
				a.object("%s has %v of working time for %v min on set %s", p.Name, is, b.WorkMin, b.Set)
			}
			free = b.End
		}
	}
	for name := range byPerson {
		a.object("nobody on the bench is called %s", name)
	}
}

// usesBuild: some task swaps the set in.
func (a *auditDay) usesBuild(b exchange.PlanBuild) bool {
	for _, lane := range a.day.Folders {
		for _, task := range lane.Tasks {
			for _, st := range task.Stations {
				if lane.Folder == b.Folder && task.Job == b.ForJob && st.Station == b.Station && st.Set == b.Set && st.Mode == string(changeover.Built) {
					return true
				}
			}
		}
	}
	return false
}

func texts(tools []tooling.Tool) []string {
	out := []string{}
	for _, t := range tools {
		out = append(out, fmt.Sprintf("%s %s %d", t.Kind, t.Spec, t.At))
	}
	return out
}

func toolTexts(tools []exchange.PlanTool) []string {
	out := []string{}
	for _, t := range tools {
		out = append(out, fmt.Sprintf("%s %s %d", t.Kind, t.Spec, units.MM(t.AtMM)))
	}
	return out
}
