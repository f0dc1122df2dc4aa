package schedule

// Loads counts how often a tool must be brought to a rack that holds capacity tools, when the jobs come in the given
// order, each needs all of its tools at hand, tools are brought only when needed and the rack is empty at first. It is
// the least possible number: that of keeping the tools needed soonest (Tang and Denardo 1988). False when a job needs
// more than the rack holds. needs[i] must name no tool twice; tools are numbered from 0.
//
// It counts what can be kept instead of what must go. Between two successive uses of a tool lies a gap; to keep the
// tool over the gap takes one place in each job between. Gaps are taken by earliest end, the shortest first, while no
// job between is full, which keeps the most of them, as in any interval packing. A gap fits exactly when it starts at
// or after the last job that is full. O(capacity × jobs), whatever the number of tools.
func Loads(needs [][]int, capacity int) (loads int, ok bool) {
	g := gaps{needs: needs, capacity: capacity, taken: make([]int, len(needs)), full: -1}
	for i, tools := range needs {
		if len(tools) > capacity {
			return 0, false
		}
		loads += len(tools) - g.keep(i)
	}
	return loads, true
}

type gaps struct {
	needs    [][]int
	capacity int
	taken    []int // places taken in each job so far
	full     int   // the last full job before the one at hand
	lastUse  []int // of each tool, counted from 1; 0 = never
	starts   []int // scratch: the gaps that end at the job at hand
}

// keep takes the gaps that end at job i and returns how many could be kept.
func (g *gaps) keep(i int) int {
	if i > 0 && g.taken[i-1] == g.capacity {
		g.full = i - 1
	}
	g.starts = g.starts[:0]
	for _, tool := range g.needs[i] {
		for tool >= len(g.lastUse) {
			g.lastUse = append(g.lastUse, 0)
		}
		if last := g.lastUse[tool]; last > 0 {
			g.insert(last - 1)
		}
		g.lastUse[tool] = i + 1
	}
	g.taken[i] = len(g.needs[i])
	kept := 0
	for _, start := range g.starts {
		if g.full > start {
			break
		}
		kept++
		g.fill(start, i)
	}
	return kept
}

// insert keeps the starts in descending order, so that the shortest gap comes first.
func (g *gaps) insert(start int) {
	g.starts = append(g.starts, start)
	for n := len(g.starts) - 1; n > 0 && g.starts[n-1] < start; n-- {
		g.starts[n], g.starts[n-1] = g.starts[n-1], start
	}
}

func (g *gaps) fill(start, end int) {
	for k := start + 1; k < end; k++ {
		if g.taken[k]++; g.taken[k] == g.capacity {
			g.full = max(g.full, k)
		}
	}
}
