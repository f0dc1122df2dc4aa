package tooling

import (
	"cmp"
	"slices"
	"time"

	"foldwright/internal/units"
)

// query finds the sets that need the least work.
//
// What an edit costs hangs on three numbers only: the tools of the set, how many of them are paired with wanted ones, and
// how many of the pairs stand in place at one common shift ("kept"). So the search goes down by the number kept. Sets that
// keep at least k ≥ 2 tools show at least one wanted spacing between two of their tools; and if the wanted tools are
// divided into k − 1 parts, at least one such spacing within a part. It is enough to look up the spacings within parts:
// none at first, and two parts joined at every step down. When all sets that keep k have been priced, every other set
// costs at least what it would with k − 1 kept, which ends the search as soon as enough sets are found that cost no more.
//
// Where the sheet may be shifted at will, one tool can always be kept, so what is left costs what its types say. Where it
// may not, the sets that keep one tool are looked up by where their tools stand; the rest keep none.
type query struct {
	r         *rack
	want      []Tool
	types     []typeNumber
	prices    prices
	tolerance units.Length
	shifts    Window
	always    int // how many tools any set keeps that pairs one: 1 when the sheet may be shifted at will

	room   int
	best   []found
	seen   []bool // sets whose exact cost is known, or that serve
	ranges ranges // which numbers of tools and pairs occur
	paired pairings
	later  [][]waiting
	row    []time.Duration
	near   []units.Length
}

// waiting is a set whose turn has not come, with the least it can cost when one of its tools is kept for a wanted one.
type waiting struct {
	set          int32
	tool, wanted int16
	bound        time.Duration
}

// found is a set with its cost.
type found struct {
	set  int32
	time time.Duration
}

func newQuery(r *rack, want []Tool, cost EditCost, tolerance units.Length, shifts Window, room int) *query {
	q := &query{
		r: r, want: want, types: r.numbers(want), prices: newPrices(cost, len(want)), tolerance: tolerance,
		shifts: shifts,
		room:   room,
		seen:   make([]bool, len(r.sets)),
		paired: pairings{of: make([]int32, len(r.sequences))},
		later:  make([][]waiting, max(len(want), 1)+1),
		row:    make([]time.Duration, len(want)+1),
	}
	if shifts == Anywhere {
		q.always = 1
	}
	q.ranges = newRanges(q)
	return q
}

func (q *query) run() {
	q.r.alike(q.want, q.tolerance, func(set int32, shift Window) { q.seen[set] = !shift.Meet(q.shifts).Empty() })
	parts := newParts(q)
	for kept := len(q.want); kept >= 2; kept-- {
		floor := q.floor(kept)
		q.priceLater(kept)
		for _, p := range parts.join() {
			if q.enough(floor) {
				return
			}
			q.lookUp(p, kept, floor)
		}
		q.priceLater(kept)
	}
	if q.always < 1 {
		q.lookUpStanding()
	}
	q.byTypes()
}

// enough tells whether the sets found are as good as any set that costs at least floor.
func (q *query) enough(floor time.Duration) bool {
	return len(q.best) == q.room && q.best[len(q.best)-1].time <= floor
}

// floor is the least that a set can cost that does not serve and keeps at most so many tools.
func (q *query) floor(kept int) time.Duration {
	least := time.Duration(1<<63 - 1)
	for _, c := range q.ranges.cells {
		least = min(least, q.bound(c.tools, c.pairs, kept))
	}
	return least
}

// bound is the least that a set of so many tools can cost that pairs and keeps at most so many and does not serve.
func (q *query) bound(tools, pairs, kept int) time.Duration {
	if tools == len(q.want) && pairs == tools && tools > 0 {
		kept = min(kept, tools-1)
	}
	return q.prices.edit(tools, pairs, kept)
}

// lookUp goes through the sets that show a wanted spacing. It prices those that may cost as little as any, and the first
// that come, to have something to compare with; the others wait until their turn comes.
func (q *query) lookUp(p pair, kept int, floor time.Duration) {
	for _, s := range p.spacings {
		if q.seen[s.set] || q.enough(q.bagBound(s.set, kept)) {
			continue
		}
		tools, pairs := q.r.tools(s.set), q.through(s, p)
		if q.enough(q.bound(tools, pairs, kept)) || !q.inReach(p.left, q.r.places(s.set)[s.first]) {
			continue
		}
		can := kept
		if kept > 2 {
			can = min(kept, q.canKeep(s, p.left))
		}
		q.consider(waiting{s.set, int16(s.first), int16(p.left), q.bound(tools, pairs, can)}, can, floor)
		if q.enough(floor) {
			return
		}
	}
}

// inReach tells whether a wanted tool can come into its place where a tool stands.
func (q *query) inReach(wanted int, at units.Length) bool {
	return !reach(q.want[wanted].At, at, q.tolerance).Meet(q.shifts).Empty()
}

// lookUpStanding goes through the sets with a tool that can be kept by itself. There can be many, so it looks at their
// bags first, which is quickest.
func (q *query) lookUpStanding() {
	floor := q.floor(1)
	for j, w := range q.want {
		window := Window{w.At + q.shifts.Lo - q.tolerance, w.At + q.shifts.Hi + q.tolerance}
		for _, s := range q.r.standing(q.types[j], window) {
			if q.enough(floor) {
				return
			}
			if bound := q.bagBound(s.set, 1); !q.seen[s.set] && q.inReach(j, s.at) && !q.enough(bound) {
				q.consider(waiting{s.set, int16(s.tool), int16(j), bound}, 1, floor)
			}
		}
	}
	q.priceLater(1)
}

// consider prices a set that may cost as little as any, or that comes while there is nothing yet to compare with; it lets
// others wait until so many kept tools are the most.
func (q *query) consider(w waiting, can int, floor time.Duration) {
	if w.bound <= floor {
		w.bound = q.sharper(w, can)
	}
	if w.bound <= floor || len(q.best) < q.room {
		q.price(w.set)
	} else if !q.enough(w.bound) {
		q.later[can] = append(q.later[can], w)
	}
}

// sharper is a bound that heeds the order of the types.
func (q *query) sharper(w waiting, kept int) time.Duration {
	pairs := q.throughOne(w.set, int(w.tool), int(w.wanted))
	return max(w.bound, q.bound(q.r.tools(w.set), pairs, kept))
}

// bagBound is the least a set can cost by the types in its bag.
func (q *query) bagBound(set int32, kept int) time.Duration {
	b := q.r.bagOf[set]
	return q.bound(int(q.r.bagTools[b]), int(q.ranges.common[b]), kept)
}

// canKeep is the most tools the set can keep at one shift together with the first of these two, the order of tools aside.
// Kept tools differ from their wanted places by nearly the same: the tolerance holds all the differences.
func (q *query) canKeep(s spacing, left int) int {
	types, at := q.r.kinds(s.set), q.r.places(s.set)
	shift := at[s.first] - q.want[left].At
	near := q.near[:0]
	from := 0
	for b, w := range q.want {
		place := w.At + shift
		for from < len(at) && at[from] < place-q.tolerance {
			from++
		}
		for j := from; j < len(at) && at[j] <= place+q.tolerance; j++ {
			if types[j] == q.types[b] {
				near = append(near, at[j]-w.At)
			}
		}
	}
	q.near = near
	return mostWithin(near, shift, q.tolerance)
}

// mostWithin is the greatest number of values that a range as wide as the tolerance can hold together with one of them.
// It sorts the values.
func mostWithin(values []units.Length, one, tolerance units.Length) int {
	slices.Sort(values)
	most, after := 0, 0
	for i := 0; i < len(values) && values[i] <= one; i++ {
		for after < len(values) && values[after] <= values[i]+tolerance {
			after++
		}
		if one <= values[i]+tolerance {
			most = max(most, after-i)
		}
	}
	return most
}

// priceLater prices the sets whose turn has come, the most promising first: in rounds, each for the least bound that is
// left. A bound that the order of the types makes greater sends its set to a later round.
func (q *query) priceLater(kept int) {
	list := q.later[kept]
	for len(list) > 0 {
		least := slices.MinFunc(list, func(a, b waiting) int { return cmp.Compare(a.bound, b.bound) }).bound
		if q.enough(least) {
			break
		}
		left := list[:0]
		for _, w := range list {
			if w.bound == least {
				w.bound = q.sharper(w, kept)
			}
			switch {
			case q.seen[w.set] || q.enough(w.bound):
			case w.bound == least:
				q.price(w.set)
			default:
				left = append(left, w)
			}
		}
		list = left
	}
	q.later[kept] = nil
}

// price finds the exact cost of a set and notes it when it is among the best.
func (q *query) price(set int32) {
	if !q.seen[set] {
		q.seen[set] = true
		q.note(set, q.least(set, q.pairs(q.r.sequence[set])))
	}
}

// note keeps the best sets found, by cost.
func (q *query) note(set int32, t time.Duration) {
	if q.enough(t) {
		return
	}
	i := len(q.best)
	for i > 0 && q.best[i-1].time > t {
		i--
	}
	q.best = slices.Insert(q.best, i, found{set, t})
	if len(q.best) > q.room {
		q.best = q.best[:q.room]
	}
}

// byTypes fills the room with sets that keep no more tools than any does, the cheapest types first.
func (q *query) byTypes() {
	cost := func(c cell) time.Duration { return q.bound(c.tools, c.pairs, q.always) }
	for _, c := range q.ranges.byCost(cost) {
		if q.enough(cost(c)) {
			return
		}
		for b := range q.ranges.bags(c) {
			for _, number := range q.r.bags[b].sequences {
				q.offer(number)
			}
		}
	}
}

// offer notes the sets of a sequence that keep no more tools than any does, until there are enough.
func (q *query) offer(number int32) {
	s := q.r.sequences[number]
	cost := q.prices.edit(len(s.types), q.pairs(number), q.always)
	for set := s.first; set < s.after && !q.enough(cost); set++ {
		if !q.seen[set] {
			q.note(set, cost)
		}
	}
}
