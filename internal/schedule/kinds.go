package schedule

import "slices"

// kinds are the jobs of a machine by what set-ups they cause there: those of one kind, as the sections of a book mostly are, have the same
// set-ups before and after them and the same wants. What is learned of one holds for all.
type kinds struct {
	of   []int   // of each job, and of the present state behind them, which is a kind of its own and the last
	list [][]int // the jobs of each kind; none in the last
}

// newKinds sorts the jobs that a machine can run; the others are of no kind.
func newKinds(m *model, i int) kinds {
	k := kinds{of: make([]int, m.jobs+1)}
	for j := range m.jobs {
		k.of[j] = -1
		if m.Jobs[j].Run[i] < 0 {
			continue
		}
		n := slices.IndexFunc(k.list, func(kin []int) bool { return m.alike(i, kin[0], j) })
		if n < 0 {
			n = len(k.list)
			k.list = append(k.list, nil)
		}
		k.of[j] = n
		k.list[n] = append(k.list[n], j)
	}
	k.of[m.jobs] = len(k.list)
	k.list = append(k.list, nil)
	return k
}

// two are a job of one kind, or the present state, and a job of another; where the kinds are one that has only one job, it twice.
func (k *kinds) two(from, to int) (a, b int) {
	if from == len(k.list)-1 {
		return len(k.of) - 1, k.list[to][0]
	}
	return k.list[from][0], last(k.list[to])
}

// alike says whether two jobs are of one kind on a machine.
func (m *model) alike(i, j, k int) bool {
	if m.started[i] == j || m.started[i] == k {
		return false
	}
	set := m.Setup[i]
	if set[m.jobs][j] != set[m.jobs][k] || set[j][k] != set[k][j] {
		return false
	}
	for x := range m.jobs {
		if x != j && x != k && m.Jobs[x].Run[i] >= 0 && (set[j][x] != set[k][x] || set[x][j] != set[x][k]) {
			return false
		}
	}
	for _, u := range m.units[i] {
		for _, s := range m.stations[u] {
			if !m.Tools.Wants[j][s].equal(&m.Tools.Wants[k][s]) {
				return false
			}
		}
	}
	return true
}

func (w *Want) equal(v *Want) bool {
	if w.Any || v.Any {
		return w.Any == v.Any
	}
	return w.Pattern == v.Pattern && w.Guide == v.Guide && slices.Equal(w.Fits, v.Fits)
}
