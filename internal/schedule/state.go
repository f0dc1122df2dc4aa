package schedule

// state is everything that changes while an order is decoded. Times may lie ahead of the task at hand: what is decided
// is entered at once, with the instant from which it holds.
type state struct {
	place []int  // of each machine: the next place in its row
	last  []int  // of each machine: the job it is set for, len(Jobs) at first
	free  []Time // of each machine: when its last run ends
	begin []Time // of each machine: the start of its next set-up as far as known
	mood  []mood // of each machine
	end   []Time // of each job: when it ends, -1 while open, Forever without a place
	work  []Time // of each machine: working seconds so far
	rough []Time // of each job: about when its set-up starts, by the order alone

	guides  []int64 // of each unit
	mounted []int   // of each station: the set, -1 when empty
	where   []int   // of each set: the station, -1 on the rack
	since   []Time  // of each set on the rack: from when it is free
	pattern []int   // of each set
	bench   []Time  // of each person: when the last build ends
	loose   ledger
}

// mood is what a machine waits for.
type mood uint8

const (
	ready   mood = iota // nothing: begin is when its next set-up could start
	blocked             // a job that must be finished first is not decoded yet
	stuck               // tools, until a set comes out or tools come loose
	done                // there is no next job
)

func newState(m *model) *state {
	n := len(m.Machines)
	s := &state{
		place: make([]int, n), last: make([]int, n), free: make([]Time, n), begin: make([]Time, n),
		mood: make([]mood, n), work: make([]Time, n),
		end: make([]Time, m.jobs), rough: make([]Time, m.jobs),
	}
	if t := m.Tools; t != nil {
		s.guides, s.mounted = make([]int64, len(t.Units)), make([]int, len(t.Stations))
		s.where, s.since = make([]int, len(t.Sets)), make([]Time, len(t.Sets))
		s.pattern, s.bench = make([]int, len(t.Sets)), make([]Time, len(t.People))
	}
	return s
}

// reset goes back to the beginning of the horizon.
func (s *state) reset(m *model) {
	for i := range s.place {
		s.place[i], s.last[i], s.free[i], s.begin[i], s.mood[i] = 0, m.jobs, 0, 0, ready
		s.work[i] = 0
	}
	for j := range s.end {
		s.end[j] = -1
	}
	if m.Tools != nil {
		s.resetTools(m.Tools)
	}
}

func (s *state) resetTools(t *Tooling) {
	for u := range t.Units {
		s.guides[u] = t.Units[u].GuideAt
	}
	for k := range s.mounted {
		s.mounted[k] = -1
	}
	for x := range t.Sets {
		s.where[x], s.pattern[x], s.since[x] = t.Sets[x].Station, t.Sets[x].Pattern, 0
		if k := t.Sets[x].Station; k >= 0 {
			s.mounted[k] = x
		}
	}
	clear(s.bench)
	s.loose.reset(t.Loose)
}
