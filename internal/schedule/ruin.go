package schedule

import "slices"

const (
	mostRuined = 5 // jobs taken out together
	fewPlaces  = 3 // places for each that are forecast
)

// ruin takes out a few jobs that follow each other cheaply, wherever they stand, and puts them back one after another: of the
// few places with the least set-ups, roughly, where the row costs least by the forecast.
func ruin(c *climber) bool {
	i, place, ok := c.anyPlace()
	if !ok {
		return false
	}
	var out [mostRuined]int
	out[0] = c.rows[i][place]
	c.pull(i, place)
	n := 1
	for range 1 + c.rng.IntN(mostRuined-1) {
		near := c.near[out[c.rng.IntN(n)]]
		if len(near) == 0 {
			break
		}
		j := near[c.rng.IntN(len(near))]
		if slices.Contains(out[:n], j) {
			continue
		}
		if i, place := c.find(j); place >= c.floors[i] {
			c.pull(i, place)
			out[n] = j
			n++
		}
	}
	c.rng.Shuffle(n, func(a, b int) { out[a], out[b] = out[b], out[a] })
	for _, j := range out[:n] {
		c.putBack(j)
	}
	return true
}

// pull takes a job out of its row.
func (c *climber) pull(i, place int) {
	c.touch(i)
	c.rows[i] = slices.Delete(c.rows[i], place, place+1)
}

// spot is a place for a job and what it adds there.
type spot struct {
	machine, place int
	more           Time
}

// putBack finds a place for a job that is out.
func (c *climber) putBack(j int) {
	var spots [fewPlaces]spot
	n := 0
	for i, run := range c.Jobs[j].Run {
		if run < 0 {
			continue
		}
		for place := c.floors[i]; place <= len(c.rows[i]); place++ {
			more := c.outlook.insertion(i, c.rows[i], place, j)
			more += more * Time(c.rng.IntN(64)) / 128 // so that another place may come first next time
			n = rank(spots[:], n, spot{i, place, more})
		}
	}
	best, least := 0, int64(hopeless)
	for k, s := range spots[:n] {
		row := c.rows[s.machine]
		c.spare = append(append(append(c.spare[:0], row[:s.place]...), j), row[s.place:]...)
		rise := last(c.outlook.walk(s.machine, c.spare, c.marks)).price - last(c.outlook.walk(s.machine, row, c.marks)).price
		if rise < least {
			best, least = k, rise
		}
	}
	s := spots[best]
	c.touch(s.machine)
	c.rows[s.machine] = slices.Insert(c.rows[s.machine], s.place, j)
}

// rank puts a spot where it belongs among the n best, and returns how many there are then.
func rank(best []spot, n int, s spot) int {
	if n < len(best) {
		n++
	} else if s.more >= best[n-1].more {
		return n
	}
	at := n - 1
	for ; at > 0 && best[at-1].more > s.more; at-- {
		best[at] = best[at-1]
	}
	best[at] = s
	return n
}
