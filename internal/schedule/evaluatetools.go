package schedule

import (
	"cmp"
	"slices"
)

// use is a time during which a set is taken: it stands at a station for a run of tasks, or is being built.
type use struct {
	set      int
	from, to Time
	build    *Build // nil for a stay
	tasks    []*Task
	mounts   []*Mount // with tasks
}

func (e *evaluation) tools() {
	var uses []*use
	var events []event
	for b := range e.plan.Builds {
		build := &e.plan.Builds[b]
		e.build(b)
		uses = append(uses, &use{set: build.Set, from: build.Start, to: build.End, build: build})
		events = e.exchange(events, build.From, build.Pattern, build.Start, build.End)
	}
	for i := range e.plan.Tasks {
		uses = append(uses, e.stays(i)...)
		e.guides(i)
	}
	if len(e.faults) > 0 {
		return // the replay below would only repeat them
	}
	e.people()
	for x := range e.Tools.Sets {
		events = e.set(x, uses, events)
	}
	e.neverBelowNone(events)
}

// build checks one piece of bench work against the tables and against the one task that it is for.
func (e *evaluation) build(b int) {
	x := &e.plan.Builds[b]
	e.cost.Bench += x.Work
	set := &e.Tools.Sets[x.Set]
	e.must(!set.Locked, "set %d is built although it is locked", x.Set)
	e.must(x.Work == e.Tools.OnBench[x.From][x.Pattern] && x.Work >= 0, "build %d takes %d s; the table says %d", b, x.Work, e.Tools.OnBench[x.From][x.Pattern])
	windows := e.Tools.People[x.Person].Windows
	e.must(open(windows, x.Start) && ends(windows, x.Start, x.End, x.Work), "build %d from %d to %d is not %d s of person %d's work", b, x.Start, x.End, x.Work, x.Person)
	users := 0
	for i := range e.plan.Tasks {
		for _, t := range e.plan.Tasks[i] {
			for _, m := range t.Mounts {
				if m.Build != b {
					continue
				}
				users++
				e.must(m.Mode == Built && m.Set == x.Set && t.Job == x.Job && m.Station == x.Station, "build %d is for job %d at station %d, but job %d uses it at station %d", b, x.Job, x.Station, t.Job, m.Station)
				e.must(x.End <= t.SetupStart, "build %d ends at %d, after job %d is made ready at %d", b, x.End, t.Job, t.SetupStart)
				e.must(x.Pattern == e.Tools.Wants[t.Job][m.Station].Pattern, "build %d makes pattern %d, not the one that job %d wants", b, x.Pattern, t.Job)
			}
		}
	}
	e.must(users == 1 || users == 0 && e.Tools.Patterns[x.Pattern].Plain(), "build %d is used by %d tasks; one is right, or none when it frees tools", b, users)
}

// people may do one thing at a time.
func (e *evaluation) people() {
	builds := slices.Clone(e.plan.Builds)
	slices.SortStableFunc(builds, func(a, b Build) int {
		return cmp.Or(cmp.Compare(a.Person, b.Person), cmp.Compare(a.Start, b.Start), cmp.Compare(a.End, b.End))
	})
	for n := 1; n < len(builds); n++ {
		a, b := builds[n-1], builds[n]
		e.must(a.Person != b.Person || a.End <= b.Start, "person %d builds sets %d and %d at once", a.Person, a.Set, b.Set)
	}
}

// stays follows what stands at each station of a machine and what each change costs.
func (e *evaluation) stays(i int) []*use {
	var all []*use
	for k := range e.Tools.Stations {
		if e.Tools.Stations[k].Machine != i {
			continue
		}
		now := &use{set: -1, from: -1, to: Forever}
		for x := range e.Tools.Sets {
			if e.Tools.Sets[x].Station == k {
				now.set = x
				all = append(all, now)
			}
		}
		for n := range e.plan.Tasks[i] {
			t := &e.plan.Tasks[i][n]
			m := e.mountAt(t, k)
			if m == nil {
				e.addf("job %d does not say what stands at station %d", t.Job, k)
				continue
			}
			e.mode(t, m, now.set)
			if m.Set != now.set && m.Set >= 0 {
				now.to = t.RunStart
				now = &use{set: m.Set, from: t.SetupStart, to: Forever}
				all = append(all, now)
			}
			now.tasks, now.mounts = append(now.tasks, t), append(now.mounts, m)
		}
	}
	return all
}

func (e *evaluation) mountAt(t *Task, k int) *Mount {
	for m := range t.Mounts {
		if t.Mounts[m].Station == k {
			return &t.Mounts[m]
		}
	}
	return nil
}

// mode checks that a mount is what its mode says, at the price of its mode; out is the set that stood there before.
func (e *evaluation) mode(t *Task, m *Mount, out int) {
	st, w := &e.Tools.Stations[m.Station], &e.Tools.Wants[t.Job][m.Station]
	e.must((m.Build >= 0) == (m.Mode == Built), "job %d at station %d has mode %d with build %d", t.Job, m.Station, m.Mode, m.Build)
	if m.Mode == Keep || m.Mode == Shift {
		e.must(m.Set == out && m.Time == 0, "job %d leaves station %d as it is, but set %d follows set %d in %d s", t.Job, m.Station, m.Set, out, m.Time)
		e.must(m.Set >= 0 || w.Any || e.running(t), "job %d wants shafts at station %d, which stands empty", t.Job, m.Station)
		return
	}
	if m.Set < 0 || m.From < 0 || w.Any {
		e.addf("job %d changes station %d without need, or to nothing", t.Job, m.Station)
		return
	}
	e.must(e.Tools.Sets[m.Set].Class == st.Class, "set %d is of another class than station %d", m.Set, m.Station)
	want, plain := st.Swap, e.Tools.Patterns[w.Pattern].Plain() && e.Tools.Patterns[m.From].Plain()
	switch m.Mode {
	case Swap, Plain:
		e.must(plain == (m.Mode == Plain), "job %d at station %d: mode %d although plain shafts for a plain want are %v", t.Job, m.Station, m.Mode, plain)
	case InFolder:
		work := e.Tools.InFolder[m.From][w.Pattern]
		e.must(work >= 0 && !e.Tools.Sets[m.Set].Locked, "set %d cannot be made pattern %d at station %d", m.Set, w.Pattern, m.Station)
		if want += work; m.Set == out {
			want = st.Access + work
		}
	}
	e.must(m.Set != out || m.Mode == InFolder, "set %d comes to station %d, where it stands already", m.Set, m.Station)
	e.must(m.Time == want, "job %d at station %d takes %d s; its mode takes %d", t.Job, m.Station, m.Time, want)
}

// guides follows the guide of each unit of a machine: one position for all stations, a move when it changes.
func (e *evaluation) guides(i int) {
	at := make([]int64, len(e.Tools.Units))
	for u := range at {
		at[u] = e.Tools.Units[u].GuideAt
	}
	for _, t := range e.plan.Tasks[i] {
		was := slices.Clone(at)
		var moves Time
		for n, m := range t.Mounts {
			u := e.Tools.Stations[m.Station].Unit
			e.must(e.Tools.Stations[m.Station].Machine == i, "job %d on machine %d mounts station %d of another", t.Job, i, m.Station)
			e.must(n == 0 || t.Mounts[n-1].Station < m.Station, "the mounts of job %d do not ascend by station", t.Job)
			if at[u] == was[u] && m.Guide != was[u] {
				at[u] = m.Guide
				moves += e.Tools.Units[u].GuideMove
			}
			e.must(m.Guide == at[u], "job %d has the guide of unit %d at %d and at %d", t.Job, u, at[u], m.Guide)
			e.must(m.Mode != Keep || m.Guide == was[u], "job %d keeps station %d but moves its guide", t.Job, m.Station)
			e.must(m.Mode != Shift || m.Guide != was[u], "job %d shifts station %d but its guide does not move", t.Job, m.Station)
		}
		e.must(t.Guides == moves, "job %d takes %d s for guides; its moves take %d", t.Job, t.Guides, moves)
	}
}

// set follows one set through time: in one place at once, and always of the pattern that its uses believe.
func (e *evaluation) set(x int, all []*use, events []event) []event {
	var uses []*use
	for _, u := range all {
		if u.set == x {
			uses = append(uses, u)
		}
	}
	slices.SortStableFunc(uses, func(a, b *use) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	pattern := e.Tools.Sets[x].Pattern
	for n, u := range uses {
		e.must(n == 0 || uses[n-1].to <= u.from, "set %d is taken from %d although it is elsewhere until %d", x, u.from, before(uses, n).to)
		if u.build != nil {
			e.must(u.build.From == pattern, "the build of set %d at %d starts from pattern %d; it has pattern %d", x, u.from, u.build.From, pattern)
			pattern = u.build.Pattern
		}
		for i, t := range u.tasks {
			pattern, events = e.serve(t, u.mounts[i], pattern, events)
		}
	}
	return events
}

func before(uses []*use, n int) *use { return uses[max(0, n-1)] }

// serve holds one task's mount to the pattern that the set has, and to the job's wish.
func (e *evaluation) serve(t *Task, m *Mount, pattern int, events []event) (int, []event) {
	w := &e.Tools.Wants[t.Job][m.Station]
	e.must(m.From == pattern, "job %d believes set %d to have pattern %d; it has pattern %d", t.Job, m.Set, m.From, pattern)
	if m.Mode == InFolder {
		events = e.exchange(events, pattern, w.Pattern, t.SetupStart, t.RunStart)
		pattern = w.Pattern
	}
	fits := w.Any || e.running(t) || slices.ContainsFunc(w.Fits, func(f Fit) bool {
		return f.Pattern == pattern && f.Lo <= m.Guide && m.Guide <= f.Hi
	})
	e.must(fits, "set %d of pattern %d does not serve job %d at station %d with the guide at %d", m.Set, pattern, t.Job, m.Station, m.Guide)
	return pattern, events
}

// running says whether the task was under way at the start.
func (e *evaluation) running(t *Task) bool {
	return slices.ContainsFunc(e.Machines, func(m Machine) bool { return m.Started && m.Fixed[0] == t.Job })
}

// exchange adds the tools that a rebuild draws at its start and gives back at its end.
func (e *evaluation) exchange(events []event, from, to int, start, end Time) []event {
	for kind := range e.Tools.Loose {
		switch more := total(e.Tools.Patterns[to], kind) - total(e.Tools.Patterns[from], kind); {
		case more > 0:
			events = append(events, event{at: start, kind: kind, n: -more})
		case more < 0:
			events = append(events, event{at: end, kind: kind, n: -more})
		}
	}
	return events
}

// total is the tools of a kind in a pattern.
func total(p Pattern, kind int) int {
	sum := 0
	for _, c := range p.Tools {
		if c.Type == kind {
			sum += c.N
		}
	}
	return sum
}
