package schedule

import (
	"context"
	"math/rand/v2"
)

// climber is one search by annealing: what makes an order dearer stays with a chance that falls with the difference, and over a
// round the climber cools until it hardly goes uphill any more. Most of the time it roams: it goes by forecasts, which are cheap, and
// decodes now and then to learn what it has come to and what the forecasts should have said. Then it settles: from the best order it
// has found it goes on by what decoding says. One that does not roam goes by decoding all the time.
type climber struct {
	*decoder
	draft
	outlook outlook // forecast of the order at hand, by what set-ups took lately
	floor   outlook // what no plan of the order can undercut
	firm    firm
	stride  int // of changes tried between two decodings while it settles, in eighths
	blindly int // one decoding in so many is of a single change, whatever its forecast
	rng     *rand.Rand
	near    [][]int // of each job: the jobs it follows cheaply
	floors  []int   // of each machine: places that are fixed

	crew              crew
	hot, still        int64  // heat at the very first and at the end of settling, times one
	heat, first, last int64  // times one: now, at the beginning of a round and at its end
	frozen            []bool // machines that keep their rows for now; none where it is empty
	leastCost         Cost
	least             Order
	finest            finest
	iterations        int
	midway            [][]mark // of each machine: marks of its row in the midst of a change
	few               []spot   // scratch
	block             []int    // scratch
	cheap             Time     // set-ups up to here are those of a batch
}

const (
	again   = 4    // how much cooler a climber begins that goes on from what has been found
	settles = 8    // it does so in the last of so many parts of a round
	roamed  = 1000 // changes between two decodings while it roams, at most
	perJob  = 4    // as many times the jobs, where that is less
)

// hottest keeps heats small enough to be multiplied.
const hottest = 1 << 36

// newClimber begins at an order.
func newClimber(m *model, a *arcs, rng *rand.Rand, start Order, crew crew) *climber {
	c := &climber{
		decoder: newDecoder(m), outlook: newOutlook(m, a.copy()), floor: newFloor(m, a),
		rng: rng, near: nearest(m, a), stride: 8, blindly: 4, crew: crew,
	}
	for i := range m.Machines {
		c.midway = append(c.midway, make([]mark, 1, m.jobs+1))
		c.floors = append(c.floors, len(m.Machines[i].Fixed))
	}
	cost := c.decode(start, nil)
	c.least, c.leastCost = start.Clone(), cost
	usual := c.usual()
	c.hot, c.last, c.still = usual*crew.heat/8, usual/crew.cold, usual/crew.still
	c.first = c.hot
	if m.jobs <= veryFew {
		c.blindly, c.finest.most = 2, mostFine
	}
	c.cheap = c.sample().setup / batched
	c.from(start, cost)
	return c
}

// usual is about what a change costs that is neither good nor bad, times one: a usual set-up more, by which the jobs that are
// late become later. It is asked with the decoded start at hand. Where set-ups are free or take hardly any time, changes still
// move waits and ends, by more than a small part of a run.
func (c *climber) usual() int64 {
	var late Time
	for j := range c.Jobs {
		if c.end[j] > c.Jobs[j].Due {
			late += c.Jobs[j].Weight
		}
	}
	w, mean := &c.Weights, c.sample()
	price := max(w.Setup, w.Wait, w.Makespan) + w.Late*late/max(1, Time(c.jobs))
	return min(hottest, max(mean.setup, mean.run/16)*price) * one
}

// means are a usual set-up, at the least, and a usual run.
type means struct{ setup, run Time }

// sample is the means of a sample of what might follow each other.
func (c *climber) sample() means {
	var sum means
	var number Time
	for i := range c.Machines {
		for from := range c.jobs {
			for to := (from + 1) % 7; to < c.jobs; to += 7 {
				if from != to && c.Jobs[from].Run[i] >= 0 && c.Jobs[to].Run[i] >= 0 {
					sum.setup += c.floor.arcs.at(i, from, to)
					sum.run += c.Jobs[to].Run[i]
					number++
				}
			}
		}
	}
	return means{sum.setup / max(1, number), sum.run / max(1, number)}
}

func (c *climber) best() (Order, Cost) { return c.least, c.leastCost }
func (c *climber) steps() int          { return c.iterations }
func (c *climber) meetings() *meetings { return &c.crew.meetings }
func (c *climber) others() []priced    { return c.finest.all }

// climb roams, then settles at the best order it has found.
func (c *climber) climb(ctx context.Context, spent spent, tell func()) {
	if !c.crew.roams {
		c.descend(ctx, c.first, spent, tell)
		c.first = max(c.last, c.first/again)
		return
	}
	const roaming = one - one/settles
	stride, onward := min(roamed, perJob*c.jobs), false
	c.during(ctx, tell, func() (goesOn bool) {
		part, over := spent(c.iterations)
		if onward = part < roaming; over || !onward {
			return false
		}
		c.heat = cool(c.first, c.last, part*one/roaming)
		c.roam(stride)
		return true
	})
	if onward {
		return // the climb goes on in the next round
	}
	c.first = max(c.last, c.first/again)
	c.from(c.least.Clone(), c.leastCost)
	c.descend(ctx, c.first, func(iterations int) (int64, bool) {
		part, over := spent(iterations)
		return (part - roaming) * settles, over
	}, tell)
}

// settle goes on from the order at hand, which is a good one.
func (c *climber) settle(ctx context.Context, spent spent, tell func()) {
	if c.crew.mends {
		c.mend(ctx, spent, tell)
		return
	}
	c.descend(ctx, c.first, spent, tell)
}

// descend goes by what decoding says.
func (c *climber) descend(ctx context.Context, first int64, spent spent, tell func()) {
	c.during(ctx, tell, func() (goesOn bool) {
		part, over := spent(c.iterations)
		if over {
			return false
		}
		if c.iterations%16 == 0 || c.heat == 0 {
			c.heat = cool(max(c.last, first), c.still, part)
		}
		c.step()
		return true
	})
}

// during goes on until there is an end to it or the context is done. It tells now and then.
func (c *climber) during(ctx context.Context, tell func(), goOn func() bool) {
	defer tell()
	for ctx.Err() == nil && goOn() {
		if c.iterations++; c.iterations%1024 == 0 {
			tell()
		}
	}
}

func (c *climber) anyMove() *move {
	n := c.rng.IntN(allShares)
	for i := range moves {
		if n -= moves[i].share; n < 0 {
			return &moves[i]
		}
	}
	panic("schedule: shares of moves do not sum up")
}
