package tooling

import (
	"cmp"
	"slices"
	"time"

	"foldwright/internal/units"
)

// Index answers for a whole rack which sets serve a pattern and which come nearest. It is read-only and may be shared.
type Index struct {
	sets      []Set
	tolerance units.Length
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
func NewIndex(sets []Set, tolerance units.Length) *Index { return &Index{sets, tolerance} }

// Serves lists the sets that are alike, in the order of the sets.
func (x *Index) Serves(want Pattern) []Match {
	var list []Match
	for i, s := range x.sets {
		if shift, ok := Alike(want, s.Pattern(), x.tolerance); ok {
			list = append(list, Match{i, shift})
		}
	}
	return list
}

// Nearest lists the n sets of the class that serve after the least work and do not serve already.
func (x *Index) Nearest(want Pattern, cost EditCost, n int) []Near {
	var list []Near
	for i, s := range x.sets {
		if s.Class != want.Class {
			continue
		}
		if e := Convert(s.Pattern(), want, cost, x.tolerance); e.touched() > 0 {
			list = append(list, Near{i, e, e.Time})
		}
	}
	slices.SortStableFunc(list, func(a, b Near) int { return cmp.Compare(a.Time, b.Time) })
	return list[:min(n, len(list))]
}
