package schedule

import "math/rand/v2"

// trade lets the job at place a of machine i change sides with one of machine k, or places where that is the same machine.
func (s *spread) trade(rng *rand.Rand, i, a, k int, bar int64) bool {
	if len(s.rows[k]) == 0 {
		return false
	}
	b := rng.IntN(len(s.rows[k]))
	x, y := s.rows[i][a], s.rows[k][b]
	if x == y || s.Jobs[y].Run[i] < 0 {
		return false
	}
	if i == k {
		return s.turn(i, min(a, b), max(a, b), bar)
	}
	atK, moreK := s.instead(rng, k, b, x)
	atI, moreI := s.instead(rng, i, a, y)
	if !s.settle(i, s.load[i]+moreI, k, s.load[k]+moreK, bar) {
		return false
	}
	replace(s.rows[i], a, atI, y)
	replace(s.rows[k], b, atK, x)
	s.machine[x], s.machine[y] = k, i
	return true
}

// turn lets the jobs at two places of a machine change places.
func (s *spread) turn(i, a, b int, bar int64) bool {
	row, arc, w := s.rows[i], s.arc[i], s.width
	x, y, before, after := row[a], row[b], s.at(i, a-1), s.at(i, b+1)
	more := arc[before*w+y] + arc[x*w+after] - arc[before*w+x] - arc[y*w+after]
	if b == a+1 {
		more += arc[y*w+x] - arc[x*w+y]
	} else {
		next, last := row[a+1], row[b-1]
		more += arc[y*w+next] + arc[last*w+x] - arc[x*w+next] - arc[last*w+y]
	}
	if !s.settleOne(i, s.load[i]+more, bar) {
		return false
	}
	row[a], row[b] = y, x
	return true
}

// instead is where job x goes on machine i once the job at place a is out, and what the two come to: one time in four that
// very place, otherwise the best. The place is counted in the row as it is: before the job that stands there.
func (s *spread) instead(rng *rand.Rand, i, a, x int) (at int, more Time) {
	row, arc, w := s.rows[i], s.arc[i], s.width
	before, after := s.at(i, a-1), s.at(i, a+1)
	out := s.into(i, before, row[a], row[a], after)
	at, more = a, s.into(i, before, x, x, after)
	if rng.IntN(4) == 0 {
		return at, more - out
	}
	last := s.jobs
	for p, z := range row {
		if p != a && p != a+1 {
			if m := arc[last*w+x] + arc[x*w+z] - arc[last*w+z]; m < more {
				at, more = p, m
			}
		}
		last = z
	}
	if m := arc[last*w+x]; a < len(row)-1 && m < more {
		at, more = len(row), m
	}
	return at, more - out
}

// replace takes the job at place a out of a row and puts x in before the one that stands at a place.
func replace(row []int, a, at, x int) {
	switch {
	case at > a+1:
		copy(row[a:], row[a+1:at])
		row[at-1] = x
	case at < a:
		copy(row[at+1:a+1], row[at:a])
		row[at] = x
	default:
		row[a] = x
	}
}
