package tooling

import (
	"slices"
	"time"

	"foldwright/internal/units"
)

// EditCost is what it takes to change one tool on a pair of shafts. A slide that costs more than taking the tool off and
// fitting one anew is never chosen.
type EditCost struct{ Remove, Add, Slide time.Duration }

// Edit is the work that makes one pattern of another.
type Edit struct {
	Remove, Add, Slide, Keep int
	Shift                    units.Length // the tools end up at the wanted positions + Shift
	Time                     time.Duration
}

// Do is what is done to one tool.
type Do uint8

const (
	Keeping  Do = iota // it stands within half the tolerance of its place
	Sliding            // it is loosened, slid along the shaft and locked again
	Removing           // it comes off
	Adding             // it is fitted anew
)

// Change is what happens to one tool; From says where it stands (not when it is added), To where it comes (not when it
// is removed).
type Change struct {
	Do       Do
	Type     Type
	From, To units.Length
}

// Convert tells the cheapest way to make of have what serves want with the sheet shifted as suits best; among equally
// cheap ones the one that touches the fewest tools, then the one whose shift is nearest to none.
//
// Tools on a shaft cannot pass one another, so those that are kept or slid stay in their order; a tool that would have to
// pass is taken off and fitted anew. Whether outer tools are in the way of inner ones is not asked: hubs are taken to be
// split (common practice, no source). Both patterns must be of one class; a shaft is never changed.
//
// The answer is exact. It costs O(n²) shifts of O(n²) steps each for n tools, some microseconds for six.
func Convert(have, want Pattern, cost EditCost, tolerance units.Length) Edit {
	return ConvertWithin(have, want, cost, tolerance, Anywhere)
}

// ConvertWithin is Convert with the shift kept within a window, which must not be empty; the window of zero alone asks for
// the wanted positions themselves.
func ConvertWithin(have, want Pattern, cost EditCost, tolerance units.Length, shifts Window) Edit {
	d := dealing{cost: cost, tolerance: tolerance}
	best := Edit{Time: -1}
	for _, shift := range candidateShifts(have.Tools, want.Tools, tolerance, shifts) {
		if e := d.at(have.Tools, want.Tools, shift); best.Time < 0 || better(e, best) {
			best = e
		}
	}
	return best
}

// Changes lists what is done to each tool when the tools shall end up at the wanted positions + shift: the details of an
// [Edit], in order along the shaft.
func Changes(have, want Pattern, cost EditCost, tolerance, shift units.Length) []Change {
	d := dealing{cost: cost, tolerance: tolerance}
	d.fill(have.Tools, want.Tools, shift)
	return d.changes(have.Tools, want.Tools, shift)
}

// better compares two edits as the doc of Convert says; the last resort makes the answer unique.
func better(a, b Edit) bool {
	if a.Time != b.Time {
		return a.Time < b.Time
	}
	if x, y := a.touched(), b.touched(); x != y {
		return x < y
	}
	if x, y := abs(a.Shift), abs(b.Shift); x != y {
		return x < y
	}
	return a.Shift < b.Shift
}

func (e Edit) touched() int { return e.Remove + e.Add + e.Slide }

func abs(l units.Length) units.Length { return max(l, -l) }

// candidateShifts lists the shifts among which a best one lies. Moving the sheet changes the cost only where a tool comes
// into its place or leaves it, and the places are closed: so the best shift nearest to none is none itself, or an end of
// a tool's reach, or an end of the window.
func candidateShifts(have, want []Tool, tolerance units.Length, shifts Window) []units.Length {
	list := []units.Length{shifts.Nearest(0)}
	for _, h := range have {
		for _, w := range want {
			if h.Type != w.Type {
				continue
			}
			r := reach(w.At, h.At, tolerance).Meet(shifts)
			if !r.Empty() {
				list = append(list, r.Lo, r.Hi)
			}
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// dealing pairs the tools that stand with those that are wanted, by the usual table of best beginnings: cell (i, j) is
// the least price of making the first j wanted tools of the first i that stand.
type dealing struct {
	cost      EditCost
	tolerance units.Length
	table     []price
	width     int
}

// price is time first, then the number of tools touched.
type price struct {
	time    time.Duration
	touched int
}

func (p price) plus(t time.Duration) price { return price{p.time + t, p.touched + 1} }

func (p price) less(q price) bool {
	return p.time < q.time || p.time == q.time && p.touched < q.touched
}

// at gives the best edit at one shift.
func (d *dealing) at(have, want []Tool, shift units.Length) Edit {
	d.fill(have, want, shift)
	e := Edit{Shift: shift, Time: d.table[len(d.table)-1].time}
	d.walk(have, want, shift, func(do Do, _, _ int) {
		switch do {
		case Keeping:
			e.Keep++
		case Sliding:
			e.Slide++
		case Removing:
			e.Remove++
		case Adding:
			e.Add++
		}
	})
	return e
}

func (d *dealing) fill(have, want []Tool, shift units.Length) {
	d.width = len(want) + 1
	d.table = slices.Grow(d.table[:0], d.width*(len(have)+1))[:d.width*(len(have)+1)]
	for i := range len(have) + 1 {
		for j := range len(want) + 1 {
			d.table[i*d.width+j] = d.least(have, want, shift, i, j)
		}
	}
}

func (d *dealing) least(have, want []Tool, shift units.Length, i, j int) price {
	if i == 0 && j == 0 {
		return price{}
	}
	best := price{time: 1<<63 - 1}
	if i > 0 {
		best = d.cell(i-1, j).plus(d.cost.Remove)
	}
	if j > 0 {
		if p := d.cell(i, j-1).plus(d.cost.Add); p.less(best) {
			best = p
		}
	}
	if i > 0 && j > 0 {
		if p, ok := d.paired(have[i-1], want[j-1], shift, d.cell(i-1, j-1)); ok && p.less(best) {
			best = p
		}
	}
	return best
}

func (d *dealing) cell(i, j int) price { return d.table[i*d.width+j] }

// paired is the price when tool h serves wanted tool w: nothing when it stands in place, a slide otherwise.
func (d *dealing) paired(h, w Tool, shift units.Length, before price) (price, bool) {
	if h.Type != w.Type {
		return price{}, false
	}
	if reach(w.At, h.At, d.tolerance).Has(shift) {
		return before, true
	}
	return before.plus(d.cost.Slide), true
}

// walk goes the best way through the table backwards and names each thing done with the numbers of the tool that stands
// and of the wanted one. Where ways are equal it pairs rather than removes, and removes rather than adds.
func (d *dealing) walk(have, want []Tool, shift units.Length, done func(do Do, i, j int)) {
	for i, j := len(have), len(want); i > 0 || j > 0; {
		here := d.cell(i, j)
		if i > 0 && j > 0 {
			before := d.cell(i-1, j-1)
			if p, ok := d.paired(have[i-1], want[j-1], shift, before); ok && p == here {
				i, j = i-1, j-1
				if p == before {
					done(Keeping, i, j)
				} else {
					done(Sliding, i, j)
				}
				continue
			}
		}
		if i > 0 && d.cell(i-1, j).plus(d.cost.Remove) == here {
			i--
			done(Removing, i, j)
			continue
		}
		j--
		done(Adding, i, j)
	}
}

func (d *dealing) changes(have, want []Tool, shift units.Length) []Change {
	var list []Change
	d.walk(have, want, shift, func(do Do, i, j int) {
		c := Change{Do: do}
		if do != Adding {
			c.Type, c.From = have[i].Type, have[i].At
		}
		if do != Removing {
			c.Type, c.To = want[j].Type, want[j].At+shift
		}
		if do == Keeping {
			c.To = c.From
		}
		list = append(list, c)
	})
	slices.Reverse(list)
	return list
}
