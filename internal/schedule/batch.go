package schedule

import "slices"

// batched is the part of a usual set-up up to which one counts as a batch's.
const batched = 3

// moveBatch takes jobs that follow each other cheaply, all of a batch or its part from some job on, and puts them beside a job they
// go with, or between two batches.
func moveBatch(c *climber) bool {
	from, place, ok := c.anyPlace()
	if !ok {
		return false
	}
	first, behind := c.batch(from, place)
	if c.rng.IntN(3) == 0 {
		first = place
	}
	to, at, ok := c.beside(from, first, behind)
	block := append(c.block[:0], c.rows[from][first:behind]...)
	c.block = block
	if !ok || !c.runs(to, block) || to == from && first <= at && at <= behind {
		return false
	}
	c.touch(from)
	c.touch(to)
	c.rows[from] = slices.Delete(c.rows[from], first, behind)
	if to == from && at > first {
		at -= len(block)
	}
	c.rows[to] = slices.Insert(c.rows[to], at, block...)
	return true
}

// batch is the jobs around a place that follow each other cheaply: from one place up to another.
func (c *climber) batch(i, place int) (first, behind int) {
	row := c.rows[i]
	for first = place; first > c.floors[i] && c.outlook.arcs.at(i, row[first-1], row[first]) <= c.cheap; {
		first--
	}
	for behind = place + 1; behind < len(row) && c.outlook.arcs.at(i, row[behind-1], row[behind]) <= c.cheap; {
		behind++
	}
	return first, behind
}

// beside is a place for a stretch of a row: behind a job that its first goes with, before one that its last goes with, or at the end of
// any batch.
func (c *climber) beside(i, first, behind int) (to, at int, ok bool) {
	row := c.rows[i]
	switch c.rng.IntN(4) {
	case 0, 1:
		if to, at, ok = c.oneNear(row[first], i, first, behind); ok {
			at++
			return to, at, at >= c.floors[to]
		}
	case 2:
		if to, at, ok = c.oneNear(row[behind-1], i, first, behind); ok {
			return to, at, at >= c.floors[to]
		}
	}
	to, at, ok = c.anyPlace()
	_, at = c.batch(to, at)
	return to, at, ok
}

// oneNear is where one of the jobs stands that a job goes with, by chance, but none of those in a stretch of a row.
func (c *climber) oneNear(j, i, first, behind int) (machine, place int, ok bool) {
	near := c.near[j]
	for range min(draws, len(near)) {
		machine, place = c.find(near[c.rng.IntN(len(near))])
		if machine != i || place < first || place >= behind {
			return machine, place, true
		}
	}
	return 0, 0, false
}

// draws are the attempts to find a job outside of a batch.
const draws = 3
