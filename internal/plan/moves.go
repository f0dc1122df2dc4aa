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
	late           schedule.Time
	task           *Task
}

// comparison is an answer beside the order given, job by job.
type comparison struct {
	*translation
	given, found outcome
	was, is      []spot // by job
	moved        []bool // by job: it stands elsewhere than in the order given
	trial        *schedule.Decoder
}

// compare lays an answer beside the order given.
func (p *Prepared) compare(found outcome, day *Day) *comparison {
	c := &comparison{
		translation: p.translation, given: p.given, found: found,
		was: p.spots(p.given.Plan, &p.givenDay), is: p.spots(found.Plan, day),
		trial: schedule.NewDecoder(p.problem),
	}
	c.moved = make([]bool, len(p.jobs))
	for j := range c.moved {
		c.moved[j] = c.was[j].place > 0 && c.is[j].place > 0
	}
	c.stay()
	return c
}

// stay marks the jobs that did not move: those that kept their order among the jobs that stayed on a folder. When one job
// goes to the front of a lane, that job moved; the rest of the lane did not.
func (c *comparison) stay() {
	for m, lane := range c.found.Tasks {
		var places []int
		var jobs []int
		for _, task := range lane {
			if was := c.was[task.Job]; was.place > 0 && was.machine == m {
				places = append(places, was.place)
				jobs = append(jobs, task.Job)
			}
		}
		for _, i := range longestRising(places) {
			c.moved[jobs[i]] = false
		}
	}
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
	order := c.found.order.Clone()
	m := c.was[j].machine
	for i := range order {
		order[i] = slices.DeleteFunc(order[i], func(k int) bool { return k == j })
	}
	at := len(c.problem.Machines[m].Fixed)
	for k := c.was[j].before; k >= 0; k = c.was[k].before {
		if i := slices.Index(order[m], k); i >= 0 {
			at = max(at, i+1)
			break
		}
	}
	order[m] = slices.Insert(order[m], at, j)
	undone := c.trial.Plan(order)
	return undone, undone.Cost.Unplaced <= c.found.Cost.Unplaced
}

// spots lists where every job stands.
func (t *translation) spots(p *schedule.Plan, day *Day) []spot {
	out := make([]spot, len(t.jobs))
	for m, lane := range p.Tasks {
		last := -1
		for i, task := range lane {
			out[task.Job] = spot{machine: m, place: i + 1, before: last, after: -1, late: t.lateness(task), task: &day.Folders[m].Tasks[i]}
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
