package tooling

import (
	"cmp"
	"slices"
	"sort"
	"time"

	"foldwright/internal/units"
)

// Index answers for a whole rack which sets serve a pattern and which come nearest. It is read-only and may be shared.
//
// Both answers are exact. Among 100 000 sets they take some tens to some hundreds of microseconds (docs/performance.md),
// however the positions lie; making the index takes about a second, and 16 bytes for every two tools of a set.
type Index struct {
	sets      []Set
	tolerance units.Length
	racks     map[string]*rack // by class
}

// Match is a set that serves, by its number among the sets of the index, and the shifts at which it does.
type Match struct {
	Set   int
	Shift Window
}

// Near is a set that does not serve, and the work that would make it.
type Near struct {
	Set  int
	Edit Edit
	Time time.Duration
}

// NewIndex makes an index of the sets; it keeps the slice, which must not be changed any more.
func NewIndex(sets []Set, tolerance units.Length) *Index {
	byClass := map[string][]int32{}
	for i := range sets {
		byClass[sets[i].Class] = append(byClass[sets[i].Class], int32(i))
	}
	x := &Index{sets, tolerance, make(map[string]*rack, len(byClass))}
	for class, members := range byClass {
		x.racks[class] = newRack(sets, members)
	}
	return x
}

// Serves lists the sets that are alike, in the order of the sets: [Alike] for every one of them.
func (x *Index) Serves(want Pattern) []Match {
	r, ok := x.racks[want.Class]
	if !ok {
		return nil
	}
	var list []Match
	r.alike(want.Tools, x.tolerance, func(set int32, shift Window) {
		if list == nil {
			list = make([]Match, 0, 16)
		}
		list = append(list, Match{int(r.sets[set]), shift})
	})
	slices.SortFunc(list, func(a, b Match) int { return cmp.Compare(a.Set, b.Set) })
	return list
}

// alike finds the sets that serve: they have the same sequence of types, and their span, from the first tool to the last,
// is the wanted one within the tolerance.
func (r *rack) alike(want []Tool, tolerance units.Length, found func(set int32, shift Window)) {
	number, ok := r.bySequence[sequenceKey(r.numbers(want))]
	if !ok {
		return
	}
	s := r.sequences[number]
	span := spanOf(want)
	set := s.first + int32(sort.Search(int(s.after-s.first), func(i int) bool { return r.span(s.first+int32(i)) >= span-tolerance }))
	for ; set < s.after && r.span(set) <= span+tolerance; set++ {
		if shift, ok := r.shift(set, want, tolerance); ok {
			found(set, shift)
		}
	}
}

// shift is [Alike] for a set whose sequence is the wanted one. It keeps only the least and the greatest difference, since
// most sets are refused at the second or third tool.
func (r *rack) shift(set int32, want []Tool, tolerance units.Length) (Window, bool) {
	if len(want) == 0 {
		return Anywhere, true
	}
	at := r.places(set)
	least := at[0] - want[0].At
	greatest := least
	for i, h := range at {
		d := h - want[i].At
		least, greatest = min(least, d), max(greatest, d)
		if greatest-least > tolerance {
			return Window{}, false
		}
	}
	return Window{reach(0, greatest, tolerance).Lo, reach(0, least, tolerance).Hi}, true
}

// Nearest lists up to n sets of the class that do not serve and would after the least work, by that work, then by number.
// Which of several equally near sets are listed when there is no room for all is not promised, only that it is always the
// same. A slide counts at most as much as taking a tool off and fitting it.
func (x *Index) Nearest(want Pattern, cost EditCost, n int) []Near {
	return x.NearestWithin(want, cost, Anywhere, n)
}

// NearestWithin is Nearest with the shift kept within a window, such as a side guide allows; it must not be empty. A set
// that is alike but serves at no shift of the window is then one that does not serve.
func (x *Index) NearestWithin(want Pattern, cost EditCost, shifts Window, n int) []Near {
	r, ok := x.racks[want.Class]
	if !ok || n <= 0 {
		return nil
	}
	q := newQuery(r, want.Tools, cost, x.tolerance, shifts, n)
	q.run()
	list := make([]Near, len(q.best))
	for i, b := range q.best {
		set := int(r.sets[b.set])
		e := ConvertWithin(x.sets[set].Pattern(), want, cost, x.tolerance, shifts)
		list[i] = Near{set, e, e.Time}
	}
	slices.SortFunc(list, func(a, b Near) int { return cmp.Or(cmp.Compare(a.Time, b.Time), cmp.Compare(a.Set, b.Set)) })
	return list
}
