package plan

import (
	"slices"

	"foldwright/internal/schedule"
)

// networker makes a network of a plan.
type networker struct {
	*network
	plan          *schedule.Plan
	made, nominal *schedule.Problem
	uses          [][]use  // by set
	draws         [][]draw // by type of tool
	returns       [][]draw // of tools that come loose
}

// use is a time in which a set is taken: it waits for from, and is free again after until.
type use struct {
	at    schedule.Time
	from  int
	until *wait // nil: never free again
}

// draw is loose tools taken or given back.
type draw struct {
	at   schedule.Time
	n    int
	from int  // who takes
	back wait // who gives back
}

func (w *networker) add(a activity) int {
	w.activities = append(w.activities, a)
	return len(w.activities) - 1
}

// people enters the bench work, each person's one after another.
func (w *networker) people() {
	tools := w.nominal.Tools
	last := make([]int, len(tools.People))
	var hours []*hours
	for i := range last {
		last[i] = -1
		hours = append(hours, newHours(tools.People[i].Windows))
	}
	for _, b := range w.plan.Builds {
		a := activity{kind: benchwork, job: b.Job, hours: hours[b.Person], work: tools.OnBench[b.From][b.Pattern], start: b.Start, end: b.End}
		if last[b.Person] >= 0 {
			a.after = append(a.after, wait{on: last[b.Person]})
		}
		last[b.Person] = w.add(a)
		w.builds = append(w.builds, last[b.Person])
	}
}

// lane enters make-readies and runs of a folder, one after another.
func (w *networker) lane(m int) {
	machine := &w.nominal.Machines[m]
	hours := newHours(machine.Windows)
	from, last := -1, len(w.nominal.Jobs)
	on := w.mountedAtFirst()
	for i := range w.plan.Tasks[m] {
		task := &w.plan.Tasks[m][i]
		a := activity{kind: makeready, job: task.Job, hours: hours, work: w.setup(m, last, task, on), start: task.SetupStart, end: task.RunStart}
		if i == 0 && machine.Started && machine.Fixed[0] == task.Job {
			a.work = 0
		} else {
			a.earliest = w.nominal.Jobs[task.Job].Release
		}
		if from >= 0 {
			a.after = append(a.after, wait{on: from})
		}
		setup := w.add(a)
		from = w.add(activity{
			kind: run, job: task.Job, hours: hours, work: w.nominal.Jobs[task.Job].Run[m], start: task.RunStart, end: task.RunEnd,
			after: []wait{{on: setup}},
		})
		w.setups[task.Job], w.runOf[task.Job], last = setup, from, task.Job
		w.runs = append(w.runs, from)
		for _, mount := range task.Mounts {
			on[mount.Station] = mount.Set
		}
	}
}

// mountedAtFirst is the set in each station at the start; -1 for none.
func (w *networker) mountedAtFirst() []int {
	on := make([]int, len(w.nominal.Tools.Stations))
	for k := range on {
		on[k] = -1
	}
	for x, s := range w.nominal.Tools.Sets {
		if s.Station >= 0 {
			on[s.Station] = x
		}
	}
	return on
}

// setup is the nominal working time of a make-ready.
func (w *networker) setup(m, last int, task *schedule.Task, on []int) schedule.Time {
	tools := w.nominal.Tools
	work := w.nominal.Setup[m][last][task.Job]
	moved := map[int]bool{}
	for _, mount := range task.Mounts {
		st := &tools.Stations[mount.Station]
		switch mount.Mode {
		case schedule.Swap, schedule.Built, schedule.Plain:
			work += st.Swap
		case schedule.InFolder:
			work += tools.InFolder[mount.From][tools.Wants[task.Job][mount.Station].Pattern]
			if mount.Set == on[mount.Station] {
				work += st.Access
			} else {
				work += st.Swap
			}
		}
		moved[st.Unit] = true
	}
	if task.Guides > 0 {
		work += w.guides(task, moved)
	}
	return work
}

// guides is the nominal time of the guide moves of a task: all units of a shop move theirs in the same time.
func (w *networker) guides(task *schedule.Task, units map[int]bool) schedule.Time {
	for u := range w.made.Tools.Units {
		if each := w.made.Tools.Units[u].GuideMove; units[u] && each > 0 {
			return task.Guides / each * w.nominal.Tools.Units[u].GuideMove
		}
	}
	return task.Guides
}

func (w *networker) precedences() {
	for _, p := range w.nominal.Precedences {
		if before, after := w.runOf[p.Before], w.setups[p.After]; before >= 0 && after >= 0 {
			w.activities[after].after = append(w.activities[after].after, wait{on: before})
		}
	}
}

// sets lets every use of a set wait for the one before: a set is in one place at a time.
func (w *networker) sets() {
	w.uses = make([][]use, len(w.nominal.Tools.Sets))
	for i, b := range w.plan.Builds {
		w.uses[b.Set] = append(w.uses[b.Set], use{at: b.Start, from: w.builds[i], until: &wait{on: w.builds[i]}})
	}
	for m := range w.plan.Tasks {
		w.stays(m)
	}
	for _, uses := range w.uses {
		byStart(uses, func(u use) schedule.Time { return u.at })
		for i := 1; i < len(uses); i++ {
			if before := uses[i-1].until; before != nil && uses[i].from >= 0 {
				a := &w.activities[uses[i].from]
				a.after = append(a.after, *before)
			}
		}
	}
}

// stays enters how long sets stand in the stations of a folder: from the make-ready that puts them in to the start of the
// run that needs another.
func (w *networker) stays(m int) {
	on := make([]*use, len(w.nominal.Tools.Stations))
	set := w.mountedAtFirst()
	keep := func(k int) {
		if set[k] >= 0 && on[k] != nil {
			w.uses[set[k]] = append(w.uses[set[k]], *on[k])
		}
	}
	for k := range on {
		if w.nominal.Tools.Stations[k].Machine == m {
			on[k] = &use{at: -1, from: -1}
		}
	}
	for _, task := range w.plan.Tasks[m] {
		for _, mount := range task.Mounts {
			k := mount.Station
			if mount.Set < 0 || mount.Set == set[k] {
				continue
			}
			on[k].until = &wait{on: w.runOf[task.Job], start: true}
			keep(k)
			on[k], set[k] = &use{at: task.SetupStart, from: w.setups[task.Job]}, mount.Set
		}
	}
	for k := range on {
		keep(k)
	}
}

// looseTools lets who takes loose tools wait for those who gave them back, the earliest first.
func (w *networker) looseTools() {
	tools := w.nominal.Tools
	w.draws, w.returns = make([][]draw, len(tools.Loose)), make([][]draw, len(tools.Loose))
	for i, b := range w.plan.Builds {
		w.exchange(b.From, b.Pattern, b.Start, b.End, w.builds[i], wait{on: w.builds[i]})
	}
	for m := range w.plan.Tasks {
		for _, task := range w.plan.Tasks[m] {
			for _, mount := range task.Mounts {
				if mount.Mode == schedule.InFolder {
					want := tools.Wants[task.Job][mount.Station].Pattern
					w.exchange(mount.From, want, task.SetupStart, task.RunStart, w.setups[task.Job], wait{on: w.runOf[task.Job], start: true})
				}
			}
		}
	}
	for typ, loose := range tools.Loose {
		byStart(w.draws[typ], func(d draw) schedule.Time { return d.at })
		byStart(w.returns[typ], func(d draw) schedule.Time { return d.at })
		w.hand(w.draws[typ], w.returns[typ], loose)
	}
}

// exchange enters what one pattern takes and gives back when it becomes another.
func (w *networker) exchange(from, to int, start, end schedule.Time, who int, back wait) {
	patterns := w.nominal.Tools.Patterns
	for _, c := range patterns[to].Tools {
		if n := c.N - countOf(patterns[from], c.Type); n > 0 {
			w.draws[c.Type] = append(w.draws[c.Type], draw{at: start, n: n, from: who})
		}
	}
	for _, c := range patterns[from].Tools {
		if n := c.N - countOf(patterns[to], c.Type); n > 0 {
			w.returns[c.Type] = append(w.returns[c.Type], draw{at: end, n: n, back: back})
		}
	}
}

// hand gives the takers of a type first what lies loose, then what others have given back when they take, the earliest first.
func (w *networker) hand(draws, returns []draw, loose int) {
	left := slices.Clone(returns)
	for _, d := range draws {
		taken := min(loose, d.n)
		loose -= taken
		for i := range left {
			b := &left[i]
			got := min(b.n, d.n-taken)
			if got == 0 || b.at > d.at || w.activities[b.back.on].job == w.activities[d.from].job {
				continue
			}
			b.n, taken = b.n-got, taken+got
			w.activities[d.from].after = append(w.activities[d.from].after, b.back)
		}
	}
}

func countOf(p schedule.Pattern, typ int) int {
	for _, c := range p.Tools {
		if c.Type == typ {
			return c.N
		}
	}
	return 0
}
