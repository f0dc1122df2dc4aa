package store

// A position is a number with room on both sides, so that moving one thing writes one row.
const positionGap = 1 << 20

// settle gives a position to everything that has none, between its neighbours. Only where there is no room left, or
// where the order is another one altogether, the whole kind is numbered anew.
func settle(list []row) {
	last := int64(0)
	for i := range list {
		if list[i].position == 0 {
			list[i].position = between(last, nextPlaced(list[i:]))
		}
		if list[i].position <= last {
			renumber(list)
			return
		}
		last = list[i].position
	}
}

// nextPlaced is the position of the first row that has one, 0 for none.
func nextPlaced(list []row) int64 {
	for _, r := range list {
		if r.position != 0 {
			return r.position
		}
	}
	return 0
}

func between(low, high int64) int64 {
	if high == 0 {
		return low + positionGap
	}
	return low + (high-low)/2
}

func renumber(list []row) {
	for i := range list {
		list[i].position = int64(i+1) * positionGap
	}
}
