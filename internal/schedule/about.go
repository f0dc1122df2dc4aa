package schedule

import (
	"cmp"
	"slices"
)

const (
	longRow = 30 // jobs up to which no place is far
	far     = 4  // one in so many goes anywhere all the same
	aside   = 10 // the others go so many places to either side at most
)

// about is a place of a machine, mostly one at which it comes about when another comes to a place of its own: what is put far from
// its time mostly comes to nothing, and where there are many jobs most places are far.
func (c *climber) about(from, place, to int) int {
	lo, hi := c.floors[to], len(c.rows[to])
	if hi-lo <= longRow || c.rng.IntN(far) == 0 {
		return lo + c.rng.IntN(hi-lo+1)
	}
	at := place
	if to != from {
		when := c.outlook.marks[from][place].at
		at, _ = slices.BinarySearchFunc(c.outlook.marks[to], when, func(m mark, t Time) int { return cmp.Compare(m.at, t) })
	}
	return min(max(lo, at+c.rng.IntN(2*aside+1)-aside), hi)
}

// anyPlaceAbout is a random place that is not fixed, of any machine, mostly at about the time of another.
func (c *climber) anyPlaceAbout(from, place int) (machine, at int, ok bool) {
	machine = c.rng.IntN(len(c.rows))
	at = c.about(from, place, machine)
	return machine, at, at < len(c.rows[machine])
}
