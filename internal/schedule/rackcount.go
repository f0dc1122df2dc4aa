package schedule

// rackCount counts what one order after another brings to a rack, as [gaps] does, from the first job that has changed on:
// what has been seen before it is kept for every few places. It stops early where an order is already too dear.
type rackCount struct {
	places int
	sets   int       // that any job needs
	needs  [][]int32 // of each job, numbered from 0 without holes
	every  int       // places from one mark to the next
	marks  []rackState
	now    rackState
	ends   []int32 // scratch: where the gaps begin that end at the job at hand, the latest first
	roots  []int64 // of gaps by length: the square root, of one
}

// rackState is how far a count has come.
type rackState struct {
	last   []int32 // of each set: the place of its last use, counted from 1; 0 = never
	taken  []int32 // of each place: places of the rack taken
	full   int32   // the last full job, -1 when there is none
	loads  int     // sets brought
	unseen int     // sets that no job has needed yet: each of them must still be brought
	open   int64   // the roots of the gaps over which a set is away
}

func (s *rackState) copy(from *rackState, at int) {
	copy(s.last, from.last)
	copy(s.taken[:at], from.taken[:at])
	s.full, s.loads, s.unseen, s.open = from.full, from.loads, from.unseen, from.open
}

func newRackCount(r *Rack, jobs int) *rackCount {
	const marks = 64
	c := &rackCount{places: r.Places, every: 1 + jobs/marks}
	number := map[int]int32{}
	for _, sets := range r.Needs[:jobs] {
		var row []int32
		for _, x := range sets {
			n, ok := number[x]
			if !ok {
				n = int32(len(number))
				number[x] = n
			}
			row = append(row, n)
		}
		c.needs = append(c.needs, row)
	}
	c.sets = len(number)
	state := func() rackState {
		return rackState{last: make([]int32, c.sets), taken: make([]int32, jobs), full: -1, unseen: c.sets}
	}
	for range 1 + (jobs-1)/c.every {
		c.marks = append(c.marks, state())
	}
	c.now = state()
	for n := range jobs {
		root := int64(0)
		for (root+1)*(root+1) <= int64(n)*one*one {
			root++
		}
		c.roots = append(c.roots, root)
	}
	return c
}

// count goes through the row from the last mark at or before a place on, and reports false as soon as more sets than most
// must be brought. With keep it leaves marks for counts to come.
func (c *rackCount) count(row []int, from, most int, keep bool) bool {
	m := from / c.every
	at := m * c.every
	c.now.copy(&c.marks[m], at)
	for ; at < len(row); at++ {
		if keep && at%c.every == 0 {
			c.marks[at/c.every].copy(&c.now, at)
		}
		c.bring(c.needs[row[at]], int32(at))
		if c.now.loads+c.now.unseen > most {
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
		case at: // used by the job before, which is nothing between; at the first place, never used
			if at == 0 {
				s.loads++
				s.unseen--
			}
		case 0:
			s.loads++
			s.unseen--
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
