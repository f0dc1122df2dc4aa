package schedule

import "slices"

// rack follows one machine's rack through its tasks: whatever is needed has been brought or was kept since its last use,
// never more than the rack holds, and what is brought after the places are full takes its time. Which sets are kept shows
// in which are not brought again. With jobs left out only the times can be checked.
func (e *evaluation) rack(i int) {
	r, tasks := &e.Racks[i], e.plan.Tasks[i]
	if r.Places == 0 {
		for _, t := range tasks {
			e.must(len(t.Brought) == 0 && t.Loads == 0, "sets are brought for job %d, but machine %d has no rack", t.Job, i)
		}
		return
	}
	if len(tasks) < len(e.order[i]) {
		return
	}
	held, brought := make([]int, len(tasks)), 0
	for n, t := range tasks {
		held[n] += len(r.Needs[t.Job])
		free := min(len(t.Brought), max(0, r.Places-brought))
		brought += len(t.Brought)
		e.must(t.Loads == Time(len(t.Brought)-free)*r.Load, "job %d takes %d s to bring %d sets, %d of them free", t.Job, t.Loads, len(t.Brought), free)
		for _, x := range t.Brought {
			e.must(slices.Contains(r.Needs[t.Job], x), "set %d is brought for job %d, which does not need it", x, t.Job)
		}
		for _, x := range r.Needs[t.Job] {
			if !slices.Contains(t.Brought, x) {
				e.kept(i, n, x, held)
			}
		}
	}
	for n, t := range tasks {
		e.must(held[n] <= r.Places, "the rack of machine %d holds %d sets during job %d; it has %d places", i, held[n], t.Job, r.Places)
	}
}

// kept enters a set that lies on the rack from its last use before task n until then.
func (e *evaluation) kept(i, n, x int, held []int) {
	last := n - 1
	for last >= 0 && !slices.Contains(e.Racks[i].Needs[e.plan.Tasks[i][last].Job], x) {
		held[last]++
		last--
	}
	e.must(last >= 0, "set %d for job %d was never brought to the rack of machine %d", x, e.plan.Tasks[i][n].Job, i)
}
