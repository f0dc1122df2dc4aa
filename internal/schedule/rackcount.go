package schedule

// rackCount is a rackCounter for any number of sets. It goes on from the first job that has changed: what has been seen
// before is kept for every few places. It stops early where an order is already too dear.
type rackCount struct {
	places int
	needs  [][]int32 // of each job
	every  int       // places from one mark to the next
	marks  []rackState
	now    rackState
	ends   []int32 // scratch: where the gaps begin that end at the job at hand, the latest first
	roots  []int64
}

// rackState is how far a count has come.
type rackState struct {
	rackSum
	last  []int32 // of each set: the place of its last use, counted from 1; 0 = never
	taken []int32 // of each place: places of the rack taken
	full  int32   // the last full job, -1 when there is none
}

func (s *rackState) copy(from *rackState, at int) {
	copy(s.last, from.last)
	copy(s.taken[:at], from.taken[:at])
	s.rackSum, s.full = from.rackSum, from.full
}

func newRackCount(places int, needs [][]int32, sets int) *rackCount {
	jobs := len(needs)
	c := &rackCount{places: places, needs: needs, every: markEvery(jobs), roots: roots(jobs)}
	state := func() rackState {
		return rackState{rackSum: rackSum{loads: sets}, last: make([]int32, sets), taken: make([]int32, jobs), full: -1}
	}
	for range 1 + (jobs-1)/c.every {
		c.marks = append(c.marks, state())
	}
	c.now = state()
	return c
}

func (c *rackCount) sum() rackSum                             { return c.now.rackSum }
func (c *rackCount) keep(row []int, from int)                 { c.count(row, from, Forever, true) }
func (c *rackCount) try(row []int, a, _ int, most int64) bool { return c.count(row, a, most, false) }

// count goes through the row from the last mark at or before a place on, and reports false as soon as it weighs more than
// most. With keep it leaves marks for counts to come.
func (c *rackCount) count(row []int, from int, most int64, keep bool) bool {
	m := from / c.every
	at := m * c.every
	c.now.copy(&c.marks[m], at)
	for ; at < len(row); at++ {
		if keep && at%c.every == 0 {
			c.marks[at/c.every].copy(&c.now, at)
		}
		c.bring(c.needs[row[at]], int32(at))
		if c.now.weight() > most {
			return false
		}
	}
	return true
}

// bring goes on to the job at a place.
func (c *rackCount) bring(sets []int32, at int32) {
	s := &c.now
	if at > 0 && s.taken[at-1] == int32(c.places) {
		s.full = at - 1
	}
	c.ends = c.ends[:0]
	for _, x := range sets {
		switch last := s.last[x]; last {
		case at, 0: // used by the job before, which is nothing between, or never
		default:
			if s.full >= last { // after the gap's start, so that it does not fit
				s.loads++
				s.open += c.roots[at-last]
			} else {
				c.insert(last - 1)
			}
		}
		s.last[x] = at + 1
	}
	s.taken[at] = int32(len(sets))
	for _, start := range c.ends {
		if s.full > start {
			s.loads++
			s.open += c.roots[at-start-1]
		} else {
			s.fill(start+1, at, int32(c.places))
		}
	}
}

// insert keeps the shortest gaps in front.
func (c *rackCount) insert(start int32) {
	c.ends = append(c.ends, start)
	for n := len(c.ends) - 1; n > 0 && c.ends[n-1] < start; n-- {
		c.ends[n], c.ends[n-1] = c.ends[n-1], start
	}
}

// fill keeps a set on the rack while the jobs at the places from a to before b run.
func (s *rackState) fill(a, b, places int32) {
	for k := a; k < b; k++ {
		if s.taken[k]++; s.taken[k] == places {
			s.full = max(s.full, k)
		}
	}
}
