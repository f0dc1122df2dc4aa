package schedule

// arcs is the least set-up of every job after every other, per machine: the table of the problem, and for each station
// and guide what must be done at least, whatever happened before. It guides the search and carries [Bound].
type arcs struct {
	jobs int
	from [][]Time // of each machine: row by row, the last row for the present state
}

func (a *arcs) at(i, from, to int) Time { return a.from[i][from*a.jobs+to] }

func newArcs(m *model) *arcs {
	a := &arcs{jobs: m.jobs, from: make([][]Time, len(m.Machines))}
	l := newLeast(m)
	for i := range m.Machines {
		a.from[i] = make([]Time, (m.jobs+1)*m.jobs)
		for from := 0; from <= m.jobs; from++ {
			if from < m.jobs && m.Jobs[from].Run[i] < 0 {
				continue
			}
			for to := range m.jobs {
				if from != to && m.Jobs[to].Run[i] >= 0 {
					a.from[i][from*m.jobs+to] = l.arc(i, from, to)
				}
			}
		}
	}
	return a
}

// least knows, for every job, which patterns may stand and where the guide may be while it runs.
type least struct {
	*model
	words   int
	serving []uint64 // by wants' rows: a bit for each pattern that serves
	hulls   []span   // by job and unit: where the guide may stand
	change  []Time   // by station and wanted pattern: the least work that brings another set or pattern
}

func newLeast(m *model) *least {
	l := &least{model: m}
	if m.Tools == nil {
		return l
	}
	patterns := len(m.Tools.Patterns)
	l.words = (patterns + 63) / 64
	if patterns > 0 {
		l.serving = make([]uint64, len(m.fits)/patterns*l.words)
	}
	for i, fit := range m.fits {
		if !fit.empty() {
			p := i % patterns
			l.serving[i/patterns*l.words+p/64] |= 1 << (p % 64)
		}
	}
	l.layHulls()
	l.layChanges()
	return l
}

func (l *least) layHulls() {
	l.hulls = make([]span, l.jobs*len(l.Tools.Units))
	for j := range l.jobs {
		for u := range l.Tools.Units {
			l.hulls[j*len(l.Tools.Units)+u] = l.hull(j, u)
		}
	}
}

// hull is the smallest range that holds every guide position of a unit at which the job can run.
func (l *least) hull(j, u int) span {
	all := span{lo: AnywhereLo, hi: AnywhereHi}
	if l.Jobs[j].Run[l.Tools.Units[u].Machine] < 0 {
		return all
	}
	for _, k := range l.stations[u] {
		w := l.want(j, k)
		if w.any {
			continue
		}
		one := span{lo: AnywhereHi, hi: AnywhereLo}
		for p := range l.Tools.Patterns {
			if fit := l.fit(w, p); !fit.empty() {
				one.lo, one.hi = min(one.lo, fit.lo), max(one.hi, fit.hi)
			}
		}
		all.lo, all.hi = max(all.lo, one.lo), min(all.hi, one.hi)
	}
	return all
}

func (l *least) layChanges() {
	t := l.Tools
	l.change = make([]Time, len(t.Stations)*len(t.Patterns))
	for k := range t.Stations {
		for q := range t.Patterns {
			fit := Forever
			for p := range t.Patterns {
				if work := t.InFolder[p][q]; work >= 0 && p != q && t.Patterns[p].Class == t.Stations[k].Class {
					fit = min(fit, work)
				}
			}
			l.change[k*len(t.Patterns)+q] = min(t.Stations[k].Swap, t.Stations[k].Access+fit)
		}
	}
}

// arc is the least set-up on a machine of job to after job from.
func (l *least) arc(i, from, to int) Time {
	if l.started[i] == to {
		return 0
	}
	sum := l.Setup[i][from][to]
	asIs := from == l.jobs || l.started[i] == from
	for _, u := range l.units[i] {
		for _, k := range l.stations[u] {
			if !l.mayStay(k, from, to, asIs) {
				sum += l.change[k*len(l.Tools.Patterns)+l.want(to, k).pattern]
			}
		}
		if !l.guideMayStay(u, from, to, asIs) {
			sum += l.Tools.Units[u].GuideMove
		}
	}
	return sum
}

// mayStay says whether what stands at a station for one job can serve the other too; asIs when what stands there is
// still what stood there at the start.
func (l *least) mayStay(k, from, to int, asIs bool) bool {
	w := l.want(to, k)
	if w.any {
		return true
	}
	if asIs {
		for x := range l.Tools.Sets {
			if l.Tools.Sets[x].Station == k {
				return !l.fit(w, l.Tools.Sets[x].Pattern).empty()
			}
		}
		return false
	}
	v := l.want(from, k)
	if v.any {
		return true
	}
	a, b := l.row(v), l.row(w)
	for i := range a {
		if a[i]&b[i] != 0 {
			return true
		}
	}
	return false
}

func (l *least) row(w *want) []uint64 {
	at := w.row / len(l.Tools.Patterns) * l.words
	return l.serving[at : at+l.words]
}

func (l *least) guideMayStay(u, from, to int, asIs bool) bool {
	a := l.hulls[to*len(l.Tools.Units)+u]
	if asIs {
		return a.has(l.Tools.Units[u].GuideAt)
	}
	b := l.hulls[from*len(l.Tools.Units)+u]
	return max(a.lo, b.lo) <= min(a.hi, b.hi)
}
