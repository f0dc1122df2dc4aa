package schedule

import (
	"context"
	"math/rand/v2"
)

// ground is a problem simple enough for orders to be priced by what a change makes different. It holds one order and a
// height, which is the price or something finer that leads to low prices.
type ground interface {
	set(order Order)
	// step changes the order by chance, and maybe for the better from there. It leaves the order as it was when that rises
	// by more than the heat lets pass ([slip]), and says whether the change stays.
	step(rng *rand.Rand, heat int64) bool
	// total is what the cost of the order would have as its Total, up to the same number for all orders.
	total() int64
	order() Order
	// heats are the mean rises that are let pass at the beginning and at the end of a round, times one, by how the order
	// is now.
	heats() (first, last int64)
}

// lapper is a ground over which a round is better spent on several laps, each from hot to cold.
type lapper interface {
	laps() int
	// lap begins the next lap, the first being 0, where the ones before it have led, or anew.
	lap(rng *rand.Rand, n int)
}

// walker is one search over a ground by annealing: a step that leads higher is kept with a chance that falls with the
// height, and over a round the walker cools.
type walker struct {
	ground
	decoder    *decoder
	rng        *rand.Rand
	least      Order
	leastCost  Cost
	leastTotal int64 // of the ground, for the same order
	iterations int
	laps       int
}

// newWalker is for a problem that there is a ground for, and a start that leaves no job without a place.
func newWalker(m *model, rng *rand.Rand, start Order) *walker {
	w := &walker{ground: newGround(m), decoder: newDecoder(m), rng: rng, least: start.Clone(), laps: 1}
	if l, ok := w.ground.(lapper); ok {
		w.laps = l.laps()
	}
	w.leastCost = w.decoder.decode(start, nil)
	w.set(start)
	w.leastTotal = w.total()
	return w
}

func (w *walker) best() (Order, Cost) { return w.least, w.leastCost }
func (w *walker) steps() int          { return w.iterations }
func (w *walker) others() []priced    { return nil }

// meetings are late where there are laps: searches that go on from one order find less than each on its own.
func (w *walker) meetings() *meetings {
	if w.laps > 1 {
		return &meetings{climb: []int{23}, settle: 1, keep: 1}
	}
	return &meetings{climb: []int{8}, settle: 1, keep: 1}
}

func (w *walker) from(order Order, _ Cost) {
	w.ground.set(order)
	w.record()
}

// climb walks on from where it is, from hot to cold.
func (w *walker) climb(ctx context.Context, spent spent, tell func()) {
	defer tell()
	var heat int64
	lap := 0
	for ; ; w.iterations++ {
		part, over := spent(w.iterations)
		if over || w.iterations%16 == 0 && ctx.Err() != nil {
			return
		}
		if w.iterations%1024 == 0 {
			tell()
		}
		if heat == 0 || w.iterations%64 == 0 {
			at := part * int64(w.laps)
			for ; int64(lap) < at/one; lap++ {
				w.ground.(lapper).lap(w.rng, lap+1)
			}
			first, last := w.heats()
			heat = cool(first, last, at%one)
		}
		if w.step(w.rng, heat) {
			w.record()
		}
	}
}

// settle is climb: a ground has no other way.
func (w *walker) settle(ctx context.Context, spent spent, tell func()) {
	w.climb(ctx, spent, tell)
}

// record keeps the order when it is the best so far. The decoder has the last word on what it costs: a ground that
// priced it otherwise would be wrong.
func (w *walker) record() {
	total := w.total()
	if total >= w.leastTotal {
		return
	}
	cost := w.decoder.decode(w.order(), nil)
	if cost.Unplaced > 0 || w.leastCost.Total-cost.Total != w.leastTotal-total {
		panic("schedule: the price of an order by its changes is not the price of its plan")
	}
	w.leastTotal, w.leastCost = total, cost
	w.least = copyOrder(w.least, w.order())
}
