package schedule

import "slices"

// model is a checked problem laid out for decoding: flat arrays, nothing that changes.
type model struct {
	*Problem
	jobs    int
	shifts  []shifts // of each machine
	people  []shifts
	before  [][]int // of each job: the jobs that must be finished
	started []int   // of each machine: the job that is running at the start, -1 when none

	units    [][]int // of each machine
	stations [][]int // of each unit
	sets     [][]int // of each class
	wants    []want  // by job and station
	fits     []span  // by wants' rows and pattern
	users    [][]int // of each pattern: the jobs that need a set such as this one
	plain    []int   // of each class: its plain pattern, -1 when it has none

	workPrice, waitPrice, benchPrice int64 // of a second, in the decoder's choices
}

// want is what a job wants at a station: a row of fits, unless any will do.
type want struct {
	any     bool
	pattern int
	guide   int64
	row     int
}

// span is the guide positions at which a pattern serves; empty where it never does.
type span struct{ lo, hi int64 }

func (s span) has(g int64) bool { return s.lo <= g && g <= s.hi }
func (s span) empty() bool      { return s.lo > s.hi }

// meet is what two spans have in common.
func (s span) meet(r span) span { return span{max(s.lo, r.lo), min(s.hi, r.hi)} }

// clamp is the position in the span nearest to g.
func (s span) clamp(g int64) int64 { return min(max(g, s.lo), s.hi) }

func newModel(p *Problem) *model {
	m := &model{Problem: p, jobs: len(p.Jobs)}
	for i := range p.Machines {
		m.shifts = append(m.shifts, newShifts(p.Machines[i].Windows))
		m.started = append(m.started, -1)
		if p.Machines[i].Started {
			m.started[i] = p.Machines[i].Fixed[0]
		}
	}
	m.before = make([][]int, m.jobs)
	for _, x := range p.Precedences {
		m.before[x.After] = append(m.before[x.After], x.Before)
	}
	// A second of the folder's time costs a second even where the shop does not price it: all later jobs move by it.
	m.workPrice, m.waitPrice, m.benchPrice = 1000+p.Weights.Setup, 1000+p.Weights.Wait, p.Weights.Bench
	m.units = make([][]int, len(p.Machines))
	if p.Tools != nil {
		m.layTools()
	}
	return m
}

func (m *model) layTools() {
	t := m.Tools
	for u := range t.Units {
		m.units[t.Units[u].Machine] = append(m.units[t.Units[u].Machine], u)
	}
	m.stations = make([][]int, len(t.Units))
	for k := range t.Stations {
		m.stations[t.Stations[k].Unit] = append(m.stations[t.Stations[k].Unit], k)
	}
	m.sets = make([][]int, t.Classes)
	for x := range t.Sets {
		m.sets[t.Sets[x].Class] = append(m.sets[t.Sets[x].Class], x)
	}
	m.plain = make([]int, t.Classes)
	for c := range m.plain {
		m.plain[c] = slices.IndexFunc(t.Patterns, func(p Pattern) bool { return p.Class == c && p.Plain() })
	}
	for i := range t.People {
		m.people = append(m.people, newShifts(t.People[i].Windows))
	}
	m.wants = make([]want, m.jobs*len(t.Stations))
	m.users = make([][]int, len(t.Patterns))
	same := make([][]int, len(t.Stations))
	for j := range m.Jobs {
		for k := range t.Stations {
			same[k] = m.layWant(j, k, same[k])
		}
	}
}

// layWant spreads a want's fits over a row with a place for every pattern, so that asking is one look. Wants that are the same share
// the row: others are the jobs whose want at the station has one of its own so far, and it returns them with those that come to them.
func (m *model) layWant(j, k int, others []int) []int {
	t := m.Tools
	if m.Jobs[j].Run[t.Stations[k].Machine] < 0 {
		return others
	}
	from := &t.Wants[j][k]
	w := want{any: from.Any, pattern: from.Pattern, guide: from.Guide, row: len(m.fits)}
	for _, f := range from.Fits {
		if !w.any {
			m.addUser(f.Pattern, j, t.Patterns[from.Pattern].Plain())
		}
	}
	at := slices.IndexFunc(others, func(o int) bool { return from.equal(&t.Wants[o][k]) })
	switch {
	case w.any:
	case at >= 0:
		w.row = m.want(others[at], k).row
	default:
		for range t.Patterns {
			m.fits = append(m.fits, span{lo: 1, hi: 0})
		}
		for _, f := range from.Fits {
			m.fits[w.row+f.Pattern] = span{lo: f.Lo, hi: f.Hi}
		}
		others = append(others, j)
	}
	m.wants[j*len(t.Stations)+k] = w
	return others
}

// addUser notes that the job needs a set of the pattern. A plain want needs plain shafts only: that other sets would
// leave no mark is luck, no reason to keep them.
func (m *model) addUser(pattern, j int, plain bool) {
	users := m.users[pattern]
	if plain && !m.Tools.Patterns[pattern].Plain() || len(users) > 0 && users[len(users)-1] == j {
		return
	}
	m.users[pattern] = append(users, j)
}

func (m *model) want(j, k int) *want { return &m.wants[j*len(m.Tools.Stations)+k] }

// fit is where the guide may stand when the job finds the pattern at a station it has a want for.
func (m *model) fit(w *want, pattern int) span { return m.fits[w.row+pattern] }
