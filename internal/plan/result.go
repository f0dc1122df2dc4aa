package plan

import (
	"slices"
	"sort"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/schedule"
	"foldwright/internal/settings"
	"foldwright/internal/words"
)

// outcome is an order with what comes of it.
type outcome struct {
	order schedule.Order
	*schedule.Plan
}

// day works out one answer in full.
func (t *translation) day(found outcome, left []leftOut) Day {
	d := Day{
		Figures:  t.figures(found.Plan),
		Folders:  make([]Folder, len(found.Tasks)),
		Bench:    t.builds(found.Plan),
		Unplaced: t.withoutPlace(found, left),
	}
	for m, lane := range found.Tasks {
		d.Folders[m] = Folder{Name: t.folder(m).Name, Tasks: t.lane(m, lane)}
	}
	d.Late = lateJobs(d.Folders)
	return d
}

// withoutPlace lists, in the order of the shop, the jobs no folder can run, those left out of the order and those that
// found no place.
func (t *translation) withoutPlace(found outcome, left []leftOut) []Unplaced {
	out := slices.Clone(t.unplaced)
	for _, l := range left {
		out = append(out, Unplaced{t.jobs[l.job].Name, []Why{{Text: l.why}}})
	}
	for _, u := range found.Unplaced {
		m := slices.IndexFunc(found.order, func(lane []int) bool { return slices.Contains(lane, u.Job) })
		out = append(out, Unplaced{t.jobs[u.Job].Name, []Why{{t.folder(m).Name, reasons[u.Why]}}})
	}
	place := map[string]int{}
	for i := range t.shop.Jobs {
		place[t.shop.Jobs[i].Name] = i
	}
	slices.SortStableFunc(out, func(a, b Unplaced) int { return place[a.Job] - place[b.Job] })
	return out
}

// reasons are the search's reasons in the words of the shop.
var reasons = map[schedule.Reason]words.Text{
	schedule.NoTools:  words.T("at one station no set serves, and there are never tools enough to build or fit one; more loose tools or another set would help"),
	schedule.NoTime:   words.T("the working hours of its folder end before it does; the calendar has to go further"),
	schedule.Deadlock: words.T("it waits for a job that its pin or its folder puts behind it; take the pin or the condition away"),
	schedule.Orphan:   words.T("it waits for a job that found no place itself"),
}

// figures are the cost of an answer in its parts.
func (t *translation) figures(found *schedule.Plan) Figures {
	f := parts(found.Cost)
	f.End = t.from
	for _, lane := range found.Tasks {
		for _, task := range lane {
			if late := t.lateness(task); late > 0 {
				f.LatePlain += duration(late)
				f.LateJobs++
			}
			if end := t.clock(task.RunEnd); end.After(f.End) {
				f.End = end
			}
		}
	}
	return f
}

// parts are the parts of a cost as durations.
func parts(c schedule.Cost) Figures {
	return Figures{
		Cost:      time.Duration(c.Total) * time.Millisecond,
		Late:      duration(c.Late),
		Makeready: duration(c.Setup),
		Waiting:   duration(c.Wait),
		Bench:     duration(c.Bench),
	}
}

// lateness of a task; 0 when it is on time.
func (t *translation) lateness(task schedule.Task) schedule.Time {
	return max(0, task.RunEnd-t.problem.Jobs[task.Job].Due)
}

// task fills what a task says of its job and its times.
func (t *translation) task(m int, task schedule.Task, way *settings.Settings) Task {
	j := t.jobs[task.Job]
	out := Task{
		Job:            j.Name,
		Title:          j.Title,
		MakereadyStart: t.clock(task.SetupStart),
		RunStart:       t.clock(task.RunStart),
		RunEnd:         t.clock(task.RunEnd),
		Run:            duration(t.problem.Jobs[task.Job].Run[m]),
		RatePerHour:    way.SheetsPerHour,
		Sheets:         j.Sheets,
		Due:            j.Due,
		Late:           duration(t.lateness(task)),
		Weight:         t.problem.Jobs[task.Job].Weight,
	}
	for _, mount := range task.Mounts {
		out.Stations = append(out.Stations, Station{
			Station: t.station(mount.Station).Name,
			Mode:    modes[mount.Mode],
			Set:     t.label(mount.Set),
			Later:   mount.Wished,
		})
	}
	return out
}

// modes are the names of the search's modes.
var modes = [...]changeover.Mode{
	schedule.Keep:     changeover.Keep,
	schedule.Shift:    changeover.Shift,
	schedule.Swap:     changeover.Swap,
	schedule.Built:    changeover.Built,
	schedule.InFolder: changeover.InFolder,
	schedule.Plain:    changeover.Plain,
}

// label of a set; empty when there is none.
func (t *translation) label(set int) string {
	if set < 0 {
		return ""
	}
	return t.shop.Sets[set].Label
}

// lateJobs lists the late jobs, latest first.
func lateJobs(folders []Folder) []Late {
	var out []Late
	for _, f := range folders {
		for _, task := range f.Tasks {
			if task.Late > 0 {
				out = append(out, Late{Job: task.Job, Folder: f.Name, Due: task.Due, End: task.RunEnd, Late: task.Late, Weight: task.Weight})
			}
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].Late > out[b].Late })
	return out
}

// duration turns the seconds of the search into a duration.
func duration(s schedule.Time) time.Duration { return time.Duration(s) * time.Second }
