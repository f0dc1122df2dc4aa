package plan

import (
	"slices"

	"foldwright/internal/schedule"
	"foldwright/internal/words"
)

// release finds when the sheets of the job have to be there for it to be on time where it stands; false when that is not
// what holds it.
func (r *rescuer) release() (Rescue, bool) {
	was := r.problem.Jobs[r.job].Release
	if was <= 0 {
		return Rescue{}, false
	}
	for _, by := range []schedule.Time{r.latestStart(r.task.Setup()), 0} {
		if by < 0 || by >= was {
			continue
		}
		problem := *r.problem
		problem.Jobs = slices.Clone(problem.Jobs)
		problem.Jobs[r.job].Release = by
		if plan := r.under(&problem); r.onTime(plan) {
			out := r.rescue(Release, plan, words.T("released by %s instead of %s: on time", r.moment(by), r.moment(was)))
			out.By = r.clock(by)
			return out, true
		}
	}
	return Rescue{}, false
}

// hands tells whether one more person at the bench brings the job in on time, and which set would have to be ready when
// the job waits for one.
func (r *rescuer) hands() (Rescue, bool) {
	problem, tools := *r.problem, *r.problem.Tools
	hours := r.problem.Machines[r.on].Windows
	if len(tools.People) > 0 {
		hours = tools.People[0].Windows
	}
	tools.People = append(slices.Clone(tools.People), schedule.Person{Windows: hours})
	problem.Tools = &tools
	plan := r.under(&problem)
	if !r.onTime(plan) {
		return Rescue{}, false
	}
	out := r.rescue(Hands, plan, words.T("one more pair of hands at the bench: on time"))
	sooner, _ := taskOf(plan, r.job)
	if build := r.awaited(); build != nil {
		if by := r.latestStart(sooner.Setup()); by >= 0 && by < build.End {
			out = r.rescue(Hands, plan, words.T("set %s ready by %s instead of %s: on time", r.label(build.Set), r.moment(by), r.moment(build.End)))
			out.By, out.Set = r.clock(by), r.label(build.Set)
		}
	}
	return out, true
}

// awaited is the bench work that the job waits for in the plan, when nothing else would keep it from starting sooner.
func (r *rescuer) awaited() *schedule.Build {
	var last *schedule.Build
	for _, mount := range r.task.Mounts {
		if mount.Build >= 0 {
			if b := &r.base.Builds[mount.Build]; last == nil || b.End > last.End {
				last = b
			}
		}
	}
	if last == nil || workIn(r.problem.Machines[r.on].Windows, last.End, r.task.SetupStart) > 0 {
		return nil
	}
	return last
}

// latestStart is when the make-ready of the job has to start on its folder for it to be on time; below 0 when that is
// before the plan begins.
func (r *rescuer) latestStart(setup schedule.Time) schedule.Time {
	work := setup + r.problem.Jobs[r.job].Run[r.on]
	for _, w := range slices.Backward(r.problem.Machines[r.on].Windows) {
		to := min(w.To, r.due)
		if to <= w.From {
			continue
		}
		if to-w.From >= work {
			return to - work
		}
		work -= to - w.From
	}
	return -1
}
