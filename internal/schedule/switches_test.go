package schedule

import (
	"math/bits"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestLoads(t *testing.T) {
	for _, c := range []struct {
		name     string
		needs    [][]int
		capacity int
		want     int
		ok       bool
	}{
		{"nothing", nil, 2, 0, true},
		{"no needs", [][]int{{}, {}}, 0, 0, true},
		{"the same tool twice in a row", [][]int{{0}, {0}}, 1, 1, true},
		{"the same tool around another, no room", [][]int{{0}, {1}, {0}}, 1, 3, true},
		{"the same tool around another, room", [][]int{{0}, {1}, {0}}, 2, 2, true},
		{"two around one: one of them can be kept", [][]int{{0, 1}, {2}, {0, 1}}, 2, 4, true},
		{"more than the rack holds", [][]int{{0, 1, 2}}, 2, 0, false},
		// From memory: the page reference string 7 0 1 2 0 3 0 4 2 3 0 3 2 1 2 0 1 7 0 1 of textbooks on operating systems
		// (Silberschatz, Galvin and Gagne, Operating System Concepts) has 9 faults with three frames under the optimal rule.
		{"textbook reference string", [][]int{{7}, {0}, {1}, {2}, {0}, {3}, {0}, {4}, {2}, {3}, {0}, {3}, {2}, {1}, {2}, {0}, {1}, {7}, {0}, {1}}, 3, 9, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got, ok := Loads(c.needs, c.capacity); got != c.want || ok != c.ok {
				t.Errorf("got %d, %v; want %d, %v", got, ok, c.want, c.ok)
			}
		})
	}
}

func needsOf(d dice, jobs, tools, capacity int) [][]int {
	var needs [][]int
	for range jobs {
		var row []int
		for tool := range tools {
			if len(row) < capacity && d(0, 2) == 0 {
				row = append(row, tool)
			}
		}
		needs = append(needs, row)
	}
	return needs
}

// The count equals the least over all ways to fill the rack, found by going through every state of it.
func TestLoadsIsTheLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		capacity := d(1, 4)
		needs := needsOf(d, d(1, 9), 6, capacity)
		if got, ok := Loads(needs, capacity); !ok || got != leastLoads(needs, 6, capacity) {
			t.Fatalf("got %d, least is %d", got, leastLoads(needs, 6, capacity))
		}
	})
}

// On larger racks it equals the plain form of the rule: when there is no room, the tool goes that is needed last.
func TestLoadsIsTheRule(t *testing.T) {
	for seed := range uint64(200) {
		d := seededDice(seed)
		capacity := d(3, 12)
		needs := needsOf(d, 40, 30, capacity)
		if got, _ := Loads(needs, capacity); got != ruleLoads(needs, capacity) {
			t.Fatalf("seed %d: got %d, the rule gives %d", seed, got, ruleLoads(needs, capacity))
		}
	}
}

// leastLoads goes through all states of the rack, a bit a tool.
func leastLoads(needs [][]int, tools, capacity int) int {
	const never = 1 << 30
	least := make([]int, 1<<tools)
	for state := range least {
		least[state] = never
	}
	least[0] = 0
	for _, row := range needs {
		var mask uint
		for _, tool := range row {
			mask |= 1 << tool
		}
		next := make([]int, 1<<tools)
		for to := range next {
			next[to] = never
			if bits.OnesCount(uint(to)) > capacity || uint(to)&mask != mask {
				continue
			}
			for from, n := range least {
				next[to] = min(next[to], n+bits.OnesCount(uint(to)&^uint(from)))
			}
		}
		least = next
	}
	return slices.Min(least)
}

func ruleLoads(needs [][]int, capacity int) int {
	var rack []int
	loads := 0
	nextUse := func(tool, from int) int {
		for i := from; i < len(needs); i++ {
			if slices.Contains(needs[i], tool) {
				return i
			}
		}
		return len(needs)
	}
	for i, row := range needs {
		for _, tool := range row {
			if slices.Contains(rack, tool) {
				continue
			}
			loads++
			if len(rack) == capacity {
				out, latest := -1, -1
				for n, have := range rack {
					if use := nextUse(have, i); !slices.Contains(row, have) && use > latest {
						out, latest = n, use
					}
				}
				rack = slices.Delete(rack, out, out+1)
			}
			rack = append(rack, tool)
		}
	}
	return loads
}
