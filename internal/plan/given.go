package plan

import "foldwright/internal/schedule"

// givenOrder is what the shop would do without a planner: the jobs in the order of the shop file, each on the folder it
// names, else on the folder where it would end first. A job that waits for another comes after it, and what a person has
// pinned to the front of a folder stays there.
func (t *translation) givenOrder() schedule.Order {
	order := make(schedule.Order, len(t.shop.Folders))
	placed := make([]bool, len(t.jobs))
	for m := range order {
		for _, j := range t.problem.Machines[m].Fixed {
			order[m] = append(order[m], j)
			placed[j] = true
		}
	}
	return t.fill(order, placed)
}

// fill puts the jobs that are not placed yet behind those that are.
func (t *translation) fill(order schedule.Order, placed []bool) schedule.Order {
	trial := schedule.NewDecoder(t.problem)
	for range t.jobs {
		j := t.nextGiven(placed)
		if j < 0 {
			break
		}
		m := t.givenFolder(trial, order, j)
		order[m] = append(order[m], j)
		placed[j] = true
	}
	return order
}

// nextGiven is the first job in the order of the file that is not placed while all it waits for is; -1 when none is left.
func (t *translation) nextGiven(placed []bool) int {
	waits := make([]bool, len(t.jobs))
	for _, p := range t.problem.Precedences {
		waits[p.After] = waits[p.After] || !placed[p.Before]
	}
	for j := range t.jobs {
		if !placed[j] && !waits[j] {
			return j
		}
	}
	return -1
}

// givenFolder is the folder the docket names when the job can run there; else the one where it would end first.
func (t *translation) givenFolder(trial *schedule.Decoder, order schedule.Order, j int) int {
	best, end := -1, schedule.Time(0)
	for m := range t.shop.Folders {
		if t.ways[j][m] == nil {
			continue
		}
		if t.jobs[j].Given == t.folder(m).Name {
			return m
		}
		if e := endOn(trial, order, j, m); best < 0 || e < end {
			best, end = m, e
		}
	}
	return best
}

// endOn is when a job would end if it came next on a folder; [schedule.Forever] when it never would.
func endOn(trial *schedule.Decoder, order schedule.Order, j, m int) schedule.Time {
	with := make(schedule.Order, len(order))
	copy(with, order)
	with[m] = append(order[m][:len(order[m]):len(order[m])], j)
	for _, task := range trial.Plan(with).Tasks[m] {
		if task.Job == j {
			return task.RunEnd
		}
	}
	return schedule.Forever
}
