package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"foldwright/internal/schedule"
)

// needSolver leaves the test out where cbc is not installed, unless the tests decide (CI).
func needSolver(t *testing.T) string {
	t.Helper()
	cbc, err := solver()
	if err != nil && os.Getenv("CI") == "" {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	return cbc
}

// smallProblem is six or seven jobs on two machines that are set for something at first and cannot do everything.
func smallProblem(seed uint64) *schedule.Problem {
	rng := rand.New(rand.NewPCG(seed, 11))
	jobs, top := 6+rng.IntN(2), 20+60*rng.Int64N(2)
	p := &schedule.Problem{Weights: schedule.Weights{Makespan: 1}}
	for range jobs {
		j := schedule.Job{Due: schedule.Forever, Run: []schedule.Time{rng.Int64N(50), rng.Int64N(50)}}
		if rng.IntN(4) == 0 {
			j.Run[rng.IntN(2)] = -1
		}
		p.Jobs = append(p.Jobs, j)
	}
	for i := range 2 {
		p.Machines, p.Setup = append(p.Machines, open()), append(p.Setup, table(jobs))
		for _, row := range p.Setup[i] {
			for to := range row {
				row[to] = rng.Int64N(top)
			}
		}
	}
	return p
}

// What the search finds is what cbc proves to be the least, of another statement of the problem.
func TestSolverProvesWhatTheSearchFinds(t *testing.T) {
	cbc := needSolver(t)
	for seed := range uint64(16) {
		p := smallProblem(seed)
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		f := formats["sdst"]
		found, err := ours(p, f, limits{seed: 1, iterations: 50_000})
		if err != nil {
			t.Fatal(err)
		}
		r, err := solve(cbc, p, 0)
		if err != nil {
			t.Fatal(err)
		}
		least, err := r.value(p, f)
		if err != nil || !r.proven || least != found || r.claimed != least {
			t.Errorf("seed %d: found %d, cbc says %d, its order takes %d, proven %t (%v)", seed, found, r.claimed, least, r.proven, err)
		}
	}
}

// The table names the best value known, ours and what cbc finds, and counts.
func TestDuel(t *testing.T) {
	needSolver(t)
	best := filepath.Join(t.TempDir(), "best.csv")
	if err := os.WriteFile(best, []byte("instance,value\ntwo-machines.txt,11\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	err := run([]string{"--set", "sdst", "--cbc", "--iterations", "500", "--time", time.Hour.String(), "--best", best, "testdata/two-machines.txt"}, &out)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(out.String(), "\n")
	if got := strings.Join(strings.Fields(lines[2]), " "); got != "| two-machines.txt | 11 | 11 | 11, proven |" {
		t.Errorf("the line is %q", got)
	}
	if got := lines[len(lines)-2]; got != "of 1: ours better on 0 (on 0 of those cbc finds nothing in its time), equal on 1, worse on 0" {
		t.Errorf("the count is %q", got)
	}
}

// The program of two jobs on a machine and a half, written out by hand: job 0 takes 3 after the start and 4 after job 1,
// job 1 takes 7 after the start and 6 after job 0; machine 1 does job 1 only, in 9.
func TestModelByHand(t *testing.T) {
	p := &schedule.Problem{
		Machines: []schedule.Machine{open(), open()},
		Jobs:     []schedule.Job{{Run: []schedule.Time{2, -1}}, {Run: []schedule.Time{5, 8}}},
		Setup:    [][][]schedule.Time{{{0, 1}, {2, 0}, {1, 2}}, {{0, 9}, {9, 0}, {9, 1}}},
	}
	var out strings.Builder
	if err := writeModel(&out, p); err != nil {
		t.Fatal(err)
	}
	want := `Min cost: makespan Subject To
done_0: +1 x_0_1_0 +1 x_0_2_0 = 1
done_1: +1 x_0_0_1 +1 x_0_2_1 +1 x_1_2_1 = 1
flow_0_0: +1 x_0_1_0 -1 x_0_0_1 +1 x_0_2_0 -1 x_0_0_2 = 0
flow_0_1: +1 x_0_0_1 -1 x_0_1_0 +1 x_0_2_1 -1 x_0_1_2 = 0
start_0: +1 x_0_2_0 +1 x_0_2_1 <= 1
work_0: +6 x_0_0_1 +4 x_0_1_0 +3 x_0_2_0 +7 x_0_2_1 - makespan <= 0
flow_1_1: +1 x_1_2_1 -1 x_1_1_2 = 0
start_1: +1 x_1_2_1 <= 1
work_1: +9 x_1_2_1 - makespan <= 0
ranks_0_1: u_1 - u_0 -2 x_0_0_1 >= -1
ranks_1_0: u_0 - u_1 -2 x_0_1_0 >= -1
Binary x_0_0_1 x_0_0_2 x_0_1_0 x_0_1_2 x_0_2_0 x_0_2_1 x_1_1_2 x_1_2_1 End`
	if got, want := strings.Fields(out.String()), strings.Fields(want); fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("written is\n%s", out.String())
	}
}

// Ways for cbc to end, in the words of its release 2.10.
func TestReadAnswer(t *testing.T) {
	p := &schedule.Problem{Machines: []schedule.Machine{open()}, Jobs: make([]schedule.Job, 2)}
	for _, c := range []struct{ text, want string }{
		{"Optimal - objective value 11.00000000\n 0 makespan 11 0\n 1 x_0_2_1 1 0\n 4 x_0_1_0 0.99999999 -3\n 5 x_0_0_2 1 0\n 6 u_0 1 0\n", "[[1 0]] 11 true <nil>"},
		{"Stopped on time - objective value 12.00000000\n** 0 makespan 12 0\n 1 x_0_2_0 1 0\n 4 x_0_0_1 1 0\n 5 x_0_1_2 1 0\n 6 x_0_1_0 1e-09 0\n", "[[0 1]] 12 false <nil>"},
		{"Stopped on time (no integer solution - continuous used) - objective value 34.26973969\n 1 x_0_2_0 1 0\n", "[] 0 false <nil>"},
		{"Infeasible - objective value 0.00000000\n", `[] 0 false cbc ends with "Infeasible - objective value 0.00000000"`},
	} {
		r, err := readAnswer(c.text, p)
		if got := fmt.Sprint(r.order, r.claimed, r.proven, err); got != c.want {
			t.Errorf("%q is read as %s, want %s", c.text, got, c.want)
		}
	}
}
