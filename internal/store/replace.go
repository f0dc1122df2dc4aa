package store

import (
	"slices"

	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

// replacedBy gives the rows of a whole shop. Things that were there by kind and name stay the same things, in place where
// they stand in the old order among themselves.
func (r rows) replacedBy(whole *shop.Shop) (rows, error) {
	next := rows{}
	for _, k := range keepings {
		was := map[string]int{}
		for i, o := range r[k.kind] {
			was[o.name] = i
		}
		var places, olds []int // of what was there: where it is now, and where it was
		for _, value := range ledger.Values(whole, k.kind) {
			one, err := k.encode(value)
			if err != nil {
				return nil, err
			}
			if i, there := was[one.name]; there {
				one = r[k.kind][i].becoming(one)
				places, olds = append(places, len(next[k.kind])), append(olds, i)
			}
			delete(was, one.name) // a second thing of this name is a new one, which the rules then refuse
			next[k.kind] = append(next[k.kind], one)
		}
		stay := ledger.Staying(olds)
		for n, place := range places {
			if _, stays := slices.BinarySearch(stay, n); !stays {
				next[k.kind][place].position, next[k.kind][place].version = 0, 0
			}
		}
	}
	return next, nil
}

// becoming is the row with what another says, or the very row when that is the same.
func (r row) becoming(other row) row {
	if r.body == other.body && r.format == other.format {
		return r
	}
	other.id, other.position = r.id, r.position
	return other
}
