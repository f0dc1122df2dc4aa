package schedule

// Loads counts how often a tool must be brought to a rack that holds capacity tools, when the jobs come in the given
// order, each needs all of its tools at hand, tools are brought only when needed and the rack is empty at first. It is
// the least possible number: that of keeping the tools needed soonest (Tang and Denardo 1988). False when a job needs
// more than the rack holds. needs[i] must name no tool twice; tools are numbered from 0.
func Loads(needs [][]int, capacity int) (loads int, ok bool) {
	g := newGaps(needs, capacity)
	for _, tools := range needs {
		if len(tools) > capacity {
			return 0, false
		}
		loads += len(g.bring(tools))
	}
	return loads, true
}

// gaps counts what can be kept instead of what must go. Between two successive uses of a tool lies a gap; to keep the
// tool over the gap takes one place in each job between. Gaps are taken by earliest end, the shortest first, while no
// job between is full, which keeps the most of them, as in any interval packing. A gap fits exactly when it starts at
// or after the last job that is full. O(capacity × jobs), whatever the number of tools.
type gaps struct {
	capacity int
	taken    []int // places taken in each job so far
	full     int   // the last full job before the one at hand, -1 when there is none
	lastUse  []int // of each tool, counted from 1; 0 = never
	ends     []gap // scratch: the gaps that end at the job at hand
	brought  []int // scratch
}

type gap struct{ tool, start int }

// newGaps makes room for the tools that are named.
func newGaps(needs [][]int, capacity int) *gaps {
	most := -1
	for _, tools := range needs {
		for _, tool := range tools {
			most = max(most, tool)
		}
	}
	return &gaps{capacity: capacity, full: -1, lastUse: make([]int, most+1)}
}

// reset empties the rack for another order.
func (g *gaps) reset() {
	g.taken, g.full = g.taken[:0], -1
	clear(g.lastUse)
}

// bring goes on to the next job and returns the tools that must be brought for it, until the next call.
func (g *gaps) bring(tools []int) []int {
	i := len(g.taken)
	if i > 0 && g.taken[i-1] == g.capacity {
		g.full = i - 1
	}
	g.ends, g.brought = g.ends[:0], g.brought[:0]
	for _, tool := range tools {
		if last := g.lastUse[tool]; last > 0 {
			g.insert(gap{tool, last - 1})
		} else {
			g.brought = append(g.brought, tool)
		}
		g.lastUse[tool] = i + 1
	}
	g.taken = append(g.taken, len(tools))
	for _, x := range g.ends {
		if g.full > x.start {
			g.brought = append(g.brought, x.tool)
		} else {
			g.fill(x.start, i)
		}
	}
	return g.brought
}

// insert keeps the gaps in descending order of their starts, so that the shortest comes first.
func (g *gaps) insert(x gap) {
	g.ends = append(g.ends, x)
	for n := len(g.ends) - 1; n > 0 && g.ends[n-1].start < x.start; n-- {
		g.ends[n], g.ends[n-1] = g.ends[n-1], x
	}
}

func (g *gaps) fill(start, end int) {
	for k := start + 1; k < end; k++ {
		if g.taken[k]++; g.taken[k] == g.capacity {
			g.full = max(g.full, k)
		}
	}
}
