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
	block := append(c.block[:0], c.rows[from][first:behind]...)
	c.block = block
	to, at, ok := c.beside(block)
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

// beside is a place for a block: behind a job that its first goes with, before one that its last goes with, or at the end of any batch.
func (c *climber) beside(block []int) (to, at int, ok bool) {
	var near []int
	way := c.rng.IntN(4)
	switch way {
	case 0, 1:
		near = c.near[block[0]]
	case 2:
		near = c.near[last(block)]
	}
	if way == 3 || len(near) == 0 {
		to, at, ok = c.anyPlace()
		_, at = c.batch(to, at)
		return to, at, ok
	}
	j := near[c.rng.IntN(len(near))]
	to, at = c.find(j)
	if way < 2 {
		at++
	}
	return to, at, at >= c.floors[to]
}
