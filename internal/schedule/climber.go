package schedule

import (
	"context"
	"math/rand/v2"
)

// climber is one search by annealing. It wanders by forecasts for a while, which is cheap, and then decodes: what costs more
// than the order it set out from stays with a chance that falls with the difference, and over a round the climber cools until
// it hardly goes uphill any more.
type climber struct {
	*decoder
	draft
	outlook outlook // forecast of the order at hand, by what set-ups took lately
	floor   outlook // what no plan of the order can undercut
	firm    firm
	stride  int // of changes tried between two decodings, in eighths
	rng     *rand.Rand
	near    [][]int // of each job: the jobs it follows cheaply
	floors  []int   // of each machine: places that are fixed

	heat, first, last int64 // times one: now, at the beginning of a round and at its end
	whole             int64 // first of the first round
	leastCost         Cost
	least             Order
	iterations        int
	midway            [][]mark // of each machine: marks of its row in the midst of a change
	few               []spot   // scratch
	block             []int    // scratch
	cheap             Time     // set-ups up to here are those of a batch
}

// again is how much cooler than the first one a round begins that sets out from what the searches have found.
const again = 4

// hottest keeps heats small enough to be multiplied.
const hottest = 1 << 36

// newClimber begins at an order; its heat begins at so many eighths of what a usual change costs.
func newClimber(m *model, a *arcs, rng *rand.Rand, start Order, heat int64) *climber {
	c := &climber{
		decoder: newDecoder(m), outlook: newOutlook(m, a.copy()), floor: newFloor(m, a),
		rng: rng, near: nearest(m, a), stride: 8,
	}
	for i := range m.Machines {
		c.midway = append(c.midway, make([]mark, 1, m.jobs+1))
		c.floors = append(c.floors, len(m.Machines[i].Fixed))
	}
	cost := c.decode(start, nil)
	c.least, c.leastCost = start.Clone(), cost
	c.whole = c.usual() * heat / 8
	c.first, c.last = c.whole, c.whole/16
	c.cheap = c.meanSetup() / 3
	c.from(start, cost)
	return c
}

// usual is about what a change costs that is neither good nor bad, times one: a usual set-up more, by which the jobs that are
// late become later. It is asked with the decoded start at hand. Where set-ups are free or take hardly any time, changes still
// move waits and ends, by more than a small part of a run.
func (c *climber) usual() int64 {
	var setups, runs, number, late Time
	for i := range c.Machines {
		for from := range c.jobs {
			for to := from % 7; to < c.jobs; to += 7 { // a sample
				if from != to && c.Jobs[from].Run[i] >= 0 && c.Jobs[to].Run[i] >= 0 {
					setups += c.floor.arcs.at(i, from, to)
					runs += c.Jobs[to].Run[i]
					number++
				}
			}
		}
	}
	for j := range c.Jobs {
		if c.end[j] > c.Jobs[j].Due {
			late += c.Jobs[j].Weight
		}
	}
	w := &c.Weights
	price := max(w.Setup, w.Wait, w.Makespan) + w.Late*late/max(1, Time(c.jobs))
	return min(hottest, max(setups, runs/16)/max(1, number)*price) * one
}

func (c *climber) best() (Order, Cost) { return c.least, c.leastCost }
func (c *climber) steps() int          { return c.iterations }
func (c *climber) opening() int        { return 21 }

// climb cools as the round is spent. It tells now and then.
func (c *climber) climb(ctx context.Context, spent func(iterations int) int64, tell func()) {
	defer tell()
	defer func() { c.first = c.whole / again }()
	for ; ; c.iterations++ {
		part := spent(c.iterations)
		if part >= one || c.iterations%64 == 0 && ctx.Err() != nil {
			return
		}
		if c.iterations%1024 == 0 {
			tell()
		}
		if c.iterations%16 == 0 || c.heat == 0 {
			c.heat = cool(c.first, c.last, part)
		}
		c.step()
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

func (c *climber) meanSetup() Time {
	var setups, number Time
	for i := range c.Machines {
		for from := range c.jobs {
			for to := from % 7; to < c.jobs; to += 7 { // a sample
				if from != to && c.Jobs[from].Run[i] >= 0 && c.Jobs[to].Run[i] >= 0 {
					setups += c.floor.arcs.at(i, from, to)
					number++
				}
			}
		}
	}
	return setups / max(1, number)
}
