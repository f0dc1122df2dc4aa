package schedule

import (
	"math/bits"
	"testing"
)

// rackOrders goes through all orders of the jobs of one machine and its rack. It counts the sets to be brought in the way of
// C. S. Tang and E. V. Denardo, Models Arising from a Flexible Manufacturing Machine, Part I, Operations Research 36 (1988)
// 767–777: whenever a place is needed, those sets are kept that are needed soonest. It takes nothing from the program.
type rackOrders struct {
	*Problem
	needs []uint // of each job: its sets, a bit a set
	order []int
	best  Time
}

// leastLoading is the least of set-ups and loading over all orders.
func leastLoading(p *Problem) Time {
	e := &rackOrders{Problem: p, best: Forever}
	for _, sets := range p.Racks[0].Needs {
		var need uint
		for _, x := range sets {
			need |= 1 << x
		}
		e.needs = append(e.needs, need)
	}
	e.next(0, 0)
	return e.best
}

// next goes on with every job that is not yet in the order; the set-ups so far are given.
func (e *rackOrders) next(done uint, setups Time) {
	n := len(e.Jobs)
	if len(e.order) == n {
		brought := e.brought()
		dear := brought - min(brought, e.Racks[0].Places) // the first ones find places empty
		e.best = min(e.best, setups+Time(dear)*e.Racks[0].Load)
		return
	}
	from := n
	if len(e.order) > 0 {
		from = e.order[len(e.order)-1]
	}
	for to := range n {
		if done>>to&1 == 0 {
			e.order = append(e.order, to)
			e.next(done|1<<to, setups+e.Setup[0][from][to])
			e.order = e.order[:len(e.order)-1]
		}
	}
}

// brought counts the sets that are brought in all.
func (e *rackOrders) brought() int {
	rack, count := uint(0), 0
	for i, j := range e.order {
		missing := e.needs[j] &^ rack
		count += bits.OnesCount(missing)
		rack = e.soonest(rack, i)
	}
	return count
}

// soonest is what the rack holds during the job at a place of the order: what that needs, and of what it held before as many
// as find room, those first that are needed soonest.
func (e *rackOrders) soonest(before uint, place int) uint {
	rack := e.needs[e.order[place]]
	for later := place + 1; later < len(e.order); later++ {
		for wish := e.needs[e.order[later]] & before &^ rack; wish != 0; wish &= wish - 1 {
			if bits.OnesCount(rack) == e.Racks[0].Places {
				return rack
			}
			rack |= wish & -wish
		}
	}
	return rack
}

// rackJobs is eight jobs on one machine with a rack; without set-ups, as the published instances have it, or with some.
func rackJobs(d dice, setups bool) *Problem {
	p := rawJobs(d, 8, 1, 9)
	if !setups {
		for _, row := range p.Setup[0] {
			clear(row)
		}
	}
	places := d(3, 6)
	p.Racks = []Rack{{Places: places, Load: 5, Needs: needsOf(d, 8, 10, places)}}
	p.Weights.Setup = 1000
	return p
}

// The count itself, on the textbook reference string of TestLoads.
func TestRackOrdersCount(t *testing.T) {
	e := &rackOrders{Problem: &Problem{Racks: []Rack{{Places: 3}}}}
	for i, page := range []int{7, 0, 1, 2, 0, 3, 0, 4, 2, 3, 0, 3, 2, 1, 2, 0, 1, 7, 0, 1} {
		e.needs, e.order = append(e.needs, 1<<page), append(e.order, i)
	}
	if got := e.brought(); got != 9 {
		t.Errorf("%d sets are brought; the textbook has 9", got)
	}
}

// Where jobs need several sets of a rack at once, the search finds the best of all 40 320 orders.
func TestSearchFindsTheLeastLoading(t *testing.T) {
	dear := 0
	for seed := range uint64(30) {
		p := rackJobs(seededDice(seed), seed%3 == 0)
		want := leastLoading(p)
		if got := found(t, p, 16_000); got.Setup != want {
			t.Errorf("seed %d: found %d, the least is %d", seed, got.Setup, want)
		}
		if want > 0 {
			dear++
		}
	}
	if dear < 15 {
		t.Errorf("only %d of 30 problems need a full rack to be changed", dear)
	}
}
