package schedule

// rackCounter counts what one order after another brings to a rack, as [gaps] does.
type rackCounter interface {
	// keep counts a row that is as the one kept before up to a place, and keeps it.
	keep(row []int, from int)
	// try counts a row that differs from the kept one at the places from a to b only. It may say false instead when the
	// row weighs more than most.
	try(row []int, a, b int, most int64) bool
	// sum is what was counted last.
	sum() rackSum
}

// rackSum is what rows are compared by.
type rackSum struct {
	loads int   // sets brought, and those that no job has needed yet: each of them must still be brought
	open  int64 // the roots of the gaps over which a set is away, times one
}

// loadWeight is what a load weighs beside a gap of length one over which a set is away.
const loadWeight = 40 * one

func (s rackSum) weight() int64 { return int64(s.loads)*loadWeight + s.open }

func newRackCounter(r *Rack, jobs int) rackCounter {
	needs, sets := numbered(r.Needs[:jobs])
	if sets <= mostBits {
		return newRackBits(r.Places, needs, sets)
	}
	return newRackCount(r.Places, needs, sets)
}

// numbered numbers the sets that are needed from 0 without holes.
func numbered(needs [][]int) (rows [][]int32, sets int) {
	number := map[int]int32{}
	for _, names := range needs {
		row := make([]int32, 0, len(names))
		for _, x := range names {
			n, ok := number[x]
			if !ok {
				n = int32(len(number))
				number[x] = n
			}
			row = append(row, n)
		}
		rows = append(rows, row)
	}
	return rows, len(number)
}

// markEvery is the places from one mark to the next, so that there are no more than 64.
func markEvery(jobs int) int { return 1 + jobs/64 }

// roots are those of the numbers below n, times one.
func roots(n int) []int64 {
	all := make([]int64, n)
	root := int64(0)
	for i := range all {
		for (root+1)*(root+1) <= int64(i)*one*one {
			root++
		}
		all[i] = root
	}
	return all
}
