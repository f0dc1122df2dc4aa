package main

import "foldwright/internal/schedule"

// readRack reads jobs, sets and places, then a line a set with a 1 for each job that needs it. Loading costs 1.
func readRack(data []byte) (*schedule.Problem, error) {
	w := split(data)
	size, err := w.numbers(3, "one of jobs, sets and places", 1, mostJobs)
	if err != nil {
		return nil, err
	}
	m, err := w.matrix(int(size[1]), int(size[0]), "a need", 0, 1)
	if err != nil {
		return nil, err
	}
	n := int(size[0])
	needs := make([][]int, n)
	p := &schedule.Problem{
		Machines: []schedule.Machine{open()}, Setup: [][][]schedule.Time{table(n)}, Weights: schedule.Weights{Setup: 1},
		Racks: []schedule.Rack{{Places: int(size[2]), Load: 1, Needs: needs}},
	}
	for j := range n {
		p.Jobs = append(p.Jobs, schedule.Job{Run: []schedule.Time{0}, Due: schedule.Forever})
		for x := range m {
			if m[x][j] == 1 {
				needs[j] = append(needs[j], x)
			}
		}
	}
	return p, w.end()
}
