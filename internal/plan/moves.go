package plan

import (
	"sort"

	"foldwright/internal/schedule"
)

// spot is where a job stands in an answer, with what it costs there.
type spot struct {
	machine, place  int
	makeready, late schedule.Time
}

// moves tells of every job that changed its folder or its place among the jobs that stayed on the folder. When one job
// goes to the front of a lane, that job moved; the rest of the lane did not.
func (t *translation) moves(before, after *schedule.Plan) []Move {
	was, is := t.spots(before), t.spots(after)
	stayed := make([]bool, len(t.jobs))
	for m, lane := range after.Tasks {
		var places []int
		var jobs []int
		for _, task := range lane {
			if was[task.Job].machine == m {
				places = append(places, was[task.Job].place)
				jobs = append(jobs, task.Job)
			}
		}
		for _, i := range longestRising(places) {
			stayed[jobs[i]] = true
		}
	}
	var out []Move
	for j := range t.jobs {
		if !stayed[j] && is[j].place > 0 && was[j].place > 0 {
			out = append(out, t.move(j, was[j], is[j]))
		}
	}
	return out
}

func (t *translation) move(j int, was, is spot) Move {
	return Move{
		Job:            t.jobs[j].Name,
		FromFolder:     t.folder(was.machine).Name,
		ToFolder:       t.folder(is.machine).Name,
		FromPlace:      was.place,
		ToPlace:        is.place,
		MakereadyGiven: duration(was.makeready),
		Makeready:      duration(is.makeready),
		LateGiven:      duration(was.late),
		Late:           duration(is.late),
	}
}

// spots lists where every job stands; place 0 means nowhere.
func (t *translation) spots(p *schedule.Plan) []spot {
	out := make([]spot, len(t.jobs))
	for m, lane := range p.Tasks {
		for i, task := range lane {
			out[task.Job] = spot{m, i + 1, task.Setup(), t.lateness(task)}
		}
	}
	return out
}

// longestRising returns the places of a longest rising sub-sequence, ascending: O(n log n), by the tails of the best
// sequence of each length.
func longestRising(values []int) []int {
	tails := []int{} // tails[k]: the place of the least value that ends a rising sequence of k+1
	before := make([]int, len(values))
	for i, v := range values {
		k := sort.Search(len(tails), func(k int) bool { return values[tails[k]] >= v })
		before[i] = -1
		if k > 0 {
			before[i] = tails[k-1]
		}
		if k == len(tails) {
			tails = append(tails, i)
		} else {
			tails[k] = i
		}
	}
	out := make([]int, len(tails))
	if len(tails) == 0 {
		return out
	}
	for i, at := len(tails)-1, tails[len(tails)-1]; i >= 0; i, at = i-1, before[at] {
		out[i] = at
	}
	return out
}
