package main

import "foldwright/internal/schedule"

// readParallel reads jobs and machines, run times as pairs "machine time" a job, and a square of set-ups a machine.
// There is no set-up before a machine's first job.
func readParallel(data []byte) (*schedule.Problem, error) {
	w := split(data)
	jobs, err := w.number("the number of jobs", 1, mostJobs)
	if err != nil {
		return nil, err
	}
	machines, err := w.number("the number of machines", 1, mostJobs)
	if err != nil {
		return nil, err
	}
	// The rest of the first line and the second line do not matter.
	for first := w.list[0].line; w.left() && w.line() <= first+1; {
		w.next++
	}
	p := &schedule.Problem{Machines: make([]schedule.Machine, machines), Jobs: make([]schedule.Job, jobs), Weights: schedule.Weights{Makespan: 1}}
	for i := range p.Machines {
		p.Machines[i] = open()
	}
	for j := range p.Jobs {
		if p.Jobs[j], err = readRuns(w, int(machines)); err != nil {
			return nil, err
		}
	}
	if err := w.past("SSD"); err != nil {
		return nil, err
	}
	for i := range p.Machines {
		setup, err := readSetups(w, i, int(jobs))
		if err != nil {
			return nil, err
		}
		p.Setup = append(p.Setup, setup)
	}
	return p, w.end()
}

func readRuns(w *words, machines int) (schedule.Job, error) {
	j := schedule.Job{Due: schedule.Forever}
	for i := range machines {
		if _, err := w.number("the number of a machine", int64(i), int64(i)); err != nil {
			return j, err
		}
		run, err := w.number("a run time", 0, most)
		if err != nil {
			return j, err
		}
		j.Run = append(j.Run, run)
	}
	return j, nil
}

func readSetups(w *words, machine, jobs int) ([][]schedule.Time, error) {
	if !w.left() || len(w.list[w.next].text) < 2 || w.list[w.next].text[0] != 'M' {
		return nil, w.faultf("the set-ups of machine %d are missing; they begin with M%d", machine, machine)
	}
	w.next++
	m, err := w.matrix(jobs, jobs, "a set-up", 0, most)
	return append(m, make([]schedule.Time, jobs)), err
}
