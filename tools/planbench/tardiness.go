package main

import "foldwright/internal/schedule"

// readTardiness reads headed sections: run times, weights, due times, and set-ups as triples "from to time", from −1 =
// before the first job.
func readTardiness(data []byte) (*schedule.Problem, error) {
	w := split(data)
	if err := w.past("Problem", "Size:"); err != nil {
		return nil, err
	}
	size, err := w.number("the number of jobs", 1, mostJobs)
	if err != nil {
		return nil, err
	}
	n := int(size)
	p := &schedule.Problem{
		Machines: []schedule.Machine{open()}, Jobs: make([]schedule.Job, n), Setup: [][][]schedule.Time{table(n)},
		Weights: schedule.Weights{Late: 1},
	}
	for _, section := range []struct {
		head []string
		lo   int64
		put  func(*schedule.Job, int64)
	}{
		{[]string{"Process", "Times:"}, 0, func(j *schedule.Job, x int64) { j.Run = []schedule.Time{x} }},
		{[]string{"Weights:"}, 0, func(j *schedule.Job, x int64) { j.Weight = x }},
		{[]string{"Duedates:"}, -most, func(j *schedule.Job, x int64) { j.Due = x }},
	} {
		if err := w.past(section.head...); err != nil {
			return nil, err
		}
		for j := range p.Jobs {
			x, err := w.number(section.head[0], section.lo, most)
			if err != nil {
				return nil, err
			}
			section.put(&p.Jobs[j], x)
		}
	}
	return p, readTriples(w, p.Setup[0])
}

// readTriples fills in the set-ups; each pair must be there once.
func readTriples(w *words, setup [][]schedule.Time) error {
	if err := w.past("Setup", "Times:"); err != nil {
		return err
	}
	n := len(setup) - 1
	seen := make([]bool, (n+1)*n)
	for w.left() && w.list[w.next].text != "End" {
		line := *w
		triple, err := w.numbers(3, "part of a triple from, to, time", -1, most)
		if err != nil {
			return err
		}
		from, to := int(triple[0]), int(triple[1])
		if from < 0 {
			from = n
		}
		if from > n || from == n && triple[0] >= 0 || to < 0 || to >= n || triple[2] < 0 || seen[from*n+to] {
			return line.faultf("the set-up %v is wrong: jobs are counted from 0 to %d, -1 is before the first, and each pair stands once", triple, n-1)
		}
		seen[from*n+to] = true
		setup[from][to] = triple[2]
	}
	for i, ok := range seen {
		if !ok && i/n != i%n {
			from := i / n
			if from == n {
				from = -1
			}
			return w.faultf("the set-up from job %d to job %d is missing", from, i%n)
		}
	}
	return nil
}
