package schedule

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// grounds are the kinds of problem that are priced without the decoder.
var grounds = []struct {
	name string
	draw func(d dice, jobs int) *Problem
}{
	{"*schedule.tour", func(d dice, jobs int) *Problem {
		s := shape{jobs: jobs, machines: 1, closing: d(0, 1) == 0, before: d(0, 4)}
		return atOnce(s.draw(d), Weights{Setup: 3, Makespan: int64(d(0, 2))})
	}},
	{"*schedule.tardiness", func(d dice, jobs int) *Problem {
		p := atOnce(shape{jobs: jobs, machines: 1}.draw(d), Weights{Late: 2, Setup: int64(d(0, 3))})
		for j := range p.Jobs {
			p.Jobs[j].Due = Time(d(-50, 150*jobs))
		}
		return p
	}},
	{"*schedule.spread", func(d dice, jobs int) *Problem {
		return atOnce(shape{jobs: jobs, machines: d(2, 3)}.draw(d), Weights{Makespan: 2})
	}},
	{"*schedule.rackful", func(d dice, jobs int) *Problem {
		s := shape{jobs: jobs, machines: 1, closing: d(0, 1) == 0, places: 4}
		p := atOnce(s.draw(d), Weights{Setup: 2, Makespan: 1})
		if p.Racks[0].Places == 0 {
			p.Racks[0] = Rack{Places: 1, Load: 3, Needs: make([][]int, jobs)}
		}
		return p
	}},
}

// atOnce releases all jobs at once and lets no job be late.
func atOnce(p *Problem, w Weights) *Problem {
	for j := range p.Jobs {
		p.Jobs[j].Release, p.Jobs[j].Due = 0, Forever
	}
	p.Weights = w
	return p
}

// After every step the order is proper and costs what the decoder says; a step that does not stay changes nothing.
func TestGroundsPriceAsTheDecoder(t *testing.T) {
	for _, kind := range grounds {
		t.Run(kind.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				d := rapidDice(t)
				p := kind.draw(d, d(2, 12))
				if err := p.Check(); err != nil {
					t.Fatal(err)
				}
				start := anyOrder(d, p, false)
				g := newGround(newModel(p))
				if got := fmt.Sprintf("%T", g); got != kind.name {
					t.Fatalf("the ground is %s", got)
				}
				g.set(start)
				base := Decode(p, start).Cost.Total - g.total()
				rng := rand.New(rand.NewPCG(uint64(d(0, 1000)), 0))
				for range 20 {
					text, was := orderText(g.order()), g.total()
					stays := g.step(rng, int64(d(0, 3))*50*one)
					if !stays && (orderText(g.order()) != text || g.total() != was) {
						t.Fatalf("a step that does not stay gives %v at %d, was %s at %d", g.order(), g.total(), text, was)
					}
					order := g.order()
					if err := p.CheckOrder(order); err != nil {
						t.Fatal(err)
					}
					if cost := Decode(p, order).Cost; cost.Unplaced > 0 || cost.Total != base+g.total() {
						t.Fatalf("order %v costs %+v, priced %d", order, cost, base+g.total())
					}
				}
			})
		})
	}
}

// On small problems of each kind the search finds the best of all orders.
func TestGroundsLeadToTheBestOfAll(t *testing.T) {
	for _, kind := range grounds {
		t.Run(kind.name, func(t *testing.T) {
			for seed := range uint64(30) {
				d := seededDice(seed)
				p := kind.draw(d, d(2, 6))
				var best *Cost
				dec := newDecoder(newModel(p))
				every(p, func(o Order) {
					if c := dec.decode(o, nil); best == nil || c.Less(*best) {
						best = &c
					}
				})
				r := Search(context.Background(), p, nil, Options{Seed: seed, Iterations: 8000})
				if got, err := Evaluate(p, r.Order, r.Plan); err != nil || best.Less(got) {
					t.Errorf("seed %d: found %+v (%v), best of all %+v", seed, got, err, *best)
				}
			}
		})
	}
}

// The heat falls from the first to the last and never rises.
func TestHeatFalls(t *testing.T) {
	last := int64(900 * one)
	for part := range int64(one + 1) {
		now := cool(900*one, 3*one, part)
		if now > last {
			t.Fatalf("%d after %d at %d", now, last, part)
		}
		last = now
	}
	if first := cool(900*one, 3*one, 0); first < 890*one || first > 900*one || last < 2*one || last > 3*one+10 {
		t.Errorf("from %d to %d", first/one, last/one)
	}
	if cool(0, 0, 5) != 0 {
		t.Error("no heat is no heat")
	}
}
