package schedule

// move is a way to change an order a little. try changes the climber's rows, touching each row before, and reports
// whether anything has changed; it keeps fixed places and never puts a job on a machine that cannot run it. A new
// neighbourhood is one file with one such function and its line here.
type move struct {
	share int // how often it is tried, of allShares
	try   func(*climber) bool
}

var moves = [...]move{
	{share: 31, try: relocateNear},
	{share: 16, try: relocateAnywhere},
	{share: 20, try: moveBlock},
	{share: 20, try: swapJobs},
	{share: 4, try: swapStretches},
	{share: 1, try: ruin},
	{share: 1, try: dissolve},
	{share: 60, try: moveBatch},
	{share: 20, try: swapBatches},
}

const allShares = 173

// anyPlace is a random place that is not fixed; false when there is none.
func (c *climber) anyPlace() (machine, place int, ok bool) {
	loose := 0
	for i, row := range c.rows {
		if c.melts(i) {
			loose += len(row) - c.floors[i]
		}
	}
	if loose == 0 {
		return 0, 0, false
	}
	n := c.rng.IntN(loose)
	for i, row := range c.rows {
		if !c.melts(i) {
			continue
		}
		if n < len(row)-c.floors[i] {
			return i, c.floors[i] + n, true
		}
		n -= len(row) - c.floors[i]
	}
	panic("schedule: fewer places in the order than were counted")
}

// runs says whether the machine can run all of the jobs.
func (c *climber) runs(machine int, jobs []int) bool {
	for _, j := range jobs {
		if c.Jobs[j].Run[machine] < 0 {
			return false
		}
	}
	return true
}
