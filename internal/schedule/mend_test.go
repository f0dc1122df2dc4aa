package schedule

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// While two machines are reheated the others keep their rows, whatever is tried; a change that would reach them leaves all rows as
// they were.
func TestFrozenMachinesKeepTheirRows(t *testing.T) {
	changed := 0
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := day(d(4, 30), d(1, 5), 12, uint64(d(0, 1000)))
		m := newModel(p)
		c := newClimber(m, newArcs(m), rand.New(rand.NewPCG(uint64(d(0, 1000)), 0)), Construct(p), crew{heat: 3, cold: 24, still: 96})
		c.reheat(reheated)
		melting := 0
		for i := range c.rows {
			if c.melts(i) {
				melting++
			}
		}
		if melting != min(reheated, len(c.rows)) {
			t.Fatalf("%d of %d machines are reheated", melting, len(c.rows))
		}
		for range 50 {
			before := c.rows.Clone()
			if !c.attempt() {
				if orderText(c.rows) != orderText(before) {
					t.Fatalf("an attempt that came to nothing made %s of %s", orderText(c.rows), orderText(before))
				}
				continue
			}
			changed++
			c.keep()
			for i, row := range c.rows {
				if !c.melts(i) && !slices.Equal(row, before[i]) {
					t.Fatalf("frozen machine %d went from %v to %v", i, before[i], row)
				}
			}
		}
	})
	if changed == 0 {
		t.Error("no attempt changed anything")
	}
}

// Mending ends no dearer than it began, with all machines free again, and what it says it costs is what decoding says.
func TestMendingNeverEndsDearer(t *testing.T) {
	better := 0
	for seed := range uint64(10) {
		p := day(30, 4, 14, seed)
		m := newModel(p)
		c := newClimber(m, newArcs(m), rand.New(rand.NewPCG(seed, 0)), Construct(p), crew{mends: true, heat: 3, cold: 24, still: 96})
		order, before := c.best()
		c.from(order.Clone(), before)
		c.settle(context.Background(), until(part(0, 3*mended), one), func() {})
		order, cost := c.best()
		if before.Less(cost) || newDecoder(m).decode(order, nil) != cost {
			t.Errorf("seed %d: %v became %v, decoding says %v", seed, before, cost, newDecoder(m).decode(order, nil))
		}
		if cost.Less(before) {
			better++
		}
		for i := range c.rows {
			if !c.melts(i) {
				t.Errorf("seed %d: machine %d is still frozen", seed, i)
			}
		}
	}
	if better < 8 {
		t.Errorf("an order by the rules became cheaper %d times of 10", better)
	}
}
