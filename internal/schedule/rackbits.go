package schedule

import "math/bits"

// rackBits is a rackCounter for no more than 64 sets, a bit a set. It goes on from the first job that has changed, and stops
// early: where the rack is as it was at that place before the change, what follows is known, and where it is nearly so,
// about what.
type rackBits struct {
	places int8
	needs  []uint64 // of each job
	every  int      // places from one mark to the next
	marks  []bitsState
	whole  bitsState // at the end of the kept row
	now    bitsState
	missed []uint64 // scratch, of each place: the sets brought again, but for those whose time away has been counted
	kept   []int8   // scratch, of each place, 0 between calls: gaps that begin there and are kept
	roots  []int64
}

// bitsState is how far a count has come.
type bitsState struct {
	rackSum
	seen  uint64          // sets that a job has needed
	last  [mostBits]int32 // of each set that has been seen: the place of its last use
	taken []int8          // of each place: places of the rack taken
}

const mostBits = 64

func (s *bitsState) copy(from *bitsState, at int) {
	copy(s.taken[:at], from.taken[:at])
	s.rackSum, s.seen, s.last = from.rackSum, from.seen, from.last
}

func newRackBits(places int, needs [][]int32, sets int) *rackBits {
	jobs := len(needs)
	c := &rackBits{
		places: int8(min(places, mostBits)), every: markEvery(jobs),
		missed: make([]uint64, jobs), kept: make([]int8, jobs), roots: roots(jobs),
	}
	for _, row := range needs {
		var all uint64
		for _, x := range row {
			all |= 1 << x
		}
		c.needs = append(c.needs, all)
	}
	state := func() bitsState { return bitsState{rackSum: rackSum{loads: sets}, taken: make([]int8, jobs)} }
	for range 1 + (jobs-1)/c.every {
		c.marks = append(c.marks, state())
	}
	c.now = state()
	return c
}

func (c *rackBits) sum() rackSum { return c.now.rackSum }

func (c *rackBits) keep(row []int, from int) {
	m := from / c.every
	c.now.copy(&c.marks[m], m*c.every)
	for at := m * c.every; at < len(row); at++ {
		if at%c.every == 0 {
			c.marks[at/c.every].copy(&c.now, at)
		}
		c.missed[at] = c.bring(row, at)
		c.away(row, at, at+1)
	}
	c.whole.rackSum = c.now.rackSum
}

// try goes through the row twice: for the loads, and if these are few enough, for how long sets are away. The loads that are
// too many take for granted that a change does not bring a load more and yet makes up for it by shorter times.
func (c *rackBits) try(row []int, a, b int, most int64) bool {
	mark, from := &c.marks[a/c.every], a-a%c.every
	s := &c.now
	copy(s.taken[:from], mark.taken[:from])
	s.rackSum, s.seen = mark.rackSum, mark.seen
	enough := int((most-c.whole.open)/loadWeight) + 1
	at, old := from, (*bitsState)(nil)
	for ; at < len(row); at++ {
		if at > b+1 && at%c.every == 0 {
			old = &c.marks[at/c.every]
			slack, same := c.compare(old, b, at)
			if s.loads+c.whole.loads-old.loads-slack > enough {
				return false
			}
			if same {
				break
			}
		}
		c.missed[at] = c.bring(row, at)
	}
	if at == len(row) && s.loads > enough {
		return false
	}
	s.last = mark.last
	c.away(row, from, at)
	if at < len(row) {
		s.open += c.whole.open - old.open + c.longer(row, b, at, old)
		s.loads += c.whole.loads - old.loads
	}
	return s.weight() <= most
}

// compare says whether the rack is at a place as it was before the change, which is so when a full job lies between and has
// as many places taken since; and if not, how many loads fewer may follow at most: as many as gaps may begin at or before b,
// and as many as have more room than they had.
func (c *rackBits) compare(old *bitsState, b, at int) (slack int, same bool) {
	free, more, same := c.places, int8(0), true
	for k := at - 1; k > b; k-- {
		taken := c.now.taken[k]
		free, more = min(free, c.places-taken), max(more, old.taken[k]-taken)
		same = same && old.taken[k] == taken
		if free == 0 {
			return int(more), same
		}
	}
	return int(free) + int(more), false
}

// longer is by how much more the gaps weigh that begin at or before b and end at a place or after, none of which is kept.
func (c *rackBits) longer(row []int, b, at int, old *bitsState) int64 {
	away := c.now.seen
	for _, j := range row[b+1 : at] {
		away &^= c.needs[j]
	}
	sum := int64(0)
	for k := at; k < len(row) && away != 0; k++ {
		back := away & c.needs[row[k]]
		for away &^= back; back != 0; back &= back - 1 {
			x := bits.TrailingZeros64(back) % mostBits
			sum += c.roots[k-1-int(c.now.last[x])] - c.roots[k-1-int(old.last[x])]
		}
	}
	return sum
}

// away adds how long the missed sets were away that are brought at the places from a to before b.
func (c *rackBits) away(row []int, a, b int) {
	s := &c.now
	for at := a; at < b; at++ {
		for missed := c.missed[at]; missed != 0; missed &= missed - 1 {
			s.open += c.roots[at-1-int(s.last[bits.TrailingZeros64(missed)%mostBits])]
		}
		for needs := c.needs[row[at]]; needs != 0; needs &= needs - 1 {
			s.last[bits.TrailingZeros64(needs)%mostBits] = int32(at)
		}
	}
}

// bring goes on to the job at a place and returns the sets that are brought again and not yet counted as open. It looks for
// the gaps that end here from the shortest to the longest, until a full job is in between.
func (c *rackBits) bring(row []int, at int) (missed uint64) {
	s := &c.now
	needs := c.needs[row[at]]
	want := needs & s.seen
	s.seen |= needs
	s.taken[at] = int8(bits.OnesCount64(needs))
	if at > 0 {
		want &^= c.needs[row[at-1]]
	}
	free, first := c.places, at
	for k := at - 2; want != 0; k-- {
		if free = min(free, c.places-s.taken[k+1]); free == 0 {
			break
		}
		from := want & c.needs[row[k]]
		if from == 0 {
			continue
		}
		want &^= from
		n := int8(bits.OnesCount64(from))
		kept := min(n, free)
		free -= kept
		c.kept[k], first = kept, k
		s.loads += int(n - kept)
		s.open += int64(n-kept) * c.roots[at-k-1]
	}
	s.loads += bits.OnesCount64(want)
	c.fill(first, at)
	return want
}

// fill takes the places of the gaps that are kept, the first of which begins at a, up to before b.
func (c *rackBits) fill(a, b int) {
	sum := int8(0)
	for k := a; k < b-1; k++ {
		sum += c.kept[k]
		c.kept[k] = 0
		c.now.taken[k+1] += sum
	}
}
