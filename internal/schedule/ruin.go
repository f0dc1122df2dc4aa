package schedule

import (
	"math"
	"slices"
)

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
		if i, place, ok := c.lookUp(j); ok && place >= c.floors[i] {
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
	c.remark(i)
}

// spot is a place for a job and what it adds there.
type spot struct {
	machine, place int
	more           Time
}

// putBack finds a place for a job that is out.
func (c *climber) putBack(j int) {
	spots := c.spots(j)
	best, least := spots[0], int64(math.MaxInt64)
	for _, s := range spots {
		rise := c.outlook.joins(s.machine, c.rows[s.machine], c.marksOf(s.machine), s.place, j, least)
		if rise < least {
			best, least = s, rise
		}
	}
	c.touch(best.machine)
	c.rows[best.machine] = slices.Insert(c.rows[best.machine], best.place, j)
	c.remark(best.machine)
}

// spots are the few places where a job adds the least, roughly: chance may put another one first next time.
func (c *climber) spots(j int) []spot {
	c.few = c.few[:0]
	var chance uint64
	for i, run := range c.Jobs[j].Run {
		if run < 0 {
			continue
		}
		row, marks := c.rows[i], c.marksOf(i)
		for place := c.floors[i]; place <= len(row); place++ {
			if chance < 64 {
				chance = c.rng.Uint64()
			}
			more := c.outlook.insertion(i, row, marks, place, j)
			more += more * Time(chance%64) / 128
			chance /= 64
			c.few = rank(c.few, spot{i, place, more})
		}
	}
	return c.few
}

// marksOf are the marks of a row as it is now, in the midst of a change.
func (c *climber) marksOf(i int) []mark {
	if slices.Contains(c.dirty, i) {
		return c.midway[i]
	}
	return c.outlook.marks[i]
}

// remark forecasts a row that has changed in the midst of a change.
func (c *climber) remark(i int) { c.midway[i] = c.outlook.walk(i, c.rows[i], c.midway[i]) }

// rank puts a spot where it belongs among the best few.
func rank(best []spot, s spot) []spot {
	if len(best) < fewPlaces {
		best = append(best, s)
	} else if s.more >= best[fewPlaces-1].more {
		return best
	}
	at := len(best) - 1
	for ; at > 0 && best[at-1].more > s.more; at-- {
		best[at] = best[at-1]
	}
	best[at] = s
	return best
}
