package schedule

import "slices"

// longestBlock is the most jobs that moveBlock moves together.
const longestBlock = 6

// moveBlock takes two to six jobs in a row and puts them elsewhere on the same or another machine, mostly about where they
// stand, one time in three in reverse.
func moveBlock(c *climber) bool {
	from, place, ok := c.anyPlace()
	if !ok {
		return false
	}
	row := c.rows[from]
	n := min(2+c.rng.IntN(longestBlock-1), len(row)-place)
	to := from
	if c.rng.IntN(3) == 0 {
		to = c.rng.IntN(len(c.rows))
	}
	if n < 2 || to != from && !c.runs(to, row[place:place+n]) {
		return false
	}
	at := c.about(from, place, to)
	var block [longestBlock]int
	copy(block[:], row[place:place+n])
	if c.rng.IntN(3) == 0 {
		slices.Reverse(block[:n])
	}
	c.touch(from)
	c.touch(to)
	c.rows[from] = slices.Delete(row, place, place+n)
	if to == from && at > place {
		at = max(place, at-n)
	}
	c.rows[to] = slices.Insert(c.rows[to], at, block[:n]...)
	return true
}
