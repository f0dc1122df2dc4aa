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

// searched is what a search finds, held to the slow definition of cost, and the best by the decoder's rules that it says to have found on
// the way.
func searched(t *testing.T, p *Problem, o Options) (found *Plan, byRules Cost) {
	t.Helper()
	var told []Cost
	o.Progress = func(now Progress) { told = append(told, now.Best) }
	r := Search(context.Background(), p, nil, o)
	if got, err := Evaluate(p, r.Order, r.Plan); err != nil || got != r.Plan.Cost {
		t.Errorf("found %+v; by the definition %+v (%v)", r.Plan.Cost, got, err)
	}
	return r.Plan, told[len(told)-2]
}

// On 200 small shops the search finds the best of all orders by the decoder's rules, counted by the slow definition of cost; the plan
// that it returns is no dearer, and in the mean it is a good deal cheaper.
func TestSearchIsExactOnSmallShops(t *testing.T) {
	unplaced, built, saved, placed := 0, 0, 0, 0
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
		found, byRules := searched(t, p, Options{Seed: seed, Iterations: 4000 * jobs})
		if byRules.Compare(best) != 0 || best.Less(found.Cost) {
			t.Errorf("seed %d, %d jobs: found %+v, by the rules %+v, best of all orders %+v", seed, jobs, found.Cost, byRules, best)
		}
		if found.Cost.Unplaced == 0 && Bound(p) > found.Cost.Setup {
			t.Errorf("seed %d: set-ups of %d s, bound %d s", seed, found.Cost.Setup, Bound(p))
		}
		unplaced += best.Unplaced
		built += len(found.Builds)
		if found.Cost.Less(best) {
			saved++
		}
		if found.Cost.Unplaced < best.Unplaced {
			placed++
		}
	}
	t.Logf("%d of 200 plans are cheaper than the rules make any order; in %d of them a job finds a place that had none", saved, placed)
	if built < 50 || unplaced == 0 || saved < 50 {
		t.Errorf("%d builds, %d jobs without a place, %d plans refined: too tame to prove anything", built, unplaced, saved)
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
		found, byRules := searched(t, p, Options{Seed: seed, Iterations: 60_000})
		if byRules.Compare(best) != 0 || best.Less(found.Cost) {
			t.Errorf("seed %d: found %+v, by the rules %+v, best of all orders %+v", seed, found.Cost, byRules, best)
		}
	}
}

// On 200 tiny shops the search finds the best of all plans: of every order, every way to get the tools at every station, every place of
// every guide, waits for sets and every sequence at the bench.
func TestSearchFindsTheBestOfAllPlans(t *testing.T) {
	var g shortfall
	for seed := range uint64(200) {
		p := tinyShop(seed)
		found, _ := searched(t, p, Options{Seed: seed, Iterations: 4000 * len(p.Jobs)})
		best := bestPlan(t, p, found.Cost)
		if best == nil || found.Cost.Less(best.Cost) {
			t.Fatalf("seed %d: found %+v, and no plan of all plans is as cheap", seed, found.Cost)
		}
		if g.add(seed, found.Cost, best); found.Cost.Compare(best.Cost) != 0 {
			t.Logf("seed %d: found %+v, best of all plans %+v", seed, found.Cost, best.Cost)
		}
	}
	if g.equal < 199 || g.left > 0 {
		t.Errorf("the best of all plans in only %d of %d shops", g.equal, g.shops)
	}
}
