package schedule

// nearest lists for each job the few that it follows at the least set-up, and of equals those due closest to it.
func nearest(m *model, a *arcs) [][]int {
	const few = 10
	near := make([][]int, m.jobs)
	for to := range near {
		near[to] = leastFew(m.jobs, few, func(from int) (Time, Time, bool) { return nearness(m, a, from, to) })
	}
	return near
}

func nearness(m *model, a *arcs, from, to int) (setup, apart Time, ok bool) {
	setup = Forever
	for i := range m.Machines {
		if from != to && m.Jobs[from].Run[i] >= 0 && m.Jobs[to].Run[i] >= 0 {
			setup = min(setup, a.at(i, from, to))
		}
	}
	apart = m.Jobs[from].Due - m.Jobs[to].Due
	return setup, max(apart, -apart), setup < Forever
}

// leastFew is the few numbers below n with the least keys, the least first.
func leastFew(n, few int, key func(int) (Time, Time, bool)) []int {
	type entry struct {
		x    int
		a, b Time
	}
	var list []entry
	for x := range n {
		a, b, ok := key(x)
		if !ok {
			continue
		}
		list = append(list, entry{x, a, b})
		for i := len(list) - 1; i > 0 && (list[i].a < list[i-1].a || list[i].a == list[i-1].a && list[i].b < list[i-1].b); i-- {
			list[i], list[i-1] = list[i-1], list[i]
		}
		list = list[:min(len(list), few)]
	}
	out := make([]int, len(list))
	for i := range list {
		out[i] = list[i].x
	}
	return out
}
