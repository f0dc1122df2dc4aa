package schedule

import "math"

// firm is the order that was decoded last of those that stay. The order at hand differs from it only within a step.
type firm struct {
	rows     Order
	cost     Cost
	forecast int64  // of its price
	changed  []bool // machines whose row differs since
}

const (
	longestStride = 256 // changes
	leap          = 400 // one decoding in so many may leave out a job
)

// from goes on at an order of a known cost.
func (c *climber) from(order Order, cost Cost) {
	c.draft.set(order, c.jobs)
	if c.crew.roams {
		c.decode(order, nil)
		c.outlook.takeTurns(c.decoder)
	}
	c.outlook.lay(c.rows)
	c.firm = firm{copyOrder(c.firm.rows, order), cost, c.outlook.sum, append(c.firm.changed[:0], make([]bool, len(order))...)}
	c.leastCost, c.least = cost, copyOrder(c.least, order)
}

// roam makes changes as forecasts let them pass, and stays where they lead.
func (c *climber) roam(changes int) {
	c.wander(changes)
	cost := c.decode(c.rows, nil)
	c.learn()
	c.stand(cost)
}

// step changes the order, decodes, and lets the outcome stay or goes back. Most steps wander by forecasts; some make one
// change whatever its forecast, since what forecasts do not see may speak for it.
func (c *climber) step() {
	bar := c.firm.cost
	bar.Total += slip(c.rng, c.heat)
	blind := c.rng.IntN(c.blindly) == 0
	if blind {
		if !c.change() {
			return
		}
	} else {
		if !c.wander(c.stride / 8) {
			return
		}
		bar.Total += max(0, c.outlook.sum-c.firm.forecast) // that rise has been let pass already
	}
	leaps := c.rng.IntN(leap) == 0
	if leaps {
		bar.Unplaced++ // with one job more left out there may be a way to better orders
	}
	c.floor.lay(c.rows)
	cost, ok := c.priced(bar)
	if leaps && cost.Unplaced == c.firm.cost.Unplaced && cost.Total > c.firm.cost.Total {
		ok = false
	}
	if leaps || c.floor.sum <= bar.Total {
		c.learn()
	}
	if ok {
		c.stand(cost)
	} else {
		c.retreat()
	}
	if !blind {
		c.pace(ok)
	}
}

// priced decodes the order at hand; false when it costs more than the bar. Where all good orders are kept, it is decoded to the end.
func (c *climber) priced(bar Cost) (Cost, bool) {
	if c.finest.most == 0 {
		return c.within(c.rows, &c.floor, bar)
	}
	cost := c.decode(c.rows, nil)
	c.finest.add(c.rows, cost)
	return cost, !bar.Less(cost)
}

// pace makes strides longer as long as what they lead to mostly stays.
func (c *climber) pace(stays bool) {
	if stays {
		c.stride += (longestStride*8 - c.stride) / 8
	} else {
		c.stride = max(8, c.stride-c.stride/4)
	}
}

// change makes one change, whatever the forecast; false when it came to nothing.
func (c *climber) change() bool {
	for range 30 {
		if c.attempt() {
			c.keep()
			return true
		}
	}
	return false
}

// wander tries some changes and keeps those that the forecasts let pass; false when nothing has changed.
func (c *climber) wander(changes int) (changed bool) {
	for range changes {
		if !c.attempt() {
			continue
		}
		if bar := slip(c.rng, c.heat); c.rise(bar) > bar {
			c.undo()
			continue
		}
		c.keep()
		changed = true
	}
	return changed
}

// keep makes the change at hand part of the order at hand.
func (c *climber) keep() {
	for _, i := range c.dirty {
		c.note(i)
		c.outlook.relay(i, c.saved[i], c.rows[i])
		c.firm.changed[i] = true
	}
}

// rise forecasts what the change at hand costs more.
func (c *climber) rise(bar int64) int64 {
	var rise int64
	for n, i := range c.dirty {
		limit := int64(math.MaxInt64) // what one row costs more, a later one may cost less
		if n == len(c.dirty)-1 {
			limit = bar - rise
		}
		rise += c.outlook.rise(i, c.saved[i], c.rows[i], limit)
	}
	return rise
}

// learn takes the set-ups of the tasks decoded last into what is forecast.
func (c *climber) learn() {
	for i, row := range c.rows {
		from := c.jobs
		for _, j := range row[:c.place[i]] {
			c.outlook.arcs.toward(i, from, j, c.setup[j])
			from = j
		}
	}
}

// stand makes the order at hand, which has been decoded, the firm one.
func (c *climber) stand(cost Cost) {
	if c.crew.roams {
		c.outlook.takeTurns(c.decoder)
	}
	for i, changed := range c.firm.changed {
		if changed {
			c.firm.rows[i] = append(c.firm.rows[i][:0], c.rows[i]...)
			c.firm.changed[i] = false
		}
	}
	c.outlook.lay(c.rows)
	c.firm.cost, c.firm.forecast = cost, c.outlook.sum
	if cost.Less(c.leastCost) {
		c.leastCost = cost
		c.least = copyOrder(c.least, c.rows)
	}
}

// retreat goes back to the firm order.
func (c *climber) retreat() {
	for i, changed := range c.firm.changed {
		if changed {
			c.rows[i] = append(c.rows[i][:0], c.firm.rows[i]...)
			c.note(i)
			c.firm.changed[i] = false
		}
	}
	c.outlook.lay(c.rows)
	c.firm.forecast = c.outlook.sum
}
