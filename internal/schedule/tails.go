package schedule

// swapTails cuts the rows of two machines and lets them go on with each other's rest.
func swapTails(c *climber) bool {
	i, a, ok := c.anyPlace()
	k, b, _ := c.anyPlace()
	if !ok || i == k {
		return false
	}
	tail := c.rows[k][b:]
	if !c.runs(k, c.rows[i][a:]) || !c.runs(i, tail) {
		return false
	}
	c.touch(i)
	c.touch(k)
	rest := c.saved[i][a:] // as touch left it
	c.rows[i] = append(c.rows[i][:a], tail...)
	c.rows[k] = append(c.rows[k][:b], rest...)
	return true
}
