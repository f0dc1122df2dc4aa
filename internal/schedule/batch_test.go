package schedule

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// batches is one machine and jobs of the kinds given, in that order; between kinds a set-up takes long.
func batches(kinds ...int) *climber {
	p := &Problem{Machines: []Machine{{Windows: []Window{{0, Forever}}}}, Weights: Weights{Late: 1000, Setup: 1000, Wait: 1000}}
	table := make([][]Time, len(kinds)+1)
	order := Order{nil}
	for j, kind := range kinds {
		p.Jobs = append(p.Jobs, Job{Run: []Time{600}, Due: Forever, Weight: 1})
		order[0] = append(order[0], j)
		for from := range table {
			setup := Time(1500)
			if from < len(kinds) && kinds[from] == kind {
				setup = 240
			}
			table[from] = append(table[from], setup)
		}
	}
	p.Setup = [][][]Time{table}
	m := newModel(p)
	c := newClimber(m, newArcs(m), rand.New(rand.NewPCG(1, 0)), order, crew{roams: true, heat: 3, cold: 24, still: 96})
	c.cheap = 500
	return c
}

// Two batches change places as wholes, whichever jobs of them were hit.
func TestBatchesChangePlaces(t *testing.T) {
	c := batches(1, 1, 1, 2, 2, 3)
	want := map[string]bool{"[[3 4 0 1 2 5]]": true, "[[5 3 4 0 1 2]]": true, "[[0 1 2 5 3 4]]": true}
	seen := map[string]bool{}
	for range 500 {
		c.begin()
		if swapBatches(c) {
			seen[orderText(c.rows)] = true
			c.undo()
		}
	}
	for got := range seen {
		if !want[got] {
			t.Errorf("changed into %s", got)
		}
	}
	if len(seen) != len(want) {
		t.Errorf("%d ways to change two of three batches, want %d", len(seen), len(want))
	}
}

// The jobs of a batch that is dissolved go to others of their kind, so that its set-up is saved; where there are none, they stay together.
func TestDissolvedBatchesMerge(t *testing.T) {
	c := batches(1, 1, 2, 2, 1, 1)
	merged := 0
	for range 500 {
		c.begin()
		if !dissolve(c) {
			t.Fatal("nothing happened")
		}
		if n := countBatches(c); n > 3 {
			t.Errorf("%s has %d batches, there were 3", orderText(c.rows), n)
		} else if n == 2 {
			merged++
		}
		c.undo()
	}
	if merged < 200 {
		t.Errorf("batches merged %d times of 500; two of the three can, unless only a part of one is taken out", merged)
	}
}

func countBatches(c *climber) int {
	n := 0
	for place := 0; place < len(c.rows[0]); n++ {
		_, place = c.batch(0, place)
	}
	return n
}

// A job that is put beside one it goes with leaves its batch: within the batch nothing would be gained.
func TestNearJobsAreOfOtherBatches(t *testing.T) {
	c := batches(1, 1, 1, 2, 1)
	for range 500 {
		if _, place, ok := c.oneNear(1, 0, 0, 3); ok && place < 3 {
			t.Fatalf("job 1 is to go beside the job at place %d of its own batch", place)
		}
	}
	if !slices.Contains(c.near[1], 4) {
		t.Error("job 4, of the same kind, is not near job 1")
	}
}
