package schedule

import "slices"

// swapBatches lets two batches change places.
func swapBatches(c *climber) bool {
	i, a, ok := c.anyPlace()
	if !ok {
		return false
	}
	k, b, ok := c.anyPlaceAbout(i, a)
	if !ok {
		return false
	}
	a, behindA := c.batch(i, a)
	b, behindB := c.batch(k, b)
	if i == k && a > b {
		a, behindA, b, behindB = b, behindB, a, behindA
	}
	first, second := c.rows[i][a:behindA], c.rows[k][b:behindB]
	if i == k && a == b || !c.runs(k, first) || !c.runs(i, second) {
		return false
	}
	c.touch(i)
	c.touch(k)
	first, second = c.saved[i][a:behindA], c.saved[k][b:behindB]
	// The later one first: in the same row the earlier place stays what it is.
	c.rows[k] = slices.Replace(c.rows[k], b, behindB, first...)
	c.rows[i] = slices.Replace(c.rows[i], a, behindA, second...)
	return true
}
