package plan

import (
	"slices"
	"time"

	"foldwright/internal/schedule"
	"foldwright/internal/words"
)

// Way is a way to rescue a late job.
type Way string

const (
	Place    Way = "place"    // elsewhere in the order
	Overtime Way = "overtime" // its folder works longer
	Release  Way = "release"  // its sheets come sooner
	Hands    Way = "bench"    // the set it waits for is ready sooner
	Nothing  Way = "nothing"  // none was found; the text says how near one can come
)

// Rescue is what would bring a late job in on time, all else of the plan being as it is, and what that would change.
type Rescue struct {
	Way     Way
	Folder  string        // where the job runs then
	Place   int           // on the folder, from 1
	End     time.Time     // of the job
	Late    time.Duration // what is left; 0 unless nothing was found
	Working []Span        // the overtime
	By      time.Time     // when sheets or set have to be there; for release and bench, if it hangs on one moment
	Set     string        // the set that has to be there

	// What changes in the plan; more is above 0.
	Cost, Makeready, OthersLate time.Duration

	Text words.Text
}

// Span is a time from and to.
type Span struct{ From, To time.Time }

// rescuer looks for ways to rescue one job of a plan.
type rescuer struct {
	*Prepared
	job   int
	base  outcome
	task  *schedule.Task
	on    int // its folder
	due   schedule.Time
	trial *schedule.Decoder
}

// Rescues tells what would bring a late job of a plan in on time: another place in the order, overtime, sheets that come
// sooner, more hands at the bench; for each way the one that costs least. When there is none, one rescue of the way
// [Nothing] says so. A job that is on time needs none. The plan must be one of this shop.
func (p *Prepared) Rescues(pl *Plan, job string) []Rescue {
	r := p.rescuer(pl, job)
	if r == nil {
		return nil
	}
	var out []Rescue
	place, ok := r.place()
	if ok {
		out = append(out, place)
	}
	for _, way := range []func() (Rescue, bool){r.overtime, r.release, r.hands} {
		if found, ok := way(); ok {
			out = append(out, found)
		}
	}
	if len(out) == 0 {
		place.Way = Nothing
		place.Text = words.T("nothing found; on %s, place %d, it is least late: %s", place.Folder, place.Place, place.Late)
		return []Rescue{place}
	}
	slices.SortStableFunc(out, func(a, b Rescue) int { return int(a.Cost/time.Second) - int(b.Cost/time.Second) })
	return out
}

// Rescue fills in what would rescue so many of the late jobs of a plan, the latest first.
func (p *Prepared) Rescue(pl *Plan, most int) {
	for i := range min(most, len(pl.Late)) {
		pl.Late[i].Rescues = p.Rescues(pl, pl.Late[i].Job)
	}
}

// rescuer is nil when the job is not late in the plan.
func (p *Prepared) rescuer(pl *Plan, job string) *rescuer {
	read, err := p.read(pl.order)
	j, known := p.numbers()[job]
	if err != nil || !known {
		return nil
	}
	r := &rescuer{Prepared: p, job: j, base: p.work(read.order, read.wishes), due: p.problem.Jobs[j].Due}
	r.trial = schedule.NewDecoder(p.problem).Follow(r.base.Wishes)
	if r.task, r.on = taskOf(r.base.Plan, j); r.task == nil || r.task.RunEnd <= r.due {
		return nil
	}
	return r
}

// taskOf finds a job in an answer.
func taskOf(plan *schedule.Plan, j int) (*schedule.Task, int) {
	for m := range plan.Tasks {
		for i := range plan.Tasks[m] {
			if plan.Tasks[m][i].Job == j {
				return &plan.Tasks[m][i], m
			}
		}
	}
	return nil, -1
}

// under is what the plan comes to, by the same ways to the tools, when the problem is another.
func (r *rescuer) under(p *schedule.Problem) *schedule.Plan {
	return schedule.NewDecoder(p).Follow(r.base.Wishes).Plan(r.base.order)
}

// onTime says whether the job is on time in an answer that leaves no more jobs without a place.
func (r *rescuer) onTime(plan *schedule.Plan) bool {
	task, _ := taskOf(plan, r.job)
	return task != nil && task.RunEnd <= r.due && plan.Cost.Unplaced <= r.base.Cost.Unplaced
}

// rescue tells of an answer in which the job is on time, or less late.
func (r *rescuer) rescue(way Way, plan *schedule.Plan, text words.Text) Rescue {
	task, m := taskOf(plan, r.job)
	out := Rescue{
		Way: way, Folder: r.folder(m).Name, End: r.clock(task.RunEnd), Late: duration(max(0, task.RunEnd-r.due)),
		Place:      1 + slices.IndexFunc(plan.Tasks[m], func(t schedule.Task) bool { return t.Job == r.job }),
		Cost:       time.Duration(plan.Cost.Total-r.base.Cost.Total) * time.Millisecond,
		Makeready:  duration(plan.Cost.Setup - r.base.Cost.Setup),
		OthersLate: r.othersLate(plan) - r.othersLate(r.base.Plan),
	}
	said := words.Series{text}
	switch {
	case out.OthersLate >= leastWorth:
		said = append(said, words.T("other jobs are %s later in all", out.OthersLate))
	case out.OthersLate <= -leastWorth:
		said = append(said, words.T("other jobs are %s less late in all", -out.OthersLate))
	}
	switch {
	case out.Makeready >= leastWorth:
		said = append(said, words.T("costs %s more make-ready", out.Makeready))
	case out.Makeready <= -leastWorth:
		said = append(said, words.T("saves %s of make-ready", -out.Makeready))
	}
	out.Text = words.T("%s", said)
	return out
}

// othersLate is the lateness of all other jobs, without their weights.
func (r *rescuer) othersLate(plan *schedule.Plan) time.Duration {
	var sum schedule.Time
	for _, lane := range plan.Tasks {
		for _, task := range lane {
			if task.Job != r.job {
				sum += r.lateness(task)
			}
		}
	}
	return duration(sum)
}

// place is the cheapest place at which the job is on time; when there is none, the one at which it is least late, and
// false.
func (r *rescuer) place() (Rescue, bool) {
	base := without(r.base.order, r.job)
	best, found := r.base.Plan, false
	if r.isFixed(r.job) {
		return r.rescue(Place, best, words.Text{}), false
	}
	for m := range base {
		if r.problem.Jobs[r.job].Run[m] < 0 {
			continue
		}
		for at := len(r.problem.Machines[m].Fixed); at <= len(base[m]) && r.couldHelp(base[m], at); at++ {
			order := slices.Clone(base)
			order[m] = slices.Insert(slices.Clone(base[m]), at, r.job)
			plan := r.trial.Plan(order)
			if plan.Cost.Unplaced > r.base.Cost.Unplaced {
				continue
			}
			switch on := r.onTime(plan); {
			case on && (!found || plan.Cost.Less(best.Cost)):
				best, found = plan, true
			case !found && r.endIn(plan) < r.endIn(best):
				best = plan
			}
		}
	}
	out := r.rescue(Place, best, words.Text{})
	return r.rescue(Place, best, words.T("on %s, place %d: on time", out.Folder, out.Place)), found
}

// couldHelp says whether the job could end sooner than now at a place of a lane: not behind one that ends later.
func (r *rescuer) couldHelp(lane []int, at int) bool {
	if at == 0 {
		return true
	}
	before, _ := taskOf(r.base.Plan, lane[at-1])
	return before == nil || before.RunEnd < r.task.RunEnd
}

// endIn is when the job ends in an answer.
func (r *rescuer) endIn(plan *schedule.Plan) schedule.Time {
	if task, _ := taskOf(plan, r.job); task != nil {
		return task.RunEnd
	}
	return schedule.Forever
}
