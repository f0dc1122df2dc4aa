package schedule

import (
	"context"
	"slices"
	"testing"
)

// Here the search is held to the least of all orders of more jobs than can be gone through one by one. Dynamic programming
// finds it: what a set of jobs costs at least when a certain one of them comes last follows from the sets with one job less
// (M. Held and R. M. Karp, A Dynamic Programming Approach to Sequencing Problems, Journal of the SIAM 10 (1962) 196–210).
// It reads the problem and takes nothing from the decoder.

// subsets is the least sum of steps over all sequences of every set of jobs that end in a given one of it, by set (a bit a
// job) and last; dear where no sequence is allowed. step is what a job costs after another or, from len(need), as the first;
// need is the jobs that must come before each.
func subsets(need []uint, step func(from, to int) Time) []Time {
	n := len(need)
	least := slices.Repeat([]Time{dear}, n<<n)
	for set := range uint(1) << n {
		for to := range n {
			if set>>to&1 == 1 || need[to]&^set != 0 {
				continue
			}
			here := &least[int(set|1<<to)*n+to]
			if set == 0 {
				*here = step(n, to)
			}
			for from := range n {
				if sum := least[int(set)*n+from]; sum < dear {
					*here = min(*here, sum+step(from, to))
				}
			}
		}
	}
	return least
}

// dear is more than any sum of a few steps; steps that cannot be cost as much.
const dear Time = 1 << 40

// needed is the jobs that must come before each, a bit a job.
func needed(p *Problem) []uint {
	need := make([]uint, len(p.Jobs))
	for _, x := range p.Precedences {
		need[x.After] |= 1 << x.Before
	}
	return need
}

// leastPath is the least of all set-ups on the one machine of a problem, with that after the last job.
func leastPath(p *Problem) Time {
	n := len(p.Jobs)
	least := subsets(needed(p), func(from, to int) Time { return p.Setup[0][from][to] })
	best := dear
	for last := range n {
		sum := least[(1<<n-1)*n+last]
		if p.Closing != nil {
			sum += p.Closing[0][last]
		}
		best = min(best, sum)
	}
	return best
}

// label is a way to do a set of jobs: when it ends, and what it has cost.
type label struct{ end, cost Time }

// leastLate is the least weighted lateness on the one machine of a problem. What comes later depends on when a way ends and
// on its last job only; so of the ways for the same set and last job those stay that none beats in both end and cost.
func leastLate(p *Problem) Time {
	n := len(p.Jobs)
	ways := make([][]label, n<<n)
	for set := range uint(1) << n {
		for to := range n {
			if set>>to&1 == 1 {
				continue
			}
			here := &ways[int(set|1<<to)*n+to]
			if set == 0 {
				*here = undercut(nil, label{}.then(p, n, to))
			}
			for from := range n {
				for _, w := range ways[int(set)*n+from] {
					*here = undercut(*here, w.then(p, from, to))
				}
			}
		}
	}
	best := dear
	for _, w := range slices.Concat(ways[(1<<n-1)*n:]...) {
		best = min(best, w.cost)
	}
	return best
}

// then goes on with a job.
func (w label) then(p *Problem, from, to int) label {
	j := &p.Jobs[to]
	end := max(w.end, j.Release) + p.Setup[0][from][to] + j.Run[0]
	return label{end, w.cost + j.Weight*max(0, end-j.Due)}
}

// undercut adds a way to others unless one of them is as good in both, and takes out those that it beats.
func undercut(ways []label, w label) []label {
	if slices.ContainsFunc(ways, func(o label) bool { return o.end <= w.end && o.cost <= w.cost }) {
		return ways
	}
	return append(slices.DeleteFunc(ways, func(o label) bool { return w.end <= o.end && w.cost <= o.cost }), w)
}

// leastMakespan is the least time in which all jobs are done by all machines: for each machine the least for every set of
// jobs, then for the first machines together every way to split every set between the last of them and those before.
func leastMakespan(p *Problem) Time {
	n := len(p.Jobs)
	together := slices.Repeat([]Time{dear}, 1<<n)
	together[0] = 0
	for i := range p.Machines {
		alone := machineAlone(p, i)
		next := slices.Repeat([]Time{dear}, 1<<n)
		for set := range next {
			for part := set; ; part = (part - 1) & set {
				next[set] = min(next[set], max(alone[part], together[set&^part]))
				if part == 0 {
					break
				}
			}
		}
		together = next
	}
	return together[1<<n-1]
}

// machineAlone is the least time in which a machine does each set of jobs.
func machineAlone(p *Problem, i int) []Time {
	n := len(p.Jobs)
	least := subsets(make([]uint, n), func(from, to int) Time {
		if p.Jobs[to].Run[i] < 0 || from < n && p.Jobs[from].Run[i] < 0 {
			return dear
		}
		return p.Setup[i][from][to] + p.Jobs[to].Run[i]
	})
	alone := make([]Time, 1<<n)
	for set := 1; set < len(alone); set++ {
		alone[set] = slices.Min(least[set*n : (set+1)*n])
	}
	return alone
}

// found is the cost of what the search finds, by the definition.
func found(t *testing.T, p *Problem, iterations int) Cost {
	t.Helper()
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	r := Search(context.Background(), p, nil, Options{Seed: 1, Iterations: iterations})
	cost, err := Evaluate(p, r.Order, r.Plan)
	if err != nil || cost.Unplaced > 0 {
		t.Fatalf("%+v: %v", cost, err)
	}
	return cost
}

// tops are what set-ups reach up to: a few seconds, so that many orders cost the same, as much as runs, or far more.
var tops = []int{4, 60, 9999}

// rawJobs is a problem of jobs without due times on machines that work without end; set-ups are not the same both ways.
func rawJobs(d dice, jobs, machines, top int) *Problem {
	p := &Problem{Machines: make([]Machine, machines), Jobs: make([]Job, jobs), Setup: make([][][]Time, machines)}
	for i := range p.Machines {
		p.Machines[i].Windows = []Window{{0, Forever}}
		for range jobs + 1 {
			p.Setup[i] = append(p.Setup[i], someTimes(d, jobs, top))
		}
	}
	for j := range p.Jobs {
		p.Jobs[j] = Job{Run: someTimes(d, machines, 100), Due: Forever}
	}
	return p
}

func someTimes(d dice, n, top int) []Time {
	row := make([]Time, n)
	for i := range row {
		row[i] = Time(d(0, top))
	}
	return row
}

// The reckoning here gives what is proven of published instances (testdata/published/SOURCE.md). A closed tour through 17
// places is a path through 16 with a set-up after the last.
func TestDynamicProgrammingGivesPublishedOptima(t *testing.T) {
	tour := path(matrix(t, "br17.atsp"))
	tour.Precedences, tour.Closing = nil, [][]Time{nil}
	for _, row := range matrix(t, "br17.atsp")[1:] {
		tour.Closing[0] = append(tour.Closing[0], row[0])
	}
	for _, c := range []struct {
		name string
		p    *Problem
		want Time
	}{
		{"br17.atsp", tour, 39},
		{"ESC07.sop", ordering(matrix(t, "ESC07.sop")), 2125},
		{"br17.12.sop", ordering(matrix(t, "br17.12.sop")), 55},
	} {
		if got := leastPath(c.p); got != c.want {
			t.Errorf("%s: %d, proven is %d", c.name, got, c.want)
		}
	}
}

// On one machine the search finds the path with the least set-ups, and the bound stays below it, with a set-up after the
// last job and without, and where some jobs must come before others (the sequential ordering problem: L. F. Escudero,
// European Journal of Operational Research 37 (1988) 236–249).
func TestSearchFindsTheLeastPath(t *testing.T) {
	for _, kind := range []struct {
		name            string
		closing, before bool
	}{{"path", false, false}, {"tour", true, false}, {"path with precedences", false, true}, {"tour with precedences", true, true}} {
		t.Run(kind.name, func(t *testing.T) {
			bounds, sum := Time(0), Time(0)
			for seed := range uint64(18) {
				d := seededDice(seed)
				p := rawJobs(d, 12-int(seed%6), 1, tops[seed/6])
				p.Weights.Setup = 1000
				if kind.closing {
					p.Closing = [][]Time{someTimes(d, len(p.Jobs), 60)}
				}
				if kind.before {
					p.Precedences = precedences(d, len(p.Jobs))
				}
				want := leastPath(p)
				if got := found(t, p, 1500*len(p.Jobs)); got.Setup != want {
					t.Errorf("seed %d, %d jobs: found %d, the least is %d", seed, len(p.Jobs), got.Setup, want)
				}
				bound := Bound(p)
				if bound > want {
					t.Errorf("seed %d: bound %d, the least is %d", seed, bound, want)
				}
				bounds, sum = bounds+bound, sum+want
			}
			if 2*bounds < sum {
				t.Errorf("the bounds sum up to %d of %d: too low to say anything", bounds, sum)
			}
		})
	}
}

// precedences are some that leave no circle, between jobs whose numbers say nothing.
func precedences(d dice, jobs int) []Precedence {
	var list []Precedence
	rank := someTimes(d, jobs, 1<<20)
	for a := range jobs {
		for b := range jobs {
			if rank[a] < rank[b] && d(0, 5) == 0 {
				list = append(list, Precedence{Before: a, After: b})
			}
		}
	}
	return list
}

// On one machine the search finds the least weighted lateness, from due times that nearly all can meet to some that few can.
func TestSearchFindsTheLeastLateness(t *testing.T) {
	late := 0
	for seed := range uint64(24) {
		d := seededDice(seed)
		p := rawJobs(d, 10-int(seed%4), 1, tops[seed/8])
		p.Weights.Late = 1000
		span := Time(len(p.Jobs)) * (50 + p.Setup[0][0][1]/2)
		for j := range p.Jobs {
			p.Jobs[j].Weight, p.Jobs[j].Due = int64(d(1, 10)), span*Time(d(0, 60+int(seed%4)*40))/100
			if seed%2 == 0 && d(0, 2) == 0 {
				p.Jobs[j].Release = span * Time(d(0, 50)) / 100
			}
		}
		want := leastLate(p)
		if got := found(t, p, 200*len(p.Jobs)); got.Late != want {
			t.Errorf("seed %d, %d jobs: found %d, the least is %d", seed, len(p.Jobs), got.Late, want)
		}
		if want > 0 {
			late++
		}
	}
	if late < 8 || late == 24 {
		t.Errorf("%d of 24 problems cannot do without lateness; both should occur", late)
	}
}

// On three machines of which not each can run every job the search finds the least makespan.
func TestSearchFindsTheLeastMakespan(t *testing.T) {
	for seed := range uint64(30) {
		d := seededDice(seed)
		p := rawJobs(d, 9, 3, tops[seed%3])
		p.Weights.Makespan = 1000
		for j := range p.Jobs {
			if d(0, 2) == 0 {
				p.Jobs[j].Run[d(0, 2)] = -1
			}
		}
		want := leastMakespan(p)
		if got := found(t, p, 100_000*len(p.Jobs)); got.Makespan != want {
			t.Errorf("seed %d: found %d, the least is %d", seed, got.Makespan, want)
		}
	}
}

// Tours of which a search by kicks alone was once caught in the second best, however long and with whatever seed.
func TestSearchIsNotCaught(t *testing.T) {
	for _, c := range []struct {
		setup   [][]Time
		closing []Time
		before  []Precedence
		least   Time // of all 24 and 120 orders
	}{
		{
			[][]Time{{38, 30, 19, 59}, {52, 25, 7, 54}, {38, 37, 26, 36}, {32, 30, 2, 45}, {56, 28, 44, 8}},
			[]Time{3, 24, 4, 15},
			[]Precedence{{0, 3}},
			144,
		},
		{
			[][]Time{{51, 28, 36, 19, 3}, {36, 28, 30, 16, 21}, {7, 50, 44, 28, 47}, {19, 9, 38, 41, 27}, {45, 48, 35, 10, 2}, {12, 49, 20, 10, 24}},
			[]Time{19, 15, 45, 47, 42},
			[]Precedence{{3, 0}, {4, 1}},
			99,
		},
	} {
		p := rawJobs(seededDice(1), len(c.closing), 1, 1)
		p.Setup, p.Closing, p.Precedences, p.Weights.Setup = [][][]Time{c.setup}, [][]Time{c.closing}, c.before, 1000
		if want := leastPath(p); want != c.least {
			t.Errorf("%d jobs: the least is %d, said to be %d", len(c.closing), want, c.least)
		}
		if got := found(t, p, 3_000); got.Setup != c.least {
			t.Errorf("%d jobs: found %d, the least is %d", len(c.closing), got.Setup, c.least)
		}
	}
}
