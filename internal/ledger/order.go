package ledger

import "slices"

// Reordering lists the moves that bring things of a kind from one order into another, as few as there can be: the largest
// part of them that is in order already stays. Each moves just ahead of the one behind it, from the last to the first.
func Reordering(have, want []Tag) []Edit {
	place := make(map[string]int, len(have))
	for i, t := range have {
		place[t.ID] = i
	}
	places := make([]int, len(want))
	for i, t := range want {
		places[i] = place[t.ID]
	}
	stay := Staying(places)
	var edits []Edit
	behind := Tag{}
	for i := len(want) - 1; i >= 0; i-- {
		if _, stays := slices.BinarySearch(stay, i); !stays {
			edits = append(edits, Move(want[i], behind))
		}
		behind = want[i]
	}
	return edits
}

// Staying gives the indices of a longest rising sub-sequence of places, ascending: what can stay where it is while all
// others move. Places are different from one another. O(n log n), by the least end of a sequence of each length.
func Staying(places []int) []int {
	var ends []int                     // ends[k]: the index of the least place that ends a rising sequence of k+1
	before := make([]int, len(places)) // and what comes before it in that sequence
	for i, p := range places {
		k, _ := slices.BinarySearchFunc(ends, p, func(end, p int) int { return places[end] - p })
		if before[i] = -1; k > 0 {
			before[i] = ends[k-1]
		}
		if k == len(ends) {
			ends = append(ends, i)
		} else {
			ends[k] = i
		}
	}
	stay := make([]int, len(ends))
	if len(ends) > 0 {
		at := ends[len(ends)-1]
		for i := len(ends) - 1; i >= 0; i, at = i-1, before[at] {
			stay[i] = at
		}
	}
	return stay
}
