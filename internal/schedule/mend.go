package schedule

import "context"

const (
	mended   = 200 // steps before a climber turns to other machines
	reheated = 2   // machines at a time
)

// mend goes on from the best order by reheating it part by part: two machines are as hot as at the very first and cool in a few
// steps, while the others keep their rows; then two others, from the best order since. What the climb has left in the wrong place on one
// pair of machines is found so, and what is good about the others is not lost.
func (c *climber) mend(ctx context.Context, spent spent, tell func()) {
	left := 0
	c.during(ctx, tell, func() (goesOn bool) {
		if _, over := spent(c.iterations); over {
			return false
		}
		if left == 0 {
			c.from(c.least.Clone(), c.leastCost)
			c.reheat(reheated)
			left = mended
		}
		c.heat = cool(c.hot, c.still, int64(mended-left)*one/mended)
		left--
		c.step()
		return true
	})
	c.frozen = nil
}

// reheat lets only so many machines change, by chance.
func (c *climber) reheat(machines int) {
	c.frozen = c.frozen[:0]
	for range c.rows {
		c.frozen = append(c.frozen, true)
	}
	for _, i := range c.rng.Perm(len(c.rows))[:min(machines, len(c.rows))] {
		c.frozen[i] = false
	}
}

// melts says whether the row of a machine may change.
func (c *climber) melts(i int) bool { return len(c.frozen) == 0 || !c.frozen[i] }

// attempt makes a change by chance; false when it comes to nothing or would change a frozen machine.
func (c *climber) attempt() bool {
	c.begin()
	if !c.anyMove().try(c) {
		return false
	}
	for _, i := range c.dirty {
		if !c.melts(i) {
			c.undo()
			return false
		}
	}
	return true
}
