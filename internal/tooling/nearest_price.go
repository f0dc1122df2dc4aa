package tooling

import (
	"slices"
	"time"

	"foldwright/internal/units"
)

// prices prices edits towards a pattern of so many tools. A slide costs at most a removal and an addition, so pairing one
// more tool never costs more.
type prices struct {
	EditCost
	wanted int
}

func newPrices(cost EditCost, wanted int) prices {
	cost.Slide = min(cost.Slide, cost.Remove+cost.Add)
	return prices{cost, wanted}
}

// edit prices a set of so many tools of which so many are paired and of these so many kept.
func (p prices) edit(tools, pairs, kept int) time.Duration {
	return time.Duration(tools-pairs)*p.Remove + time.Duration(p.wanted-pairs)*p.Add +
		time.Duration(pairs-min(pairs, kept))*p.Slide
}

// least is the exact cost of a set: that of as many tools kept as any set keeps, or less at a shift that brings more into
// place. The best shift is the lowest at which some tool is in its place.
func (q *query) least(set int32, pairs int) time.Duration {
	types, at := q.r.kinds(set), q.r.places(set)
	least := q.prices.edit(len(at), pairs, q.always)
	for i, h := range at {
		for j, w := range q.want {
			shifts := reach(w.At, h, q.tolerance).Meet(q.shifts)
			if types[i] != q.types[j] || shifts.Empty() {
				continue
			}
			if kept := q.inPlace(types, at, shifts.Lo); kept > q.always && q.prices.edit(len(at), pairs, kept) < least {
				least = min(least, q.at(types, at, shifts.Lo))
			}
		}
	}
	return least
}

// inPlace counts the wanted tools that a tool of their type stands in place for.
func (q *query) inPlace(types []typeNumber, at []units.Length, shift units.Length) int {
	count, from := 0, 0
	for j, w := range q.want {
		for from < len(at) && reach(w.At, at[from], q.tolerance).Hi < shift {
			from++
		}
		for i := from; i < len(at) && reach(w.At, at[i], q.tolerance).Lo <= shift; i++ {
			if types[i] == q.types[j] {
				count++
				break
			}
		}
	}
	return count
}

// at is the least cost at one shift, by the same table as dealing but row by row and without a way back.
func (q *query) at(types []typeNumber, at []units.Length, shift units.Length) time.Duration {
	row := q.row
	for j := range row {
		row[j] = time.Duration(j) * q.prices.Add
	}
	for i, h := range at {
		corner := row[0]
		row[0] += q.prices.Remove
		for j, w := range q.want {
			least := min(row[j+1]+q.prices.Remove, row[j]+q.prices.Add)
			if types[i] == q.types[j] {
				pair := corner
				if !reach(w.At, h, q.tolerance).Has(shift) {
					pair += q.prices.Slide
				}
				least = min(least, pair)
			}
			corner, row[j+1] = row[j+1], least
		}
	}
	return row[len(q.want)]
}

// parts divides the wanted tools into fewer and fewer parts.
type parts struct {
	q     *query
	part  []int    // of each wanted tool
	pairs [][]pair // pairs[j][i] is the pair of wanted tools i < j
}

// pair is two wanted tools and where in the rack their spacing occurs.
type pair struct {
	left, right int
	spacings    []spacing
}

func newParts(q *query) *parts {
	p := &parts{q: q, part: make([]int, len(q.want)), pairs: make([][]pair, len(q.want))}
	for j, right := range q.want {
		p.part[j] = j
		for i, left := range q.want[:j] {
			list := q.r.apart(typePair{q.types[i], q.types[j]}, right.At-left.At, q.tolerance)
			p.pairs[j] = append(p.pairs[j], pair{i, j, list})
		}
	}
	return p
}

// join makes one part of two, those whose pairs occur least often, and returns the pairs between them.
func (p *parts) join() []pair {
	into, from, least := 0, 0, -1
	for b := range p.part {
		for a := range b {
			if n := p.count(a, b); n >= 0 && (least < 0 || n < least) {
				into, from, least = a, b, n
			}
		}
	}
	list := p.between(into, from)
	for i := range p.part {
		if p.part[i] == from {
			p.part[i] = into
		}
	}
	slices.SortStableFunc(list, func(a, b pair) int { return len(a.spacings) - len(b.spacings) })
	return list
}

// count is how often the pairs between two parts occur; -1 when one of them is no part any more.
func (p *parts) count(a, b int) int {
	list := p.between(a, b)
	if list == nil {
		return -1
	}
	n := 0
	for _, x := range list {
		n += len(x.spacings)
	}
	return n
}

func (p *parts) between(a, b int) []pair {
	var list []pair
	for j := range p.part {
		for i := range j {
			if p.part[i] == a && p.part[j] == b || p.part[i] == b && p.part[j] == a {
				list = append(list, p.pairs[j][i])
			}
		}
	}
	return list
}
