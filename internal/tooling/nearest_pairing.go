package tooling

// pairings keeps, for each sequence that was asked about, how many of its tools can be paired with wanted ones in order:
// the most, then the most with tool i paired with wanted tool j, for all i and j.
type pairings struct {
	of     []int32 // for each sequence, where its counts begin in counts, plus one; 0 = not yet asked
	counts []uint8

	before, after []uint8 // room for the tables
}

// pairs is the most tools of a sequence that can be paired in order.
func (q *query) pairs(number int32) int { return int(q.paired.counts[q.pairing(number)]) }

// throughOne is the most tools that can be paired when one is paired with a wanted one.
func (q *query) throughOne(set int32, tool, wanted int) int {
	with := q.paired.counts[q.pairing(q.r.sequence[set])+1:]
	return int(with[tool*len(q.want)+wanted])
}

// through is the most tools that can be paired when the two of a spacing are paired with the two wanted ones.
func (q *query) through(s spacing, p pair) int {
	return min(q.throughOne(s.set, int(s.first), p.left), q.throughOne(s.set, int(s.second), p.right))
}

// pairing is where the counts of a sequence begin.
func (q *query) pairing(number int32) int32 {
	if q.paired.of[number] == 0 {
		q.paired.of[number] = int32(len(q.paired.counts)) + 1
		q.paired.add(q.r.sequences[number].types, q.types)
	}
	return q.paired.of[number] - 1
}

// add counts by the longest common subsequence of every two beginnings and of every two ends.
func (p *pairings) add(have, want []typeNumber) {
	width := len(want) + 1
	p.before = zeroed(p.before, (len(have)+1)*width)
	p.after = zeroed(p.after, (len(have)+1)*width)
	for i := range have {
		for j := range want {
			best := max(p.before[i*width+j+1], p.before[(i+1)*width+j])
			if have[i] == want[j] {
				best = p.before[i*width+j] + 1
			}
			p.before[(i+1)*width+j+1] = best
		}
	}
	for i := len(have) - 1; i >= 0; i-- {
		for j := len(want) - 1; j >= 0; j-- {
			best := max(p.after[(i+1)*width+j], p.after[i*width+j+1])
			if have[i] == want[j] {
				best = p.after[(i+1)*width+j+1] + 1
			}
			p.after[i*width+j] = best
		}
	}
	p.counts = append(p.counts, p.after[0])
	for i := range have {
		for j := range want {
			p.counts = append(p.counts, p.before[i*width+j]+1+p.after[(i+1)*width+j+1])
		}
	}
}

func zeroed(room []uint8, n int) []uint8 {
	if cap(room) < n {
		return make([]uint8, n)
	}
	clear(room[:n])
	return room[:n]
}
