package tooling

import (
	"cmp"
	"iter"
	"slices"
	"time"
)

// ranges tells which numbers of tools and of pairs occur on a rack, for one wanted pattern. The pairs are those that the
// types in a bag allow, whatever their order: an upper bound that is quick to count even when every set has its own bag.
type ranges struct {
	r       *rack
	common  []uint16 // for each bag, the types it shares with the wanted pattern, each as often as both have it
	touched []int32  // the bags that share at least one
	cells   []cell   // those that occur
	width   int

	first, next []int32 // the touched bags of each cell, chained by their place in touched + 1; 0 ends a chain
}

// cell is a number of tools and a number of pairs.
type cell struct{ tools, pairs int }

func newRanges(q *query) ranges {
	g := ranges{r: q.r, common: make([]uint16, len(q.r.bags))}
	for i, t := range q.types {
		if t == noType || slices.Contains(q.types[:i], t) {
			continue
		}
		g.share(q.r.holders[t], uint16(count(q.types, t)))
	}
	g.fillCells(q)
	return g
}

func count(types []typeNumber, t typeNumber) int {
	n := 0
	for _, u := range types {
		if u == t {
			n++
		}
	}
	return n
}

// share adds a type that is wanted so often.
func (g *ranges) share(holders []share, wanted uint16) {
	for _, h := range holders {
		if g.common[h.bag] == 0 {
			g.touched = append(g.touched, h.bag)
		}
		g.common[h.bag] += min(wanted, h.count)
	}
}

// fewSequences is how many sequences are few enough to ask each how many tools it can pair in order, which sharpens the
// floor where many sets are of few sequences.
const fewSequences = 200

func (g *ranges) fillCells(q *query) {
	g.width = len(q.want) + 1
	g.first = make([]int32, (g.r.longest+1)*g.width)
	g.next = make([]int32, len(g.touched))
	shared := make([]int, g.r.longest+1)
	for i, b := range g.touched {
		tools := int(g.r.bagTools[b])
		shared[tools]++
		c := tools*g.width + int(g.common[b])
		g.next[i], g.first[c] = g.first[c], int32(i+1)
	}
	occurs := make([]bool, len(g.first))
	for tools, bags := range g.r.bagsWith {
		occurs[tools*g.width] = len(bags) > shared[tools]
	}
	if len(g.r.sequences) <= fewSequences {
		for _, b := range g.touched {
			for _, number := range g.r.bags[b].sequences {
				occurs[int(g.r.bagTools[b])*g.width+q.pairs(number)] = true
			}
		}
	} else {
		for c, first := range g.first {
			occurs[c] = occurs[c] || first > 0
		}
	}
	for i, ok := range occurs {
		if ok {
			g.cells = append(g.cells, g.cell(i))
		}
	}
}

func (g *ranges) cell(i int) cell { return cell{i / g.width, i % g.width} }

// byCost lists every cell a bag can be in, the cheapest first.
func (g *ranges) byCost(cost func(cell) time.Duration) []cell {
	var list []cell
	for i, first := range g.first {
		if first > 0 || i%g.width == 0 {
			list = append(list, g.cell(i))
		}
	}
	slices.SortStableFunc(list, func(a, b cell) int { return cmp.Compare(cost(a), cost(b)) })
	return list
}

// bags goes through the bags in a cell.
func (g *ranges) bags(c cell) iter.Seq[int32] {
	return func(yield func(int32) bool) {
		if c.pairs == 0 {
			for _, b := range g.r.bagsWith[c.tools] {
				if g.common[b] == 0 && !yield(b) {
					return
				}
			}
			return
		}
		for i := g.first[c.tools*g.width+c.pairs]; i > 0; i = g.next[i-1] {
			if !yield(g.touched[i-1]) {
				return
			}
		}
	}
}
