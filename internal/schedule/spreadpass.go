package schedule

import (
	"math/rand/v2"
	"slices"
)

// pass gives n jobs of machine i, from place a on, to machine k, mostly where they add least there.
func (s *spread) pass(rng *rand.Rand, i, a, n, k int, bar int64) bool {
	row := s.rows[i]
	if a+n > len(row) {
		return false
	}
	if i == k {
		return s.move(i, a, n, bar)
	}
	jobs := row[a : a+n]
	for _, j := range jobs {
		if s.Jobs[j].Run[k] < 0 {
			return false
		}
	}
	first, last := jobs[0], jobs[n-1]
	at := rng.IntN(len(s.rows[k]) + 1)
	if rng.IntN(8) > 0 {
		at = s.bestPlace(k, first, last)
	}
	loadI := s.load[i] - s.into(i, s.at(i, a-1), first, last, s.at(i, a+n)) - s.along(i, jobs)
	loadK := s.load[k] + s.into(k, s.at(k, at-1), first, last, s.at(k, at)) + s.along(k, jobs)
	if !s.settle(i, loadI, k, loadK, bar) {
		return false
	}
	for _, j := range jobs {
		s.machine[j] = k
	}
	s.rows[k] = slices.Insert(s.rows[k], at, jobs...)
	s.rows[i] = slices.Delete(row, a, a+n)
	return true
}

// bestPlace is where jobs from first to last add least to a machine that has none of them.
func (s *spread) bestPlace(k, first, last int) int {
	arc, w := s.arc[k], s.width
	best, least, before := 0, Forever, s.jobs
	for at, x := range s.rows[k] {
		if more := arc[before*w+first] + arc[last*w+x] - arc[before*w+x]; more < least {
			best, least = at, more
		}
		before = x
	}
	if arc[before*w+first] < least {
		best = len(s.rows[k])
	}
	return best
}

// move puts n jobs, from place a on, where they add least elsewhere on their own machine.
func (s *spread) move(i, a, n int, bar int64) bool {
	row := s.rows[i]
	first, last := row[a], row[a+n-1]
	best, least, before := -1, Forever, s.jobs
	for at := 0; at <= len(row); at++ {
		if at >= a && at <= a+n { // where they are
			before = s.at(i, a-1)
			if at < a+n {
				continue
			}
		} else if more := s.into(i, before, first, last, s.at(i, at)); more < least {
			best, least = at, more
		}
		before = s.at(i, at)
	}
	if best < 0 || !s.settleOne(i, s.load[i]-s.into(i, s.at(i, a-1), first, last, s.at(i, a+n))+least, bar) {
		return false
	}
	if best > a {
		rotate(row, a, a+n, best)
	} else {
		rotate(row, best, a, a+n)
	}
	return true
}
