package schedule

// swapJobs lets two jobs change places.
func swapJobs(c *climber) bool {
	i, a, ok := c.anyPlace()
	if !ok {
		return false
	}
	k, b, ok := c.anyPlaceAbout(i, a)
	if !ok || i == k && a == b {
		return false
	}
	x, y := c.rows[i][a], c.rows[k][b]
	if c.Jobs[x].Run[k] < 0 || c.Jobs[y].Run[i] < 0 {
		return false
	}
	c.touch(i)
	c.touch(k)
	c.rows[i][a], c.rows[k][b] = y, x
	return true
}
