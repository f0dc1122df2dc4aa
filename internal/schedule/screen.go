package schedule

import "slices"

// screen spares decoding changes that can hardly stay: it knows how much each row's least set-ups come to, and how much
// more of them the changes that stayed brought. Nine in ten of those that bring more than nearly all of these are not
// looked at any further.
type screen struct {
	arcs *arcs
	rows []Time // of each machine: its row's least set-ups
	sum  Time   // of all rows
	more Time   // what the change at hand adds
	most Time   // what passes
	kept []Time // what the latest changes that stayed added
}

const screenSample = 200

// lay reckons all rows anew.
func (s *screen) lay(rows Order) {
	s.rows, s.sum = s.rows[:0], 0
	for i, row := range rows {
		s.rows = append(s.rows, s.arcs.along(i, row))
		s.sum += s.rows[i]
	}
}

// passes reckons a change of some rows and says whether it is worth decoding.
func (s *screen) passes(rows Order, changed []int, luck uint64) bool {
	s.more = 0
	for _, i := range changed {
		s.more += s.arcs.along(i, rows[i]) - s.rows[i]
	}
	return s.more <= s.most || luck%10 == 0
}

// keep notes a change that stays.
func (s *screen) keep(rows Order, changed []int) {
	for _, i := range changed {
		s.rows[i] = s.arcs.along(i, rows[i])
	}
	s.sum += s.more
	if s.kept = append(s.kept, s.more); len(s.kept) == screenSample {
		slices.Sort(s.kept)
		s.most = max(0, s.kept[screenSample*19/20])
		s.kept = s.kept[:0]
	}
}

// along is the least set-ups of a whole row.
func (a *arcs) along(i int, row []int) Time {
	var sum Time
	table, last := a.from[i], a.jobs
	for _, j := range row {
		sum += table[last*a.jobs+j]
		last = j
	}
	return sum
}
