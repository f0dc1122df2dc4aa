package main

import (
	"bytes"

	"foldwright/internal/schedule"
)

// readMatrix reads the dimension and the full matrix of a TSPLIB95 file.
func readMatrix(data []byte, again bool, lo int64) ([][]int64, error) {
	w := split(bytes.ReplaceAll(data, []byte(":"), []byte(" : ")))
	n, err := dimension(w)
	if err != nil {
		return nil, err
	}
	if err := w.past("EDGE_WEIGHT_FORMAT", ":", "FULL_MATRIX"); err != nil {
		return nil, err
	}
	if err := w.past("EDGE_WEIGHT_SECTION"); err != nil {
		return nil, err
	}
	if again {
		if _, err := w.number("the dimension again", int64(n), int64(n)); err != nil {
			return nil, err
		}
	}
	m, err := w.matrix(n, n, "a weight", lo, most)
	if err != nil {
		return nil, err
	}
	if w.left() && w.list[w.next].text == "EOF" {
		w.next++
	}
	return m, w.end()
}

func dimension(w *words) (int, error) {
	if err := w.past("DIMENSION", ":"); err != nil {
		return 0, err
	}
	n, err := w.number("the dimension", 2, mostJobs)
	return int(n), err
}

// readTour makes of a closed tour a machine that is left as it began: city 0 is its present state.
func readTour(data []byte) (*schedule.Problem, error) {
	m, err := readMatrix(data, false, 0)
	if err != nil {
		return nil, err
	}
	return between(m, 0, m[1:]), nil
}

// readPath makes of a path with precedences a machine whose present state is the first node and which is left as the last
// one: −1 at (i, j) means that j comes before i. The rows between are the jobs.
func readPath(data []byte) (*schedule.Problem, error) {
	m, err := readMatrix(data, true, -1)
	if err != nil {
		return nil, err
	}
	last := len(m) - 1
	p := between(m[:last], last, m[1:last])
	for i := 1; i < last; i++ {
		for j := 1; j < last; j++ {
			if m[i][j] < 0 {
				p.Precedences = append(p.Precedences, schedule.Precedence{Before: j - 1, After: i - 1})
				p.Setup[0][i-1][j-1] = 0 // cannot be
			}
		}
	}
	return p, nil
}

// between is the problem of going from city 0 through all rows to the city home.
func between(m [][]int64, home int, jobs [][]int64) *schedule.Problem {
	n := len(jobs)
	p := &schedule.Problem{
		Machines: []schedule.Machine{open()}, Setup: [][][]schedule.Time{table(n)}, Closing: [][]schedule.Time{make([]schedule.Time, n)},
		Weights: schedule.Weights{Setup: 1},
	}
	for i := range n {
		p.Jobs = append(p.Jobs, schedule.Job{Run: []schedule.Time{0}, Due: schedule.Forever})
		copy(p.Setup[0][i], jobs[i][1:n+1])
		p.Closing[0][i] = jobs[i][home]
	}
	copy(p.Setup[0][n], m[0][1:n+1])
	return p
}
