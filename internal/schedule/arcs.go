package schedule

import "slices"

// arcs is the least set-up of jobs of every kind after those of every other, per machine: the table of the problem, and for each
// station and guide what must be done at least, whatever happened before. It guides the search and carries [Bound].
type arcs struct {
	kinds []kinds  // of each machine
	from  [][]Time // of each machine: row by row by kinds, the last row for the present state
	into  [][]Time // the same column by column, for those that ask for many ways to one job; nil where nobody does
}

func (a *arcs) at(i, from, to int) Time { return *a.cell(i, from, to) }

func (a *arcs) cell(i, from, to int) *Time {
	k := &a.kinds[i]
	return &a.from[i][k.of[from]*len(k.list)+k.of[to]]
}

// copy is arcs that can be changed.
func (a *arcs) copy() *arcs {
	b := &arcs{kinds: a.kinds}
	for i, table := range a.from {
		n := len(a.kinds[i].list)
		turned := make([]Time, len(table))
		for at, x := range table {
			turned[at%n*n+at/n] = x
		}
		b.from, b.into = append(b.from, slices.Clone(table)), append(b.into, turned)
	}
	return b
}

// toward moves the arc an eighth of the way to what it took this time.
func (a *arcs) toward(i, from, to int, took Time) {
	k, at := &a.kinds[i], a.cell(i, from, to)
	*at += (took - *at) / 8
	a.into[i][k.of[to]*len(k.list)+k.of[from]] = *at
}

func newArcs(m *model) *arcs {
	a := &arcs{}
	l := newLeast(m)
	for i := range m.Machines {
		k := newKinds(m, i)
		n := len(k.list)
		table := make([]Time, n*n)
		for to := range n - 1 {
			for from := range n {
				x, y := k.two(from, to)
				if x != y {
					table[from*n+to] = l.arc(i, x, y)
				}
			}
		}
		a.kinds, a.from = append(a.kinds, k), append(a.from, table)
	}
	return a
}

// least knows what must be done at least at a unit between two jobs.
type least struct {
	*model
	words   int
	serving []uint64 // by wants' rows: a bit for each pattern that serves
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
	l.layChanges()
	return l
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
		if asIs {
			sum += l.atFirst(u, to)
		} else if from != to {
			sum += min(l.moved(u, from, to), l.unmoved(u, from, to))
		}
	}
	return sum
}

// atFirst is the least work at a unit for the first job of its machine.
func (l *least) atFirst(u, to int) Time {
	moved, unmoved := l.Tools.Units[u].GuideMove, Time(0)
	for _, k := range l.stations[u] {
		w := l.want(to, k)
		if w.any {
			continue
		}
		fit := span{lo: 1}
		for x := range l.Tools.Sets {
			if l.Tools.Sets[x].Station == k {
				fit = l.fit(w, l.Tools.Sets[x].Pattern)
			}
		}
		if fit.empty() {
			moved += l.changed(k, w)
		}
		if !fit.has(l.Tools.Units[u].GuideAt) {
			unmoved += l.changedAt(k, to, l.Tools.Units[u].GuideAt)
		}
	}
	return min(moved, unmoved)
}

// moved is the least work at a unit between two jobs when its guide moves.
func (l *least) moved(u, from, to int) Time {
	sum := l.Tools.Units[u].GuideMove
	for _, k := range l.stations[u] {
		w, v := l.want(to, k), l.want(from, k)
		if !w.any && !v.any && !l.meet(v, w) {
			sum += l.changed(k, w)
		}
	}
	return sum
}

// changed is the least work at a station that brings another set, or fits the job's own pattern.
func (l *least) changed(k int, w *want) Time { return l.change[k*len(l.Tools.Patterns)+w.pattern] }

// unmoved is the least work at a unit between two jobs when its guide stays: at a place where both can run, each station
// either has something that serves both there, or brings what serves the later one. Of such places only lower ends of
// ranges matter, since ranges that meet do so at one of them.
func (l *least) unmoved(u, from, to int) Time {
	best, free := Forever, true
	for _, k := range l.stations[u] {
		for _, j := range [2]int{from, to} {
			if l.want(j, k).any {
				continue
			}
			for _, f := range l.Tools.Wants[j][k].Fits {
				free = false
				best = min(best, l.unmovedAt(u, from, to, f.Lo))
			}
		}
	}
	if free {
		return 0
	}
	return best
}

func (l *least) unmovedAt(u, from, to int, g int64) Time {
	var sum Time
	for _, k := range l.stations[u] {
		w, v := l.want(to, k), l.want(from, k)
		switch {
		case !v.any && !l.servedAt(from, k, g):
			return Forever
		case !w.any && !l.stays(from, to, k, g):
			sum += l.changedAt(k, to, g)
		}
	}
	return sum
}

// servedAt says whether anything serves a job at a station with the guide at g.
func (l *least) servedAt(j, k int, g int64) bool {
	for _, f := range l.Tools.Wants[j][k].Fits {
		if f.Lo <= g && g <= f.Hi {
			return true
		}
	}
	return false
}

// stays says whether one thing serves both jobs at a station with the guide at g.
func (l *least) stays(from, to, k int, g int64) bool {
	v := l.want(from, k)
	for _, f := range l.Tools.Wants[to][k].Fits {
		if f.Lo <= g && g <= f.Hi && (v.any || l.fit(v, f.Pattern).has(g)) {
			return true
		}
	}
	return false
}

// changedAt is the least work at a station that brings something else which serves with the guide at g.
func (l *least) changedAt(k, to int, g int64) Time {
	w := l.want(to, k)
	if l.fit(w, w.pattern).has(g) {
		return l.changed(k, w)
	}
	if l.servedAt(to, k, g) {
		return l.Tools.Stations[k].Swap
	}
	return Forever
}

// meet says whether a pattern serves both.
func (l *least) meet(v, w *want) bool {
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
