package plan

import (
	"slices"
	"time"

	"foldwright/internal/schedule"
	"foldwright/internal/words"
)

// What counts as overtime (common practice, no source).
const (
	leastPause   = 2 * 3600 // seconds; what is shorter is a break, and people need their breaks
	mostOvertime = 4 * 3600 // seconds a day
)

// overtime finds the least overtime on the job's folder, after a shift or before one, that brings the job in on time; when
// no single one does, so much after every shift until then.
func (r *rescuer) overtime() (Rescue, bool) {
	windows := r.problem.Machines[r.on].Windows
	need := wholeMinutes(workIn(windows, r.due, r.task.RunEnd))
	pauses := r.pauses(windows)
	for _, x := range []schedule.Time{need, 2 * need, mostOvertime} {
		for _, w := range overtimes(pauses, x) {
			if found, ok := r.working(x, w); ok {
				return found, true
			}
		}
	}
	days := schedule.Time(len(pauses))
	if days < 2 {
		return Rescue{}, false
	}
	each := wholeMinutes((need + days - 1) / days)
	return r.working(each, after(pauses, each)...)
}

// pauses are the times between two shifts of the folder in which overtime could help the job, the latest first.
func (r *rescuer) pauses(windows []schedule.Window) []schedule.Window {
	var out []schedule.Window
	last := schedule.Time(0)
	for _, w := range windows {
		if last >= r.due {
			break
		}
		if w.From-last >= leastPause {
			out = append(out, schedule.Window{From: last, To: w.From})
		}
		last = w.To
	}
	slices.Reverse(out)
	return out
}

// overtimes lists overtime of a length after a shift and before one, for every pause.
func overtimes(pauses []schedule.Window, x schedule.Time) []schedule.Window {
	var out []schedule.Window
	for _, p := range pauses {
		if x > min(mostOvertime, p.To-p.From) {
			continue
		}
		if p.From > 0 {
			out = append(out, schedule.Window{From: p.From, To: p.From + x})
		}
		out = append(out, schedule.Window{From: p.To - x, To: p.To})
	}
	return out
}

// after lists overtime of a length after the shift in front of every pause, the earliest first.
func after(pauses []schedule.Window, x schedule.Time) []schedule.Window {
	var out []schedule.Window
	for _, p := range slices.Backward(pauses) {
		if p.From > 0 && x <= min(mostOvertime, p.To-p.From) {
			out = append(out, schedule.Window{From: p.From, To: p.From + x})
		}
	}
	return out
}

// working tells whether the job is on time when its folder works so much longer. A folder that is down cannot.
func (r *rescuer) working(each schedule.Time, more ...schedule.Window) (Rescue, bool) {
	if len(more) == 0 || r.isDown(more) {
		return Rescue{}, false
	}
	problem := *r.problem
	problem.Machines = slices.Clone(problem.Machines)
	problem.Machines[r.on].Windows = withMore(problem.Machines[r.on].Windows, more)
	plan := r.under(&problem)
	if !r.onTime(plan) {
		return Rescue{}, false
	}
	folder := r.folder(r.on).Name
	text := words.T("%s of overtime on %s, %s to %s: on time", duration(each), folder, r.moment(more[0].From), r.moment(more[0].To))
	if len(more) > 1 {
		text = words.T("%s of overtime on %s after each of %d shifts: on time", duration(each), folder, len(more))
	}
	out := r.rescue(Overtime, plan, text)
	for _, w := range more {
		out.Working = append(out.Working, Span{r.clock(w.From), r.clock(w.To)})
	}
	return out, true
}

// isDown says whether the folder is down at any of the times.
func (r *rescuer) isDown(times []schedule.Window) bool {
	state, _ := r.shop.State(r.folder(r.on).Name)
	if state == nil {
		return false
	}
	for _, down := range state.Down {
		for _, w := range times {
			if r.clock(w.From).Before(down.To) && down.From.Before(r.clock(w.To)) {
				return true
			}
		}
	}
	return false
}

// withMore adds windows that touch others but do not overlap them.
func withMore(windows, more []schedule.Window) []schedule.Window {
	all := append(slices.Clone(windows), more...)
	slices.SortFunc(all, func(a, b schedule.Window) int { return int(a.From - b.From) })
	out := all[:1]
	for _, w := range all[1:] {
		if last := &out[len(out)-1]; w.From <= last.To {
			last.To = max(last.To, w.To)
			continue
		}
		out = append(out, w)
	}
	return out
}

// workIn is the working time between two instants.
func workIn(windows []schedule.Window, from, to schedule.Time) schedule.Time {
	var sum schedule.Time
	for _, w := range windows {
		sum += max(0, min(w.To, to)-max(w.From, from))
	}
	return sum
}

func wholeMinutes(s schedule.Time) schedule.Time { return (s + 59) / 60 * 60 }

// moment is a time of the plan for people: the clock, with the day when that is another than the day on which the job is due.
func (r *rescuer) moment(s schedule.Time) any {
	at, due := r.clock(s), r.clock(r.due)
	if at.Format(time.DateOnly) == due.Format(time.DateOnly) {
		return at.Format("15:04")
	}
	return words.Clock(at)
}
