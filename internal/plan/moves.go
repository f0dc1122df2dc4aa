package plan

import (
	"slices"
	"sort"

	"foldwright/internal/schedule"
)

// spot is where a job stands in a day, with what it costs there.
type spot struct {
	machine, place int // the place from 1; 0 when it stands nowhere
	before, after  int // the jobs in front of it and behind it on the folder; -1 when there are none
	task           *Task
}

// comparison is an answer beside the order given, job by job.
type comparison struct {
	*translation
	given, found outcome
	was, is      []spot // by job
	moved        []bool // by job
	trial        *schedule.Decoder
}

// compare lays an answer beside the order given.
func (p *Prepared) compare(found outcome, day *Day) *comparison {
	c := &comparison{
		translation: p.translation, given: p.given, found: found,
		was: p.spots(p.given.Plan, &p.givenDay), is: p.spots(found.Plan, day),
		trial: schedule.NewDecoder(p.problem).Follow(found.Wishes),
	}
	c.moved = moved(c.was, found.Plan)
	return c
}

// moved tells of each job whether it has another folder or place now than it had: all that have a place in both but those
// that kept their order among the jobs that stayed on a folder. When one job goes to the front of a lane, that job moved;
// the rest of the lane did not.
func moved(was []spot, now *schedule.Plan) []bool {
	out := make([]bool, len(was))
	for m, lane := range now.Tasks {
		var places []int
		var jobs []int
		for _, task := range lane {
			out[task.Job] = was[task.Job].place > 0
			if was := was[task.Job]; was.place > 0 && was.machine == m {
				places = append(places, was.place)
				jobs = append(jobs, task.Job)
			}
		}
		for _, i := range longestRising(places) {
			out[jobs[i]] = false
		}
	}
	return out
}

// moves tells of every job that changed its folder or its place among the jobs that stayed on the folder, and of the
// make-ready that hangs on none of them.
func (c *comparison) moves() (moves []Move, elsewhere []Gain) {
	accounts, rest := c.accounts()
	for j := range c.jobs {
		if c.moved[j] {
			moves = append(moves, c.move(j, &accounts[j]))
		}
	}
	return moves, rest.gains()
}

func (c *comparison) move(j int, a *account) Move {
	was, is := c.was[j], c.is[j]
	m := Move{
		Job:            c.jobs[j].Name,
		FromFolder:     c.folder(was.machine).Name,
		ToFolder:       c.folder(is.machine).Name,
		FromPlace:      was.place,
		ToPlace:        is.place,
		MakereadyGiven: was.task.Makeready,
		Makeready:      is.task.Makeready,
		LateGiven:      was.task.Late,
		Late:           is.task.Late,
		Gains:          a.gains(),
	}
	undone, ok := c.undo(j)
	m.Alone = ok
	if ok {
		m.Pays = duration(undone.Cost.Total-c.found.Cost.Total) / 1000
	}
	m.Why = c.why(j, a, &m, undone)
	return m
}

// undo is what the answer would be with one job back where the order given has it; false when it cannot go back alone,
// because a job would then be without a place.
func (c *comparison) undo(j int) (*schedule.Plan, bool) {
	undone := c.trial.Plan(c.goBack(c.was, c.found.order, j))
	return undone, undone.Cost.Unplaced <= c.found.Cost.Unplaced
}

// goBack is an order with one job back on the folder where it was, behind the nearest of the jobs then in front of it that
// is there still; behind the fixed ones at least.
func (t *translation) goBack(was []spot, order schedule.Order, j int) schedule.Order {
	out := without(order, j)
	m := was[j].machine
	at := len(t.problem.Machines[m].Fixed)
	for k := was[j].before; k >= 0; k = was[k].before {
		if i := slices.Index(out[m], k); i >= 0 {
			at = max(at, i+1)
			break
		}
	}
	out[m] = slices.Insert(out[m], at, j)
	return out
}

// without is a copy of an order without a job.
func without(order schedule.Order, j int) schedule.Order {
	out := order.Clone()
	for m := range out {
		out[m] = slices.DeleteFunc(out[m], func(k int) bool { return k == j })
	}
	return out
}

// spots lists where every job stands; without the tasks when there is no day.
func (t *translation) spots(p *schedule.Plan, day *Day) []spot {
	out := make([]spot, len(t.jobs))
	for m, lane := range p.Tasks {
		last := -1
		for i, task := range lane {
			out[task.Job] = spot{machine: m, place: i + 1, before: last, after: -1}
			if day != nil {
				out[task.Job].task = &day.Folders[m].Tasks[i]
			}
			if last >= 0 {
				out[last].after = task.Job
			}
			last = task.Job
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
