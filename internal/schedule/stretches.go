package schedule

import "slices"

// stretches is a move on one row: the places from a to before b and those from c to before d change places, and what stands
// between them stays between. With b = c they are neighbours.
type stretches struct {
	a, b, c, d int
	setups     Time  // what it adds to the set-ups
	delta      int64 // what it adds to the price
}

const (
	longestMoved   = 13 // jobs in the shorter of two neighbouring stretches
	longestSwapped = 3  // jobs in either of two that are no neighbours
)

// bestFrom is the best move whose first stretch begins at place a; its delta is 0 when none pays.
func (t *tardiness) bestFrom(a int) stretches {
	best := stretches{}
	for b := a + 1; b < t.jobs; b++ {
		most := t.jobs
		if b-a > longestMoved {
			most = min(most, b+longestMoved)
		}
		for d := b + 1; d <= most; d++ {
			t.neighbours(a, b, d, &best)
		}
	}
	for b := a + 1; b <= min(a+longestSwapped, t.jobs); b++ {
		for c := b + 1; c < t.jobs; c++ {
			for d := c + 1; d <= min(c+longestSwapped, t.jobs); d++ {
				t.apart(a, b, c, d, &best)
			}
		}
	}
	return best
}

// neighbours prices the swap of two stretches that touch at b and keeps it when it is the best so far.
func (t *tardiness) neighbours(a, b, d int, best *stretches) {
	before, x, y, u, v, after := t.job(a-1), t.row[a], t.row[b-1], t.row[b], t.row[d-1], t.job(d)
	wasX, wasU, wasAfter := t.between(before, x), t.between(y, u), t.between(v, after)
	isU, isX, isAfter := t.between(before, u), t.between(v, x), t.between(y, after)
	setups := isU + isX + isAfter - wasX - wasU - wasAfter
	if setups > t.filter.most {
		return
	}
	start := t.end(a - 1)
	shiftU := start + isU - t.ends[b-1] - wasU
	shiftX := t.ends[d-1] + shiftU + isX - start - wasX
	p := pricing{t: t, room: t.tails.cost(a, 0)*t.latePrice + best.delta - t.setupPrice*setups}
	if p.pays(d, t.jobs, setups) && p.pays(b, d, shiftU) && p.pays(a, b, shiftX) {
		*best = stretches{a, b, b, d, setups, best.delta - p.room}
	}
}

// apart does so for two stretches with others between them.
func (t *tardiness) apart(a, b, c, d int, best *stretches) {
	before, x, y, m, n, u, v, after := t.job(a-1), t.row[a], t.row[b-1], t.row[b], t.row[c-1], t.row[c], t.row[d-1], t.job(d)
	wasX, wasM, wasU, wasAfter := t.between(before, x), t.between(y, m), t.between(n, u), t.between(v, after)
	isU, isM, isX, isAfter := t.between(before, u), t.between(v, m), t.between(n, x), t.between(y, after)
	setups := isU + isM + isX + isAfter - wasX - wasM - wasU - wasAfter
	if setups > t.filter.most {
		return
	}
	start := t.end(a - 1)
	shiftU := start + isU - t.ends[c-1] - wasU
	shiftM := t.ends[d-1] + shiftU + isM - t.ends[b-1] - wasM
	shiftX := t.ends[c-1] + shiftM + isX - start - wasX
	p := pricing{t: t, room: t.tails.cost(a, 0)*t.latePrice + best.delta - t.setupPrice*setups}
	if p.pays(d, t.jobs, setups) && p.pays(c, d, shiftU) && p.pays(b, c, shiftM) && p.pays(a, b, shiftX) {
		*best = stretches{a, b, c, d, setups, best.delta - p.room}
	}
}

// pricing takes the lateness of one stretch after another from what a better move may cost. Lateness is never negative,
// so that it can stop as soon as nothing is left.
type pricing struct {
	t    *tardiness
	room int64
}

// pays takes off what the places from k to before l cost when they end δ later, and says whether anything is left.
func (p *pricing) pays(k, l int, delta Time) bool {
	p.room -= p.t.latePrice * p.t.tails.part(k, l, delta)
	return p.room > 0
}

// carryOut swaps the stretches.
func (t *tardiness) carryOut(s *stretches) {
	rotate(t.row, s.a, s.c, s.d) // second, first, between
	first := s.a + s.d - s.c
	rotate(t.row, first, first+s.b-s.a, s.d) // second, between, first
}

// rotate lets the places from a to before b and those from b to before c change places.
func rotate(row []int, a, b, c int) {
	slices.Reverse(row[a:b])
	slices.Reverse(row[b:c])
	slices.Reverse(row[a:c])
}

// between is the set-up between two jobs; nothing is set up after the last.
func (t *tardiness) between(from, to int) Time {
	if to < 0 {
		return 0
	}
	return t.setup[from*t.jobs+to]
}

// job is the one at a place: the start before the first, −1 behind the last.
func (t *tardiness) job(p int) int {
	switch {
	case p < 0:
		return t.jobs
	case p == t.jobs:
		return -1
	}
	return t.row[p]
}

// end is when the job at a place ends; before the first place the work begins.
func (t *tardiness) end(p int) Time {
	if p < 0 {
		return 0
	}
	return t.ends[p]
}
