package schedule

import "slices"

// mostDissolved are the jobs of a batch that are taken out together.
const mostDissolved = 24

// dissolve takes out a batch, or its part up to or from some job, and puts its jobs back one after another as [ruin] does. So they go
// to other batches, each to the one where it does least harm, and a set-up is saved where all of them find one.
func dissolve(c *climber) bool {
	i, place, ok := c.anyPlace()
	if !ok {
		return false
	}
	first, behind := c.batch(i, place)
	switch c.rng.IntN(6) {
	case 0:
		first = place
	case 1:
		behind = place + 1
	}
	first = max(first, behind-mostDissolved)
	out := append(c.block[:0], c.rows[i][first:behind]...)
	c.block = out
	c.touch(i)
	c.rows[i] = slices.Delete(c.rows[i], first, behind)
	c.remark(i)
	c.rng.Shuffle(len(out), func(a, b int) { out[a], out[b] = out[b], out[a] })
	for _, j := range out {
		c.putBack(j)
	}
	return true
}
