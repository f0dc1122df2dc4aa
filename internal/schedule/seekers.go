package schedule

import (
	"context"
	"math/rand/v2"
	"slices"
)

// seeker is one of the searches.
type seeker interface {
	// from goes on at an order of a known cost, which is from then on the best it has.
	from(order Order, cost Cost)
	// climb searches, from hot to cold, until the round is over or the context is done; it tells now and then. A climb that
	// takes several rounds is as hot as what is spent of it says.
	climb(ctx context.Context, spent spent, tell func())
	// settle does so for a last time, without going far from the order it is at.
	settle(ctx context.Context, spent spent, tell func())
	// best is the best order so far, which the next round may change.
	best() (Order, Cost)
	// others are more good orders, if it keeps any.
	others() []priced
	steps() int
	// meetings are when it wants to meet the others.
	meetings() *meetings
}

// spent tells how much is spent, of one, of a climb or of the time to settle, and whether the round is over.
type spent func(iterations int) (part int64, over bool)

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
	crew := crewOf(m.jobs)
	for i := range crew.climbers {
		all = append(all, newClimber(m, arcs, luck(i), starts[0].order, crew))
	}
	return all
}

// placed are the starts that leave no job without a place.
func placed(starts []priced) []priced {
	return slices.DeleteFunc(slices.Clone(starts), func(s priced) bool { return s.cost.Unplaced > 0 })
}

const walkers = 4

// veryFew jobs are decoded so quickly that forecasts are hardly worth it.
const veryFew = 16

// crew is the climbers that share the time.
type crew struct {
	climbers int
	roams    bool  // they roam before they settle
	heat     int64 // where their heat begins, in eighths of a usual change
	cold     int64 // the part of a usual change to which they cool while they roam
	still    int64 // the same while they settle
	mends    bool  // they settle by mending
	meetings
}

// crewOf is the crew for so many jobs. With few jobs a climber soon ends in some valley, and which one that is, is luck: many short
// climbs find the best more often than a long one, and those that roam end in fewer valleys than those that do not. The best of
// them are mended. With many jobs a short climb gets nowhere, nor does one that does not roam; with very few, decoding is
// so quick that what forecasts do not see is all that matters. With many, what is decided while it is still warm tells the climbs
// apart, so they meet halfway, and all go on from the best.
func crewOf(jobs int) crew {
	late := meetings{climb: []int{21}, settle: 1, keep: 1}
	switch {
	case jobs <= veryFew:
		return crew{climbers: 16, heat: 2, cold: 16, still: 16, meetings: late}
	case jobs <= 80:
		return crew{climbers: 32, mends: true, heat: 3, cold: 24, still: 96, meetings: meetings{climb: []int{16}, settle: 4, keep: 6}}
	case jobs <= 160:
		return crew{climbers: 8, roams: true, heat: 3, cold: 24, still: 96, meetings: late}
	case jobs <= 320:
		return crew{climbers: 4, roams: true, heat: 3, cold: 24, still: 96, meetings: late}
	default:
		return crew{climbers: 2, roams: true, heat: 4, cold: 24, still: 96, meetings: meetings{climb: []int{12, 23}, settle: 1, keep: 1}}
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
