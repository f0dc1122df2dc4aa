package schedule

import "slices"

// relocateNear takes a job and puts it directly after, sometimes before, one it follows cheaply and whose batch it is not in yet.
func relocateNear(c *climber) bool {
	from, place, ok := c.anyPlace()
	if !ok {
		return false
	}
	first, behind := c.batch(from, place)
	to, at, ok := c.oneNear(c.rows[from][place], from, first, behind)
	return ok && c.relocate(from, place, to, at+1-c.rng.IntN(4)/3)
}

// relocateAnywhere takes a job and puts it anywhere, mostly about where it stands.
func relocateAnywhere(c *climber) bool {
	from, place, ok := c.anyPlace()
	if !ok {
		return false
	}
	to := from
	if c.rng.IntN(2) == 0 {
		to = c.rng.IntN(len(c.rows))
	}
	return c.relocate(from, place, to, c.about(from, place, to))
}

// relocate moves the job at a place to before the job at another; places are those before the move.
func (c *climber) relocate(from, place, to, at int) bool {
	j := c.rows[from][place]
	if from == to && (at == place || at == place+1) || at < c.floors[to] || c.Jobs[j].Run[to] < 0 {
		return false
	}
	c.touch(from)
	c.touch(to)
	c.rows[from] = slices.Delete(c.rows[from], place, place+1)
	if from == to && at > place {
		at--
	}
	c.rows[to] = slices.Insert(c.rows[to], at, j)
	return true
}
