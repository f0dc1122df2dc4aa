package schedule

import (
	"context"
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync/atomic"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func orderText(o Order) string { return fmt.Sprint([][]int(o)) }

// On problems of up to six jobs the search finds the best of all orders.
func TestSearchFindsTheBestOfAll(t *testing.T) {
	for seed := range uint64(60) {
		d := seededDice(seed)
		s := anyShape(d)
		s.jobs, s.machines = d(2, 6), d(1, 2)
		p := s.draw(d)
		var best *Cost
		dec := newDecoder(newModel(p))
		every(p, func(o Order) {
			if c := dec.decode(o, nil); best == nil || c.Less(*best) {
				best = &c
			}
		})
		r := Search(context.Background(), p, nil, Options{Seed: seed, Iterations: 12_000})
		if best.Less(r.Plan.Cost) {
			t.Errorf("seed %d: found %+v, best of all %+v", seed, r.Plan.Cost, *best)
		}
	}
}

// Whatever the problem: the result is a proper order, its plan holds, it is no worse than the order given and than the
// constructed one, and fixed jobs stay where they are.
func TestSearchIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		given := anyOrder(d, p, true)
		was := orderText(given)
		r := Search(context.Background(), p, given, Options{Seed: uint64(d(0, 9)), Iterations: d(1, 300)})
		if _, err := Evaluate(p, r.Order, r.Plan); err != nil { // checks the order too, fixed jobs included
			t.Fatal(err)
		}
		if orderText(given) != was {
			t.Fatal("the search changed the order given")
		}
		for _, o := range []Order{given, Construct(p)} {
			if c := Decode(p, o).Cost; c.Less(r.Plan.Cost) {
				t.Fatalf("found %+v, began with %+v", r.Plan.Cost, c)
			}
		}
	})
}

// The order constructed is proper and holds.
func TestConstruct(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		order := Construct(p)
		if _, err := Evaluate(p, order, Decode(p, order)); err != nil {
			t.Fatal(err)
		}
	})
}

// A day that can be done is done, and the rules beat jobs in the order of their numbers by far.
func TestConstructPaysOnADay(t *testing.T) {
	for seed := range uint64(5) {
		p := day(60, 4, 25, seed)
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		given := Decode(p, anyOrder(seededDice(3), p, false)).Cost
		made := Decode(p, Construct(p)).Cost
		if made.Unplaced > 0 || made.Total*2 > given.Total {
			t.Errorf("seed %d: constructed %+v, by number %+v", seed, made, given)
		}
	}
}

// Same seed and iterations, same answer on one core and on two; another seed may find another.
func TestSearchRepeats(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		p := day(rapid.IntRange(2, 20).Draw(t, "jobs"), 3, 12, seed)
		o := Options{Seed: seed, Iterations: rapid.IntRange(1, 400).Draw(t, "iterations")}
		runtime.GOMAXPROCS(1)
		one := Search(context.Background(), p, nil, o)
		runtime.GOMAXPROCS(2)
		two := Search(context.Background(), p, nil, o)
		if diff := cmp.Diff(one, two); diff != "" {
			t.Fatal(diff)
		}
		if one.Iterations != o.Iterations {
			t.Fatalf("%d iterations, asked for %d", one.Iterations, o.Iterations)
		}
	})
}

// A longer day, searched deep enough that restarts happen, repeats too.
func TestLongSearchRepeats(t *testing.T) {
	p := day(25, 3, 14, 5)
	o := Options{Seed: 9, Iterations: 30_000}
	one := Search(context.Background(), p, nil, o)
	two := Search(context.Background(), p, nil, o)
	if diff := cmp.Diff(one, two); diff != "" || one.Restarts == 0 {
		t.Errorf("%d restarts\n%s", one.Restarts, diff)
	}
}

func TestSearchStopsWhenCancelled(t *testing.T) {
	p := day(20, 3, 12, 1)
	ctx, cancel := context.WithCancel(context.Background())
	var last Progress
	calls := 0
	r := Search(ctx, p, nil, Options{Progress: func(now Progress) {
		if calls++; now.Iterations < last.Iterations || calls > 1 && last.Best.Less(now.Best) {
			t.Errorf("progress went back from %+v to %+v", last, now)
		}
		last = now
		if calls == 12 {
			cancel()
		}
	}})
	if calls < 12 || last.Iterations != r.Iterations || last.Best != r.Plan.Cost || last.Restarts != r.Restarts {
		t.Errorf("last progress %+v after %d calls, result %d iterations, %+v", last, calls, r.Iterations, r.Plan.Cost)
	}
	cancelled, done := context.WithCancel(context.Background())
	done()
	if r := Search(cancelled, p, nil, Options{}); r.Plan.Cost.Unplaced > 0 || r.Iterations != 0 {
		t.Errorf("cancelled from the start: %d iterations, %+v", r.Iterations, r.Plan.Cost)
	}
}

func TestSearchOfNothing(t *testing.T) {
	for _, p := range []*Problem{{}, bare(0, Window{0, Forever}), bare(1, Window{0, Forever})} {
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		r := Search(context.Background(), p, nil, Options{Iterations: 100})
		if _, err := Evaluate(p, r.Order, r.Plan); err != nil {
			t.Error(err)
		}
	}
}

// Every move leaves a proper order and undo puts it back.
func TestMovesKeepTheOrder(t *testing.T) {
	for n, m := range moves {
		rapid.Check(t, func(t *rapid.T) {
			d := rapidDice(t)
			p := anyShape(d).draw(d)
			model := newModel(p)
			c := newClimber(model, newArcs(model), rand.New(rand.NewPCG(uint64(d(0, 1000)), 0)), anyOrder(d, p, true), crew{roams: true, heat: 3, cold: 24, still: 96})
			for range 5 {
				before := orderText(c.rows)
				c.begin()
				changed := m.try(c)
				if err := p.CheckOrder(c.rows); err != nil {
					t.Fatalf("move %d: %v", n, err)
				}
				if !changed && orderText(c.rows) != before {
					t.Fatalf("move %d changes %s into %s and does not say so", n, before, orderText(c.rows))
				}
				if d(0, 1) == 0 {
					c.undo()
					if orderText(c.rows) != before {
						t.Fatalf("move %d: undo gives %s, was %s", n, orderText(c.rows), before)
					}
				} else {
					c.keep()
				}
				for j := range p.Jobs {
					machine, place := c.find(j)
					if i, at, ok := c.lookUp(j); !ok || machine != i || place != at {
						t.Fatalf("move %d: job %d stands at %d of machine %d, remembered at %d of %d", n, j, at, i, place, machine)
					}
				}
			}
		})
	}
}

// So it does where rows are long, so that most changes stay about where they are; what is kept of the forecast is that made anew.
func TestMovesKeepALongOrder(t *testing.T) {
	p := day(150, 3, 20, 1)
	model := newModel(p)
	c := newClimber(model, newArcs(model), rand.New(rand.NewPCG(1, 0)), Construct(p), crew{roams: true, heat: 3, cold: 24, still: 96})
	fresh := newOutlook(model, c.outlook.arcs)
	fresh.legs = c.outlook.legs
	for n, m := range moves {
		changed := 0
		for range 300 {
			c.begin()
			if !m.try(c) {
				continue
			}
			if err := p.CheckOrder(c.rows); err != nil {
				t.Fatalf("move %d: %v", n, err)
			}
			c.keep()
			changed++
		}
		if fresh.lay(c.rows); fresh.sum != c.outlook.sum || !slices.EqualFunc(fresh.marks, c.outlook.marks, slices.Equal[[]mark]) {
			t.Errorf("move %d: the forecast kept is %d, made anew %d", n, c.outlook.sum, fresh.sum)
		}
		if changed < 30 {
			t.Errorf("move %d came to something %d times of 300", n, changed)
		}
	}
}

func TestSharesSumUp(t *testing.T) {
	sum := 0
	for _, m := range moves {
		sum += m.share
	}
	if sum != allShares {
		t.Errorf("shares sum up to %d, allShares is %d", sum, allShares)
	}
}

// Told how much of its time is used, the search cools with it and ends when it is used up.
func TestSearchCoolsWithItsTime(t *testing.T) {
	p := day(20, 3, 12, 1)
	var asked atomic.Int64
	r := Search(context.Background(), p, nil, Options{Seed: 1, Used: func() int { return int(asked.Add(1) / 2) }})
	crew := crewOf(len(p.Jobs))
	if r.Iterations < 10_000 || r.Iterations > 50_000 || r.Restarts != crew.rounds()-1 {
		t.Errorf("%d iterations and %d restarts in a time of 2000 askings, one in 16 iterations", r.Iterations, r.Restarts)
	}
	if c := Decode(p, Construct(p)).Cost; !r.Plan.Cost.Less(c) {
		t.Errorf("found %+v, began with %+v", r.Plan.Cost, c)
	}
}
