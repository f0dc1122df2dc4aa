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
	now := t.tails.cost(a, 0) * t.latePrice
	for b := a + 1; b < t.jobs; b++ {
		t.neighbours(a, b, now, &best)
	}
	for b := a + 1; b <= min(a+longestSwapped, t.jobs-2); b++ {
		for c := b + 1; c < t.jobs; c++ {
			t.apart(a, b, c, now, &best)
		}
	}
	return best
}

// neighbours tries all swaps of the stretch from a with one that begins where it ends, at b. What the move adds to the
// set-ups is looked at first: few are priced.
func (t *tardiness) neighbours(a, b int, now int64, best *stretches) {
	most := t.jobs
	if b-a > longestMoved {
		most = min(most, b+longestMoved)
	}
	x, intoU, fromY := t.row[a], t.between(t.before(a), t.row[b]), t.setup[t.row[b-1]*t.width:]
	saved := t.links[a] + t.links[b] - intoU
	for d := b + 1; d <= most; d++ {
		intoX := t.setup[t.row[d-1]*t.width+x]
		setups := intoX + fromY[t.row[d]] - t.links[d] - saved
		if setups > t.filter.most {
			continue
		}
		start := t.end(a - 1)
		shiftU := start + intoU - t.ends[b-1] - t.links[b]
		shiftX := t.ends[d-1] + shiftU + intoX - start - t.links[a]
		if t.least(d, t.jobs, setups)+t.least(b, d, shiftU)+t.least(a, b, shiftX)+t.setupPrice*setups >= best.delta {
			continue
		}
		p := pricing{t: t, room: now + best.delta - t.setupPrice*setups}
		if p.pays(d, t.jobs, setups) && p.pays(b, d, shiftU) && p.pays(a, b, shiftX) {
			*best = stretches{a, b, b, d, setups, best.delta - p.room}
		}
	}
}

// apart tries all swaps of the stretch from a to b with a short one that begins at c, others staying between.
func (t *tardiness) apart(a, b, c int, now int64, best *stretches) {
	x, m := t.row[a], t.row[b]
	intoU, intoX, fromY := t.between(t.before(a), t.row[c]), t.between(t.row[c-1], x), t.setup[t.row[b-1]*t.width:]
	saved := t.links[a] + t.links[b] + t.links[c] - intoU - intoX
	for d := c + 1; d <= min(c+longestSwapped, t.jobs); d++ {
		intoM := t.setup[t.row[d-1]*t.width+m]
		setups := intoM + fromY[t.row[d]] - t.links[d] - saved
		if setups > t.filter.most {
			continue
		}
		start := t.end(a - 1)
		shiftU := start + intoU - t.ends[c-1] - t.links[c]
		shiftM := t.ends[d-1] + shiftU + intoM - t.ends[b-1] - t.links[b]
		shiftX := t.ends[c-1] + shiftM + intoX - start - t.links[a]
		if t.least(d, t.jobs, setups)+t.least(c, d, shiftU)+t.least(b, c, shiftM)+t.least(a, b, shiftX)+t.setupPrice*setups >= best.delta {
			continue
		}
		p := pricing{t: t, room: now + best.delta - t.setupPrice*setups}
		if p.pays(d, t.jobs, setups) && p.pays(c, d, shiftU) && p.pays(b, c, shiftM) && p.pays(a, b, shiftX) {
			*best = stretches{a, b, c, d, setups, best.delta - p.room}
		}
	}
}

// least is what the places from k to before l add at least when they end δ later: lateness is convex in δ, so it lies above
// its tangent.
func (t *tardiness) least(k, l int, delta Time) int64 {
	return (t.rates[l] - t.rates[k]) * delta
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

// between is the set-up between two jobs, where number len(Jobs) is the start as the first and the end as the second.
func (t *tardiness) between(from, to int) Time { return t.setup[from*t.width+to] }

// before is the job before a place; the start before the first.
func (t *tardiness) before(p int) int {
	if p == 0 {
		return t.jobs
	}
	return t.row[p-1]
}

// end is when the job at a place ends; before the first place the work begins.
func (t *tardiness) end(p int) Time {
	if p < 0 {
		return 0
	}
	return t.ends[p]
}
