package tooling

import (
	"cmp"
	"slices"
)

// InHands puts changes into the order in which hands do them: first what comes off, then what slides, each when its way is
// free, then what is fitted, from the datum shoulder outwards. What stays is left out.
func InHands(changes []Change) []Change {
	list := slices.DeleteFunc(slices.Clone(changes), func(c Change) bool { return c.Do == Keeping })
	slices.SortStableFunc(list, func(a, b Change) int {
		return cmp.Or(cmp.Compare(turn(a), turn(b)), cmp.Compare(key(a), key(b)))
	})
	return list
}

// turn is when a kind of change has its turn.
func turn(c Change) int {
	switch {
	case c.Do == Removing:
		return 0
	case c.Do == Sliding && c.To < c.From:
		return 1
	case c.Do == Sliding:
		return 2
	}
	return 3
}

// key orders changes of one turn. Tools that slide towards the datum go nearest first, those that slide away go farthest
// first: so none runs into one that has yet to move.
func key(c Change) int64 {
	switch turn(c) {
	case 2:
		return -int64(c.From)
	case 3:
		return int64(c.To)
	}
	return int64(c.From)
}
