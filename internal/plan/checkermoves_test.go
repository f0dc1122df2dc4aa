package plan_test

import (
	"maps"
	"slices"
	"strings"

	"foldwright/internal/exchange"
)

// stands is where a job stands in a day.
type stands struct {
	folder string
	place  int
	before string
	lines  map[string]int64 // seconds, all tooling under one name
	sum    int64
}

// standings lists where every job of a day stands.
func standings(d *exchange.PlanDay) map[string]stands {
	out := map[string]stands{}
	for _, f := range d.Folders {
		before := ""
		for i, task := range f.Tasks {
			s := stands{f.Folder, i + 1, before, map[string]int64{}, seconds(task.MakereadyMin)}
			for _, l := range task.Lines {
				what, _, _ := strings.Cut(l.What, " ")
				s.lines[what] += seconds(l.Min)
			}
			out[task.Job], before = s, task.Job
		}
	}
	return out
}

// moves checks what the plan says about its moves: that they are the fewest that lead from the order given to the plan,
// and that every second of make-ready that differs is put down where the rule of the plan puts it.
func (c *checker) moves() {
	was, is := standings(&c.doc.GivenOrder), standings(&c.doc.PlanDay)
	moved := map[string]bool{}
	for _, m := range c.doc.Moves {
		moved[m.Job] = true
		if w, i := was[m.Job], is[m.Job]; w.folder != m.FromFolder || w.place != m.FromPlace || i.folder != m.ToFolder || i.place != m.ToPlace ||
			w.sum != seconds(m.MakereadyGivenMin) || i.sum != seconds(m.MakereadyMin) {
			c.object("move of %s does not tell where it stood and stands", m.Job)
		}
		if !m.Alone && m.PaysMin != 0 {
			c.object("move of %s pays %v min and cannot be undone alone", m.Job, m.PaysMin)
		}
		if m.Why == "" {
			c.object("nobody says why %s moved", m.Job)
		}
	}
	c.fewestMoves(was, moved)
	want := map[string]map[string][2]int64{"": {}}
	for _, job := range slices.Sorted(maps.Keys(both(was, is))) {
		account := accountOf(job, was[job], is[job], moved)
		if want[account] == nil {
			want[account] = map[string][2]int64{}
		}
		for what, s := range was[job].lines {
			x := want[account][what]
			want[account][what] = [2]int64{x[0] + s, x[1]}
		}
		for what, s := range is[job].lines {
			x := want[account][what]
			want[account][what] = [2]int64{x[0], x[1] + s}
		}
	}
	saved := c.gains("elsewhere", c.doc.Elsewhere, want[""])
	for _, m := range c.doc.Moves {
		saved += c.gains("move of "+m.Job, m.Gains, want[m.Job])
	}
	if difference := seconds(c.doc.GivenOrder.MakereadyMin) - seconds(c.doc.MakereadyMin); saved != difference {
		c.object("the moves explain %d s of make-ready, the days differ by %d s", saved, difference)
	}
}

func both(a, b map[string]stands) map[string]stands {
	out := maps.Clone(a)
	maps.Copy(out, b)
	return out
}

// accountOf is the rule: the moved job itself, else the moved one in front of it now, else the moved one in front of it in
// the order given, else nobody.
func accountOf(job string, was, is stands, moved map[string]bool) string {
	switch {
	case moved[job]:
		return job
	case was.place > 0 && is.place > 0 && moved[is.before]:
		return is.before
	case was.place > 0 && is.place > 0 && moved[was.before]:
		return was.before
	}
	return ""
}

// gains compares what is said with what the days give, and returns what is saved.
func (c *checker) gains(at string, says []exchange.PlanGain, want map[string][2]int64) int64 {
	var saved int64
	told := map[string]bool{}
	for _, g := range says {
		w := want[g.What]
		if told[g.What] || seconds(g.GivenMin) != w[0] || seconds(g.Min) != w[1] || w[0] == w[1] {
			c.object("%s: %s is %v min, was %v; the lines give %v s", at, g.What, g.Min, g.GivenMin, w)
		}
		told[g.What] = true
		saved += seconds(g.GivenMin) - seconds(g.Min)
	}
	for what, w := range want {
		if w[0] != w[1] && !told[what] {
			c.object("%s: nothing is said of %s, %v s", at, what, w)
		}
	}
	return saved
}

// fewestMoves makes sure that no fewer jobs could be said to have moved: on every folder those that did not are a longest
// row that stands in the same order in both days. Method: the plain quadratic recurrence.
func (c *checker) fewestMoves(was map[string]stands, moved map[string]bool) {
	for _, f := range c.doc.Folders {
		var places []int
		stayed, last := 0, 0
		for _, task := range f.Tasks {
			w := was[task.Job]
			if w.folder != f.Folder {
				if w.place > 0 && !moved[task.Job] {
					c.object("%s came to %s and is not among the moves", task.Job, f.Folder)
				}
				continue
			}
			places = append(places, w.place)
			if !moved[task.Job] {
				stayed++
				if w.place < last {
					c.object("%s stands out of order on %s and is not among the moves", task.Job, f.Folder)
				}
				last = w.place
			}
		}
		longest := make([]int, len(places))
		most := 0
		for i := range places {
			longest[i] = 1
			for k := range i {
				if places[k] < places[i] {
					longest[i] = max(longest[i], longest[k]+1)
				}
			}
			most = max(most, longest[i])
		}
		if stayed != most {
			c.object("%s: %d jobs are said to have stayed, %d did", f.Folder, stayed, most)
		}
	}
}
