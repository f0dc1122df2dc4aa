package schedule

import "math/rand/v2"

// tour is the ground of one machine where only set-ups count: a closed tour through the jobs and the machine's state at
// the start, which is node len(Jobs) and stands at place 0. Precedences are kept by every step.
//
// A step kicks the tour by swapping stretches that lie near each other and then improves it by exchanges of three arcs
// without reversal (Or-3-opt) until none pays, looking again only where arcs have changed. Now and then it only nudges it.
type tour struct {
	nodes         int
	arc           []Time       // by from and to: the price
	near          [2][][]int32 // of each node: those that follow it cheaply; those that it follows cheaply
	after, before [][]int32    // of each job: jobs that directly wait for it, and that it waits for; nil without precedences

	at    []int32 // the nodes by place
	place []int32 // of each node
	long  Time    // of the tour
	done  []swap  // since the last step began
	was   Time
	queue []int32 // nodes to look at
	waits []bool  // of each node: in the queue
	spare []int32 // scratch
	rows  Order
}

// swap exchanges the places from a to before b with those from b to before c.
type swap struct{ a, b, c int32 }

func newTour(m *model) *tour {
	n := m.jobs + 1
	t := &tour{
		nodes: n, arc: make([]Time, n*n), at: make([]int32, n), place: make([]int32, n), waits: make([]bool, n),
		rows: Order{make([]int, m.jobs)},
	}
	later := latecomers(m)
	for from := range n {
		for to := range m.jobs {
			t.arc[from*n+to] = m.Setup[0][from][to] * (m.Weights.Setup + m.Weights.Makespan)
		}
		if from < m.jobs && m.Closing != nil {
			t.arc[from*n+m.jobs] = m.Closing[0][from] * m.Weights.Setup
		}
	}
	t.layPrecedences(m, later)
	t.layNear(m, later)
	return t
}

// layPrecedences keeps those that do not follow from others: whoever comes after all of them comes after all.
func (t *tour) layPrecedences(m *model, later [][]bool) {
	if len(m.Precedences) == 0 {
		return
	}
	t.after, t.before = make([][]int32, t.nodes), make([][]int32, t.nodes)
	for a := range m.jobs {
		for b := range m.jobs {
			if later[a][b] && !between(later, a, b) {
				t.after[a] = append(t.after[a], int32(b))
				t.before[b] = append(t.before[b], int32(a))
			}
		}
	}
}

// between says whether some job must come after a and before b.
func between(later [][]bool, a, b int) bool {
	for x := range later {
		if later[a][x] && later[x][b] {
			return true
		}
	}
	return false
}

// layNear lists the cheapest arcs from and to each node, but for those that precedences rule out.
func (t *tour) layNear(m *model, later [][]bool) {
	const few = 10
	able := func(from, to int) bool {
		if from == to {
			return false
		}
		return from == m.jobs || to == m.jobs || !later[to][from] && !(later[from][to] && between(later, from, to))
	}
	for side := range t.near {
		for x := range t.nodes {
			list := leastFew(t.nodes, few, func(y int) (Time, Time, bool) {
				from, to := x, y
				if side == 1 {
					from, to = y, x
				}
				return t.arc[from*t.nodes+to], Time(y), able(from, to)
			})
			row := make([]int32, len(list))
			for i, y := range list {
				row[i] = int32(y)
			}
			t.near[side] = append(t.near[side], row)
		}
	}
}

func (t *tour) price(from, to int32) Time { return t.arc[int(from)*t.nodes+int(to)] }

func (t *tour) next(x int32) int32 {
	p := int(t.place[x]) + 1
	if p == t.nodes {
		p = 0
	}
	return t.at[p]
}

func (t *tour) prior(x int32) int32 {
	p := int(t.place[x]) - 1
	if p < 0 {
		p = t.nodes - 1
	}
	return t.at[p]
}

func (t *tour) total() int64 { return t.long }

func (t *tour) order() Order {
	for i, x := range t.at[1:] {
		t.rows[0][i] = int(x)
	}
	return t.rows
}

// set lays out an order; the next step looks at all of it.
func (t *tour) set(order Order) {
	t.at[0] = int32(t.nodes - 1)
	for i, j := range order[0] {
		t.at[i+1] = int32(j)
	}
	t.long = 0
	for i, x := range t.at {
		t.place[x] = int32(i)
	}
	for x := range int32(t.nodes) {
		t.long += t.price(x, t.next(x))
		t.push(x)
	}
	t.done = t.done[:0]
}

func (t *tour) heats() (first, last int64) {
	mean := t.long * one / int64(t.nodes)
	return mean, mean / 20
}

func (t *tour) step(rng *rand.Rand, heat int64) bool {
	t.done, t.was = t.done[:0], t.long
	if rng.IntN(8) == 0 {
		t.nudge(rng)
	} else {
		t.kick(rng)
		t.improve()
	}
	if t.long-t.was > slip(rng, heat) {
		t.undo()
		return false
	}
	return true
}

func (t *tour) undo() {
	for len(t.done) > 0 {
		last := t.done[len(t.done)-1]
		t.turn(last.a, last.a+last.c-last.b, last.c)
		t.done = t.done[:len(t.done)-1]
	}
	t.long = t.was
}

// kick turns three stretches in a row around, B C D into D C B, each as it is; where precedences forbid it, or C is empty, two.
func (t *tour) kick(rng *rand.Rand) {
	const longest = 50
	n := int32(t.nodes)
	for range 20 {
		reach := min(longest, max((n-1)/3, min(4, n-2)))
		b := 1 + rng.Int32N(reach)
		c := b + rng.Int32N(reach+1)
		d := c + 1 + rng.Int32N(reach)
		if d >= n {
			continue
		}
		a := 1 + rng.Int32N(n-d)
		if t.allowed(a, a+b, a+d) {
			t.swap(a, a+b, a+d) // C D B
			if c > b && t.allowed(a, a+c-b, a+d-b) {
				t.swap(a, a+c-b, a+d-b) // D C B
			}
			return
		}
	}
}

// nudge swaps two short stretches side by side and leaves it at that. There are tours to which every kick leads back once it
// is improved, mostly where precedences allow few; by such swaps each order that they allow can be reached from each other.
func (t *tour) nudge(rng *rand.Rand) {
	const longest = 3
	t.improve() // what is still to be looked at in an order just set
	n := int32(t.nodes)
	b := 2 + rng.Int32N(n-2)
	a, c := max(1, b-1-rng.Int32N(longest)), min(n, b+1+rng.Int32N(longest))
	if t.allowed(a, b, c) {
		t.swap(a, b, c)
	}
	for _, x := range t.queue {
		t.waits[x] = false
	}
	t.queue = t.queue[:0]
}

// swap exchanges two stretches, notes it, and has the six ends looked at again.
func (t *tour) swap(a, b, c int32) {
	u, v, w, x, y := t.at[a-1], t.at[a], t.at[b-1], t.at[b], t.at[c-1]
	z := t.next(y)
	t.long += t.price(u, x) + t.price(y, v) + t.price(w, z) - t.price(u, v) - t.price(w, x) - t.price(y, z)
	t.turn(a, b, c)
	t.done = append(t.done, swap{a, b, c})
	for _, x := range [...]int32{u, v, w, x, y, z} {
		t.push(x)
	}
}

// turn exchanges two stretches, the shorter one by way of the scratch.
func (t *tour) turn(a, b, c int32) {
	if b-a <= c-b {
		t.spare = append(t.spare[:0], t.at[a:b]...)
		copy(t.at[a:], t.at[b:c])
		copy(t.at[a+c-b:c], t.spare)
	} else {
		t.spare = append(t.spare[:0], t.at[b:c]...)
		copy(t.at[a+c-b:c], t.at[a:b])
		copy(t.at[a:], t.spare)
	}
	for i := a; i < c; i++ {
		t.place[t.at[i]] = i
	}
}

// allowed says whether two stretches may change places: nothing in the first is waited for in the second.
func (t *tour) allowed(a, b, c int32) bool {
	if t.after == nil {
		return true
	}
	if b-a <= c-b {
		for _, x := range t.at[a:b] {
			for _, y := range t.after[x] {
				if t.place[y] < c {
					return false
				}
			}
		}
		return true
	}
	for _, y := range t.at[b:c] {
		for _, x := range t.before[y] {
			if t.place[x] >= a {
				return false
			}
		}
	}
	return true
}

func (t *tour) push(x int32) {
	if !t.waits[x] {
		t.waits[x] = true
		t.queue = append(t.queue, x)
	}
}
