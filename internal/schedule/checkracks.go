package schedule

// mostSets bounds the numbers of the sets of a rack, which tables are laid out by.
const mostSets = 1 << 20

func (c *checker) racks() {
	if c.Racks == nil {
		return
	}
	if len(c.Racks) != len(c.Machines) {
		c.addf("there are racks for %d machines; there are %d machines, or none at all when no machine has one", len(c.Racks), len(c.Machines))
		return
	}
	for i := range c.Racks {
		if c.Racks[i].Places != 0 {
			c.jobsRack(i)
		}
	}
}

func (c *checker) jobsRack(i int) {
	r := &c.Racks[i]
	if r.Places < 0 || r.Places > mostSets {
		c.addf("the rack of machine %d has %d places; it must have from 1 to %d, or 0 for no rack", i, r.Places, mostSets)
	}
	c.span(r.Load, "the time to bring a set to the rack of machine %d", i)
	if len(r.Needs) != len(c.Jobs) {
		c.addf("the rack of machine %d lists the needs of %d jobs; there are %d", i, len(r.Needs), len(c.Jobs))
		return
	}
	for j, sets := range r.Needs {
		if c.able(j, i) {
			c.needs(i, j, sets)
		}
	}
}

func (c *checker) needs(i, j int, sets []int) {
	if len(sets) > c.Racks[i].Places {
		c.addf("job %d needs %d sets at once on machine %d, whose rack holds %d", j, len(sets), i, c.Racks[i].Places)
	}
	seen := make(map[int]bool)
	for _, x := range sets {
		if !c.in(x, mostSets, "a set that job %d needs on machine %d", j, i) {
			continue
		}
		if seen[x] {
			c.addf("job %d names set %d twice for machine %d; once is right", j, x, i)
		}
		seen[x] = true
	}
}
