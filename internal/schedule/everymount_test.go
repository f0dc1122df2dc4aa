package schedule

import (
	"math/bits"
	"slices"
)

// setting is a set-up under way: how the stations of a machine get their tools, station by station.
type setting struct {
	machine, job int
	start        Time
	guide        [small]int64
	guides       Time
	mounts       []Mount
	draws        [small]int
}

// task goes on with every way to make a machine ready for a job.
func (e *planner) task(w *world, i, j int) {
	s := setting{machine: i, job: j, start: max(w.free[i], e.Jobs[j].Release), guide: w.guide}
	for _, x := range e.Precedences {
		if x.After == j {
			if w.end[x.Before] < 0 {
				return
			}
			s.start = max(s.start, w.end[x.Before])
		}
	}
	e.guideOf(w, s, 0)
}

// guideOf tries every position of the guide of unit u and of those after it.
func (e *planner) guideOf(w *world, s setting, u int) {
	if u == len(e.Tools.Units) {
		e.station(w, s, 0)
		return
	}
	e.guideOf(w, s, u+1)
	if e.Tools.Units[u].Machine != s.machine {
		return
	}
	s.guides += e.Tools.Units[u].GuideMove
	for _, g := range e.positions(w, u) {
		s.guide[u] = g
		e.guideOf(w, s, u+1)
	}
}

// positions are those where the guide of a unit serves open jobs with patterns that no other position serves as well.
func (e *planner) positions(w *world, u int) []int64 {
	var fits []Fit
	for j := range e.Jobs {
		for k, st := range e.Tools.Stations {
			if st.Unit == u && e.open(w, j) && e.Jobs[j].Run[st.Machine] >= 0 && !e.Tools.Wants[j][k].Any {
				fits = append(fits, e.Tools.Wants[j][k].Fits...)
			}
		}
	}
	serves := func(g int64) (mask uint64) {
		for n, f := range fits {
			if f.Lo <= g && g <= f.Hi {
				mask |= 1 << n
			}
		}
		return mask
	}
	all := []int64{w.guide[u]}
	for _, f := range fits {
		all = append(all, f.Lo)
	}
	slices.SortStableFunc(all[1:], func(a, b int64) int { return bits.OnesCount64(serves(b)) - bits.OnesCount64(serves(a)) })
	kept := all[:1]
	for _, g := range all[1:] {
		if !slices.ContainsFunc(kept, func(h int64) bool { return serves(g)&^serves(h) == 0 }) {
			kept = append(kept, g)
		}
	}
	return kept[1:]
}

// station tries every way for station k of the machine and for those after it.
func (e *planner) station(w *world, s setting, k int) {
	if k == len(e.Tools.Stations) {
		e.enter(w, s)
		return
	}
	st, want := &e.Tools.Stations[k], &e.Tools.Wants[s.job][k]
	if st.Machine != s.machine {
		e.station(w, s, k+1)
		return
	}
	x := w.mounted[k]
	if want.Any || x >= 0 && serves(want, w.pattern[x], s.guide[st.Unit]) {
		e.mount(w, s, Mount{Station: k, Mode: Keep, Set: x})
	}
	if want.Any {
		return
	}
	if x >= 0 {
		e.fitted(w, s, k, x, st.Access)
	}
	for x, set := range e.Tools.Sets {
		taken := slices.ContainsFunc(s.mounts, func(m Mount) bool { return m.Set == x })
		if w.at[x] >= 0 || set.Class != st.Class || taken {
			continue
		}
		if serves(want, w.pattern[x], s.guide[st.Unit]) {
			e.mount(w, s, Mount{Station: k, Mode: Swap, Set: x, Time: st.Swap})
		}
		e.fitted(w, s, k, x, st.Swap)
	}
}

// fitted has the tools of a set exchanged at the machine.
func (e *planner) fitted(w *world, s setting, k, x int, reach Time) {
	want, from := &e.Tools.Wants[s.job][k], w.pattern[x]
	work := e.Tools.InFolder[from][want.Pattern]
	if work < 0 || from == want.Pattern || e.Tools.Sets[x].Locked || e.owed(w, x) || !serves(want, want.Pattern, s.guide[e.Tools.Stations[k].Unit]) {
		return
	}
	e.draw(&s.draws, from, want.Pattern)
	e.mount(w, s, Mount{Station: k, Mode: InFolder, Set: x, Time: reach + work})
}

func serves(w *Want, pattern int, g int64) bool {
	return slices.ContainsFunc(w.Fits, func(f Fit) bool { return f.Pattern == pattern && f.Lo <= g && g <= f.Hi })
}

// mount completes what happens at a station and goes on to the next.
func (e *planner) mount(w *world, s setting, m Mount) {
	u := e.Tools.Stations[m.Station].Unit
	m.Guide, m.From, m.Build = s.guide[u], -1, -1
	if m.Set >= 0 {
		m.From = w.pattern[m.Set]
		s.start = max(s.start, w.since[m.Set])
	}
	own := e.Tools.Wants[s.job][m.Station].Pattern
	plain := m.Set >= 0 && e.Tools.Patterns[own].Plain() && e.Tools.Patterns[m.From].Plain()
	switch {
	case m.Mode == Keep && s.guide[u] != w.guide[u]:
		m.Mode = Shift
	case m.Mode == Swap && w.unused[m.Set] >= 0 && m.From == own:
		m.Mode, m.Build = Built, w.unused[m.Set]
	case m.Mode == Swap && plain:
		m.Mode = Plain
	}
	s.mounts = append(slices.Clone(s.mounts), m)
	e.station(w, s, m.Station+1)
}

// enter makes the set-up and the run part of the world and goes on from there.
func (e *planner) enter(w *world, s setting) {
	i, j, windows := s.machine, s.job, e.Machines[s.machine].Windows
	t := Task{Job: j, Base: e.Setup[i][w.last[i]][j], Guides: s.guides, Mounts: s.mounts}
	t.SetupStart = nextOpen(windows, e.looseFrom(w, &s.draws, s.start))
	if t.SetupStart < w.now {
		return // the same plan comes up by another sequence
	}
	t.RunStart = nextOpen(windows, workUntil(windows, t.SetupStart, t.Setup()))
	t.RunEnd = workUntil(windows, t.RunStart, e.Jobs[j].Run[i])
	if t.RunEnd >= Forever {
		return
	}
	after := *w
	after.now, after.end[j], after.free[i], after.last[i], after.guide = t.SetupStart, t.RunEnd, t.RunEnd, j, s.guide
	after.idle[i] += worked(windows, w.free[i], t.RunEnd) - t.Setup() - e.Jobs[j].Run[i]
	after.cost.Setup += t.Setup()
	after.cost.Late += e.Jobs[j].Weight * max(0, t.RunEnd-e.Jobs[j].Due)
	builds := slices.Clone(e.builds)
	for _, m := range s.mounts {
		e.exchanged(&after, &t, m)
	}
	e.tasks[i] = append(e.tasks[i], t)
	e.next(after)
	e.tasks[i] = e.tasks[i][:len(e.tasks[i])-1]
	e.builds = builds
}

// exchanged makes what happened at one station part of the world.
func (e *planner) exchanged(w *world, t *Task, m Mount) {
	if out := w.mounted[m.Station]; out != m.Set {
		if out >= 0 {
			w.at[out], w.since[out] = -1, t.RunStart
		}
		w.mounted[m.Station], w.at[m.Set] = m.Set, m.Station
	}
	if m.Build >= 0 {
		e.builds[m.Build].Job, e.builds[m.Build].Station = t.Job, m.Station
		w.unused[m.Set] = -1
	}
	if m.Mode == InFolder {
		w.convert(e.Problem, m.Set, e.Tools.Wants[t.Job][m.Station].Pattern, t.RunStart)
		w.unused[m.Set] = -1
	}
}
