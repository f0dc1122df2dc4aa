package schedule

import (
	"context"
	"math/rand/v2"
	"slices"
)

// seeker is one of the searches.
type seeker interface {
	// from goes on at an order of a known cost.
	from(order Order, cost Cost)
	// climb searches, from hot to cold, until the round is spent or the context is done; it tells now and then.
	climb(ctx context.Context, spent func(iterations int) int64, tell func())
	// best is the best order so far, which the next round may change.
	best() (Order, Cost)
	steps() int
	// opening is the part of the time, in 24ths, that it wants for the first of two rounds when the end is known.
	opening() int
}

// newSeekers are walkers where orders of the problem can be priced without decoding, otherwise climbers. Each has luck of its own.
// Their number depends on the problem only, so that the cores change the wait and not the answer.
func newSeekers(m *model, given Order, seed uint64) []seeker {
	arcs := newArcs(m)
	starts := starts(m, arcs, given)
	luck := func(i int) *rand.Rand { return rand.New(rand.NewPCG(seed, uint64(i))) }
	var all []seeker
	if whole := placed(starts); newGround(m) != nil && len(whole) > 0 {
		for i := range walkers {
			all = append(all, newWalker(m, luck(i), whole[i%len(whole)].order))
		}
		return all
	}
	climbers, heat := crew(m.jobs)
	for i := range climbers {
		all = append(all, newClimber(m, arcs, luck(i), starts[0].order, heat))
	}
	return all
}

// placed are the starts that leave no job without a place.
func placed(starts []priced) []priced {
	return slices.DeleteFunc(slices.Clone(starts), func(s priced) bool { return s.cost.Unplaced > 0 })
}

const walkers = 4

// crew is how many climbers share the time, and where their heat begins, in eighths of a usual change. With few jobs a climber soon
// ends in some valley, and which one that is, is luck: many short climbs find the best more often than a long one, and short ones
// have no time for great heat. With many jobs a short climb gets nowhere.
func crew(jobs int) (climbers int, heat int64) {
	switch {
	case jobs <= 80:
		return 16, 2
	case jobs <= 160:
		return 8, 3
	case jobs <= 320:
		return 4, 3
	default:
		return 2, 3
	}
}

// starts is where searches begin, the cheapest first: the orders by the rules, and the one given.
func starts(m *model, a *arcs, given Order) []priced {
	all := dispatched(m, a)
	if given != nil {
		own := priced{given.Clone(), newDecoder(m).decode(given, nil)}
		at := 0
		for at < len(all) && !own.cost.Less(all[at].cost) {
			at++
		}
		all = slices.Insert(all, min(at, 1), own) // one of the walkers begins there in any case
	}
	return all
}
