package schedule

import "slices"

// tailCosts is what a shift costs the jobs from each place of an order on: for place k and a shift δ the sum of
// weight × max(0, end + δ − due) over the jobs from k to the last. It is piecewise linear in δ: a job begins to count at
// its slack, due − end. The slacks of each tail are kept sorted, with sums of weights and of weight × slack.
type tailCosts struct {
	jobs  int
	tails []tail // by place; the last one is empty
}

// tail has one entry a job, ascending by slack. The sums are of all entries before.
type tail struct {
	slacks  []Time
	weights []int64
	sums    []int64 // of weight × slack
}

func newTailCosts(jobs int) tailCosts {
	t := tailCosts{jobs: jobs, tails: make([]tail, jobs+1)}
	for k := range t.tails {
		n := jobs - k
		t.tails[k] = tail{slacks: make([]Time, n), weights: make([]int64, n+1), sums: make([]int64, n+1)}
	}
	return t
}

// lay works the tails out from the last place to the first: each is the next one with one job more.
func (t *tailCosts) lay(jobs []Job, row []int, ends []Time) {
	for k := len(row) - 1; k >= 0; k-- {
		j := &jobs[row[k]]
		t.tails[k].insert(&t.tails[k+1], j.Due-ends[k], j.Weight)
	}
}

// insert makes of the tail the other one with a job more.
func (t *tail) insert(rest *tail, slack Time, weight int64) {
	at, _ := slices.BinarySearch(rest.slacks, slack)
	copy(t.slacks, rest.slacks[:at])
	t.slacks[at] = slack
	copy(t.slacks[at+1:], rest.slacks[at:])
	copy(t.weights, rest.weights[:at+1])
	copy(t.sums, rest.sums[:at+1])
	for i := at; i < len(rest.weights); i++ {
		t.weights[i+1] = rest.weights[i] + weight
		t.sums[i+1] = rest.sums[i] + weight*slack
	}
}

// cost is what the jobs from place k on cost when they all end δ later.
func (t *tailCosts) cost(k int, delta Time) int64 {
	x := &t.tails[k]
	lo, hi := 0, len(x.slacks)
	for lo < hi { // the first slack that is not below δ
		mid := int(uint(lo+hi) / 2)
		if x.slacks[mid] < delta {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return x.weights[lo]*delta - x.sums[lo]
}

// part is the same for the jobs from place k to before place l.
func (t *tailCosts) part(k, l int, delta Time) int64 {
	return t.cost(k, delta) - t.cost(l, delta)
}
