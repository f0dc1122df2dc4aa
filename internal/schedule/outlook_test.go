package schedule

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// What a change is forecast to cost more is the difference of two forecasts made from nothing; past the limit it is said to be
// past it, and never said to be more than it is.
func TestRiseIsTheDifferenceOfForecasts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		m := newModel(p)
		c := newClimber(m, newArcs(m), rand.New(rand.NewPCG(uint64(d(0, 1000)), 0)), anyOrder(d, p, true), crew{roams: true, heat: 3, cold: 24, still: 96})
		fresh := newOutlook(m, c.outlook.arcs)
		fresh.legs = c.outlook.legs // with the turns
		for range 10 {
			fresh.lay(c.rows)
			before := fresh.sum
			if before != c.outlook.sum || !slices.EqualFunc(fresh.marks, c.outlook.marks, slices.Equal[[]mark]) {
				t.Fatalf("the forecast kept is %d, %+v, made anew %d, %+v", c.outlook.sum, c.outlook.marks, before, fresh.marks)
			}
			if !c.change() { // keeps the change; its rows before are saved
				continue
			}
			fresh.lay(c.rows)
			is := fresh.sum - before
			old := newOutlook(m, c.outlook.arcs)
			old.legs = fresh.legs
			was := copyOrder(nil, c.rows)
			for _, i := range c.dirty {
				was[i] = append([]int(nil), c.saved[i]...)
			}
			old.lay(was)
			var exact int64
			for _, i := range c.dirty {
				exact += old.rise(i, was[i], c.rows[i], math.MaxInt64)
			}
			if exact != is {
				t.Fatalf("%v to %v: forecast to cost %d more, it is %d", was, c.rows, exact, is)
			}
			for _, i := range c.dirty {
				full := old.rise(i, was[i], c.rows[i], math.MaxInt64)
				limit := int64(d(-2000, 2000))
				got := old.rise(i, was[i], c.rows[i], limit)
				if got > full || (got > limit) != (full > limit) {
					t.Fatalf("row %d: with the limit %d it is %d, without %d", i, limit, got, full)
				}
			}
		}
	})
}

// What a job adds to a row, in set-ups and in all, is the difference of two forecasts made from nothing.
func TestJoiningARowIsTheDifferenceOfForecasts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		m := newModel(p)
		o := newOutlook(m, newArcs(m).copy())
		order := anyOrder(d, p, true)
		i := d(0, len(order)-1)
		for at, j := range order[i] {
			row := slices.Concat(order[i][:at], order[i][at+1:])
			place := d(0, len(row))
			with := slices.Insert(slices.Clone(row), place, j)
			before, after := o.walk(i, row, make([]mark, 1)), o.walk(i, with, make([]mark, 1))
			full := last(after).price - last(before).price
			if got := o.joins(i, row, before, place, j, math.MaxInt64); got != full {
				t.Fatalf("%d joins %v at %d: forecast to cost %d more, it is %d", j, row, place, got, full)
			}
			limit := int64(d(-2000, 2000))
			if got := o.joins(i, row, before, place, j, limit); got > full || (got > limit) != (full > limit) {
				t.Fatalf("%d joins %v at %d: with the limit %d it is %d, without %d", j, row, place, limit, got, full)
			}
			var setups Time
			for n := range with {
				setups += after[n+1].setup
			}
			for n := range row {
				setups -= before[n+1].setup
			}
			if got := o.insertion(i, row, before, place, j); got != setups {
				t.Fatalf("%d joins %v at %d: adds %d of set-ups, it is %d", j, row, place, got, setups)
			}
		}
	})
}

// No plan of an order undercuts the forecast with the least set-ups, and decoding with a limit tells the same as without.
func TestForecastWithLeastSetupsIsALowerBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		m := newModel(p)
		floor := newFloor(m, newArcs(m))
		order := anyOrder(d, p, true)
		floor.lay(order)
		dec := newDecoder(m)
		cost := dec.decode(order, nil)
		if cost.Unplaced == 0 && floor.sum > cost.Total {
			t.Fatalf("%v: forecast %d, it costs %+v", order, floor.sum, cost)
		}
		bar := cost
		bar.Total += int64(d(-3000, 3000))
		got, ok := dec.within(order, &floor, bar)
		if want := !bar.Less(cost) && (cost.Unplaced == 0 || bar.Unplaced > 0); ok != want || ok && got != cost {
			t.Fatalf("within %+v: %+v, %v; it costs %+v", bar, got, ok, cost)
		}
	})
}
