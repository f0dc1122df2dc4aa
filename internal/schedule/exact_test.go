package schedule

import (
	"context"
	"testing"
)

// smallShop is a shop's problem with all that a shop has, but small: two folders, sets in their stations and on the rack, a
// bench with its hours, shifts with breaks, due dates, guides, loose tools that may run short.
func smallShop(seed uint64, jobs int) *Problem {
	d := seededDice(seed)
	s := shape{
		jobs: jobs, machines: 2, stations: d(2, 4), classes: d(1, 2), patterns: 0, sets: 0, kinds: 2, people: d(1, 2),
		windows: d(0, 3) > 0, before: d(0, 2), fixed: d(0, 4) == 0, scarce: d(0, 2) == 0,
	}
	s.patterns, s.sets = s.classes+d(2, 5), s.stations+d(0, 4)
	return s.draw(d)
}

// bestOfAll is the least cost of all orders. Every so often an order's plan is held to the slow definition.
func bestOfAll(t *testing.T, p *Problem) Cost {
	t.Helper()
	d := NewDecoder(p)
	n, best := 0, Cost{Unplaced: len(p.Jobs) + 1}
	every(p, func(o Order) {
		cost := d.Cost(o)
		if n++; n%997 == 0 || cost.Less(best) {
			if got, err := Evaluate(p, o, d.Plan(o)); err != nil || got != cost {
				t.Fatalf("order %v is said to cost %+v; by the definition it costs %+v (%v)", o, cost, got, err)
			}
		}
		if cost.Less(best) {
			best = cost
		}
	})
	return best
}

// On 200 small shops the search finds the best of all orders, counted by the slow definition of cost.
func TestSearchIsExactOnSmallShops(t *testing.T) {
	unplaced, built := 0, 0
	for seed := range uint64(200) {
		jobs := 3 + int(seed%5)
		if seed%20 == 19 {
			jobs = 8
		}
		p := smallShop(seed, jobs)
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		best := bestOfAll(t, p)
		r := Search(context.Background(), p, nil, Options{Seed: seed, Iterations: 4000 * jobs})
		got, err := Evaluate(p, r.Order, r.Plan)
		if err != nil || got.Compare(best) != 0 {
			t.Errorf("seed %d, %d jobs: found %+v (%v), best of all orders %+v", seed, jobs, got, err, best)
		}
		if best.Unplaced == 0 && Bound(p) > got.Setup {
			t.Errorf("seed %d: set-ups of %d s, bound %d s", seed, got.Setup, Bound(p))
		}
		unplaced += best.Unplaced
		built += len(r.Plan.Builds)
	}
	if built < 50 || unplaced == 0 {
		t.Errorf("%d builds and %d jobs without a place: too tame to prove anything", built, unplaced)
	}
}

// So it does where make-ready has no price: only waits count, or only the end, of which forecasts know nothing, so it takes more orders.
func TestSearchIsExactWhereSetupsAreFree(t *testing.T) {
	for seed := range uint64(10) {
		p := smallShop(1000+seed, 5+int(seed%2))
		p.Weights = Weights{Wait: 1000}
		if seed%3 == 0 {
			p.Weights = Weights{Makespan: 1000}
		}
		best := bestOfAll(t, p)
		r := Search(context.Background(), p, nil, Options{Seed: seed, Iterations: 60_000})
		if got, err := Evaluate(p, r.Order, r.Plan); err != nil || got.Compare(best) != 0 {
			t.Errorf("seed %d: found %+v (%v), best of all orders %+v", seed, got, err, best)
		}
	}
}
