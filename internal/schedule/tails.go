package schedule

import "slices"

// longestStretch is the most jobs of a stretch that is no tail.
const longestStretch = 12

// swapStretches lets two machines go on with each other's rest from some place on; where rows are long, mostly with some of the other's jobs in
// a row only, at about the same time. One of the stretches may be empty.
func swapStretches(c *climber) bool {
	i, a, ok := c.anyPlace()
	if !ok {
		return false
	}
	k := c.rng.IntN(len(c.rows))
	if i == k {
		return false
	}
	b := c.about(i, a, k)
	mine, theirs := c.rows[i][a:], c.rows[k][b:]
	if len(c.rows[i]) > longRow && c.rng.IntN(4) > 0 {
		mine = c.runnable(k, mine[:min(len(mine), 1+c.rng.IntN(longestStretch))])
		theirs = c.runnable(i, theirs[:min(len(theirs), c.rng.IntN(longestStretch+1))])
	}
	if len(mine)+len(theirs) == 0 || !c.runs(k, mine) || !c.runs(i, theirs) {
		return false
	}
	c.touch(i)
	c.touch(k)
	behindMine, behindTheirs := a+len(mine), b+len(theirs)
	c.rows[i] = slices.Replace(c.rows[i], a, behindMine, c.saved[k][b:behindTheirs]...)
	c.rows[k] = slices.Replace(c.rows[k], b, behindTheirs, c.saved[i][a:behindMine]...)
	return true
}

// runnable is the jobs up to the first that a machine cannot run.
func (c *climber) runnable(machine int, jobs []int) []int {
	for n, j := range jobs {
		if c.Jobs[j].Run[machine] < 0 {
			return jobs[:n]
		}
	}
	return jobs
}
