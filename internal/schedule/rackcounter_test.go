package schedule

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// Both counters bring what the plain rule brings (see TestLoadsIsTheRule) and weigh one another's rows the same, whether
// they go through the whole row or only through what has changed.
func TestRackCountersCountAsTheRule(t *testing.T) {
	for seed := range uint64(60) {
		d := seededDice(seed)
		jobs, places := d(2, 90), d(2, 14)
		needs := needsOf(d, jobs, d(3, 40), places)
		rows, sets := numbered(needs)
		bits, count := newRackBits(places, rows, sets), newRackCount(places, rows, sets)
		rng := rand.New(rand.NewPCG(seed, 0))
		kept := rng.Perm(jobs)
		bits.keep(kept, 0)
		count.keep(kept, 0)
		for range 40 {
			row := slices.Clone(kept)
			a := rng.IntN(jobs)
			b := a + rng.IntN(jobs-a)
			slices.Reverse(row[a : b+1])
			if !bits.try(row, a, b, Forever) || !count.try(row, a, b, Forever) {
				t.Fatalf("seed %d: a row weighs more than anything", seed)
			}
			var ordered [][]int
			for _, j := range row {
				ordered = append(ordered, needs[j])
			}
			if want := ruleLoads(ordered, places); bits.sum().loads != want || bits.sum() != count.sum() {
				t.Fatalf("seed %d, turned from %d to %d: %+v and %+v, the rule gives %d", seed, a, b, bits.sum(), count.sum(), want)
			}
			if rng.IntN(2) == 0 {
				kept = row
				bits.keep(row, a)
				count.keep(row, a)
			}
		}
	}
}

// What is let pass weighs no more than it may; what weighs a load less than it may is let pass, unless more loads are brought.
func TestRackCountersHoldToTheMost(t *testing.T) {
	for seed := range uint64(200) {
		d := seededDice(seed)
		jobs, places := d(2, 40), d(2, 14)
		rows, sets := numbered(needsOf(d, jobs, d(3, 40), places))
		for name, c := range map[string]rackCounter{"bits": newRackBits(places, rows, sets), "count": newRackCount(places, rows, sets)} {
			rng := rand.New(rand.NewPCG(seed, 1))
			row := rng.Perm(jobs)
			c.keep(row, 0)
			was := c.sum()
			a := rng.IntN(jobs)
			b := a + rng.IntN(jobs-a)
			slices.Reverse(row[a : b+1])
			c.try(row, a, b, Forever)
			weighs := c.sum()
			for over := range 5 {
				most := was.weight() + int64(over-2)*loadWeight/2
				passes := c.try(row, a, b, most)
				if passes && weighs.weight() > most {
					t.Errorf("seed %d, %s: %+v passes at %d", seed, name, weighs, most)
				}
				if !passes && weighs.weight() <= most && weighs.open >= was.open {
					t.Errorf("seed %d, %s: %+v does not pass at %d", seed, name, weighs, most)
				}
			}
		}
	}
}

// More than 64 sets are counted as well.
func TestRackCounterByTheSets(t *testing.T) {
	for sets, want := range map[int]bool{64: true, 65: false} {
		r := &Rack{Places: 1}
		for x := range sets {
			r.Needs = append(r.Needs, []int{1000 * x})
		}
		c := newRackCounter(r, sets)
		if _, got := c.(*rackBits); got != want {
			t.Errorf("%d sets: a bit a set is %v", sets, got)
		}
		row := rand.New(rand.NewPCG(1, 1)).Perm(sets)
		if c.keep(row, 0); c.sum() != (rackSum{loads: sets}) {
			t.Errorf("%d sets that are needed once: %+v", sets, c.sum())
		}
	}
}
