package schedule

// meetings are when searches meet where the end is known, in 24ths of the time.
type meetings struct {
	climb  []int // in the midst of the climb, and last at its end
	settle int   // the rounds that are left behind it
	keep   int   // the orders from which they go on, at most
}

// rounds is how many rounds there are.
func (m *meetings) rounds() int { return len(m.climb) + m.settle }

// settling says whether a round is behind the climb.
func (m *meetings) settling(round int) bool { return round >= len(m.climb) }

// round is when a round is over, and from when to when what it is a part of goes on: all of the climb, or itself.
func (m *meetings) round(round int) (over, from, to int) {
	behind := last(m.climb)
	if !m.settling(round) {
		return m.climb[round], 0, behind
	}
	n, left := round-len(m.climb), 24-behind
	over = behind + left*(n+1)/m.settle
	return over, behind + left*n/m.settle, over
}
