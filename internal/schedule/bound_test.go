package schedule

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// assign equals the least over all permutations.
func TestAssign(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		rows := d(1, 5)
		columns := rows + d(0, 2)
		price := make([][]Time, rows)
		for r := range price {
			for range columns {
				price[r] = append(price[r], Time(d(0, 30)))
			}
		}
		got := assign(rows, columns, func(r, c int) Time { return price[r][c] })
		if want := leastAssignment(price, 0, make([]bool, columns)); got != want {
			t.Fatalf("%v: got %d, want %d", price, got, want)
		}
	})
}

func leastAssignment(price [][]Time, row int, taken []bool) Time {
	if row == len(price) {
		return 0
	}
	least := Time(math.MaxInt64)
	for c := range taken {
		if !taken[c] {
			taken[c] = true
			least = min(least, price[row][c]+leastAssignment(price, row+1, taken))
			taken[c] = false
		}
	}
	return least
}

// grow equals the least over all ways to name a source for every job without circles.
func TestForest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		jobs := d(1, 5)
		sources := jobs + d(1, 2)
		price := make([]Time, jobs*sources)
		for i := range price {
			price[i] = Time(d(0, 20))
		}
		before, sum := grow(jobs, sources, price)
		total := Time(0)
		for j, from := range before {
			if from == j || circles(before) {
				t.Fatalf("%v goes in a circle", before)
			}
			total += price[j*sources+from]
		}
		if want := leastForest(price, make([]int, jobs), 0, sources); sum != want || total != want {
			t.Fatalf("%v of %v costs %d, said to be %d; the least is %d", before, price, total, sum, want)
		}
	})
}

func leastForest(price []Time, before []int, job, sources int) Time {
	if job == len(before) {
		if circles(before) {
			return math.MaxInt64
		}
		var sum Time
		for j, from := range before {
			sum += price[j*sources+from]
		}
		return sum
	}
	least := Time(math.MaxInt64)
	for before[job] = range sources {
		least = min(least, leastForest(price, before, job+1, sources))
	}
	return least
}

// circles says whether some job never comes to a root by going back.
func circles(before []int) bool {
	for j := range before {
		for range before {
			if j < len(before) {
				j = before[j]
			}
		}
		if j < len(before) {
			return true
		}
	}
	return false
}

// No plan with all jobs placed has less set-up than the bound.
func TestBoundHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		bound := Bound(p)
		for range 5 {
			if c := Decode(p, anyOrder(d, p, true)).Cost; c.Unplaced == 0 && c.Setup < bound {
				t.Fatalf("a plan has %d s of set-up, the bound says %d", c.Setup, bound)
			}
		}
	})
}

// Without tooling the bound of one machine is reached when the assignment happens to be a path.
func TestBoundIsReached(t *testing.T) {
	p := bare(3, Window{0, Forever})
	p.Setup = [][][]Time{{{0, 3, 90}, {90, 0, 5}, {90, 90, 0}, {2, 90, 90}}}
	if got, have := Bound(p), Decode(p, Order{{0, 1, 2}}).Cost.Setup; got != 10 || have != 10 {
		t.Errorf("bound %d, plan %d; both should be 2 + 3 + 5", got, have)
	}
	// Fixing the last job first costs 90 for it, and 3 and 90 for the others.
	p.Machines[0].Fixed = []int{2}
	if got := Bound(p); got != 183 {
		t.Errorf("bound %d with job 2 first, want 90 + 90 + 3", got)
	}
}

// The arcs know what no order can avoid at the stations: between jobs that want different patterns one swap or fitting
// at least, and a guide move when their ranges do not meet.
func TestBoundCountsTooling(t *testing.T) {
	p := shafts(2)
	p.Tools.Sets = append(p.Tools.Sets, Set{Pattern: 1, Station: -1})
	p.Tools.Wants[0][0], p.Tools.Wants[1][0] = wantAt(0, 0, 60), wantAt(1, 70, 90)
	best := Cost{Setup: math.MaxInt64}
	for _, o := range []Order{{{0, 1}}, {{1, 0}}} {
		if c := hold(t, p, o).Cost; c.Setup < best.Setup {
			best = c
		}
	}
	if got := Bound(p); got != 47 || best.Setup != 47 {
		t.Errorf("bound %d, best plan %d; both should be 10 + 10 + 20 for the swap + 7 for the guide", got, best.Setup)
	}
}

// every calls f with every order of a small problem.
func every(p *Problem, f func(Order)) {
	order := make(Order, len(p.Machines))
	used := make([]bool, len(p.Jobs))
	for i := range p.Machines {
		for _, j := range p.Machines[i].Fixed {
			order[i] = append(order[i], j)
			used[j] = true
		}
	}
	// Machines are filled one after another, so that every order comes once.
	var fill func(i, left int)
	fill = func(i, left int) {
		if i == len(order) {
			if left == 0 {
				f(order)
			}
			return
		}
		fill(i+1, left)
		for j := range p.Jobs {
			if !used[j] && p.Jobs[j].Run[i] >= 0 {
				used[j] = true
				order[i] = append(order[i], j)
				fill(i, left-1)
				order[i] = order[i][:len(order[i])-1]
				used[j] = false
			}
		}
	}
	fill(0, len(p.Jobs)-countFixed(p))
}

func countFixed(p *Problem) int {
	n := 0
	for i := range p.Machines {
		n += len(p.Machines[i].Fixed)
	}
	return n
}

// every finds n! orders on one machine, (n+1)! on two.
func TestEvery(t *testing.T) {
	for _, c := range []struct{ machines, want int }{{1, 24}, {2, 120}} {
		p := bare(4, Window{0, Forever})
		if c.machines == 2 {
			p = two(4)
		}
		var seen []string
		every(p, func(o Order) { seen = append(seen, orderText(o)) })
		slices.Sort(seen)
		if n := len(slices.Compact(seen)); n != c.want {
			t.Errorf("%d machines: %d orders, want %d", c.machines, n, c.want)
		}
	}
}
