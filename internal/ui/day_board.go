package ui

import (
	"strings"
	"time"

	"foldwright/internal/calendar"
	"foldwright/internal/changeover"
	"foldwright/internal/desk"
	"foldwright/internal/job"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

// dayBoard is the lanes of a day over the hours of the shop. The very same rows are a list where there is no script or no
// room, and blocks on the time axis where there is.
type dayBoard struct {
	Axis    *dayAxis
	Lanes   []dayLane
	Benches []dayBench
	Now     *axisPlace // nil when it is not on the axis
	Hidden  int        // tasks that the filter leaves out
}

// dayLane is what a folder does.
type dayLane struct {
	Name           string
	Number         int
	Tasks          []dayTask
	Closed         []axisSpan
	Makeready, Run time.Duration
	Late           int
	Down           bool // at some time of the days shown
}

// dayTask is a job in its place.
type dayTask struct {
	plan.Task
	axisSpan
	Folder   string
	Place    int // in the order of the folder, from 1
	Pin      job.Pin
	Bars     []dayBar
	Overdue  *axisSpan // from when it was due
	Sets     []words.Text
	Filtered bool // the filter leaves it out
}

// LateInFull is the lateness in full minutes, which is as much as there is room for; more than nothing stays that.
func (t *dayTask) LateInFull() time.Duration { return max(time.Minute, t.Late.Round(time.Minute)) }

// dayBar is a piece of make-ready or run, between two breaks; the places count from where the task begins.
type dayBar struct {
	axisSpan
	Kind string
}

// dayBench is what a bench person does.
type dayBench struct {
	Name   string
	Builds []dayBuild
	Closed []axisSpan
	Work   time.Duration
}

// dayBuild is a piece of bench work.
type dayBuild struct {
	plan.Build
	Where axisSpan
	Bars  []dayBar
}

// dayFilter says which tasks are wanted.
type dayFilter struct {
	Find string
	Late bool
}

func (f dayFilter) leavesOut(t *plan.Task) bool {
	find := strings.ToLower(strings.TrimSpace(f.Find))
	return f.Late && t.Late == 0 || find != "" && !strings.Contains(strings.ToLower(t.Job+" "+t.Title), find)
}

// boarding lays a day out.
type boarding struct {
	shop   *shop.Shop
	draft  *desk.Draft
	filter dayFilter
	hours  map[string]calendar.Hours // by folder
	axis   *dayAxis
	board  *dayBoard
}

// newDayBoard lays a draft out; now is the moment of the shop.
func newDayBoard(s *shop.Shop, d *desk.Draft, f dayFilter, now time.Time) *dayBoard {
	b := &boarding{shop: s, draft: d, filter: f, hours: map[string]calendar.Hours{}, board: &dayBoard{}}
	var all []calendar.Hours
	for _, lane := range d.Plan.Folders {
		h, _ := s.FolderHours(lane.Name)
		b.hours[lane.Name] = h
		all = append(all, h)
	}
	for i := range s.Bench {
		h, _ := s.Hours(&s.Bench[i])
		all = append(all, h)
	}
	b.axis = newDayAxis(d.Plan.From, d.Plan.Figures.End, all)
	b.board.Axis = b.axis
	for i, lane := range d.Plan.Folders {
		b.board.Lanes = append(b.board.Lanes, b.lane(i+1, lane))
	}
	for i := range s.Bench {
		b.board.Benches = append(b.board.Benches, b.bench(&s.Bench[i]))
	}
	if now = now.In(d.Plan.Zone); b.axis.shows(now) {
		at := b.axis.place(now)
		b.board.Now = &at
	}
	return b.board
}

func (b *boarding) lane(number int, lane plan.Folder) dayLane {
	h := b.hours[lane.Name]
	out := dayLane{Name: lane.Name, Number: number, Closed: b.axis.closed(h)}
	for _, w := range h.Gaps {
		out.Down = out.Down || w.From.Before(b.draft.Plan.Figures.End) && w.To.After(b.draft.Plan.From)
	}
	for i := range lane.Tasks {
		t := b.task(lane.Name, &lane.Tasks[i], h)
		out.Makeready, out.Run = out.Makeready+t.Makeready, out.Run+t.Run
		if t.Late > 0 {
			out.Late++
		}
		if t.Filtered {
			b.board.Hidden++
		}
		out.Tasks = append(out.Tasks, t)
	}
	return out
}

func (b *boarding) task(folder string, t *plan.Task, h calendar.Hours) dayTask {
	out := dayTask{Task: *t, Folder: folder, axisSpan: b.axis.span(t.MakereadyStart, t.RunEnd), Sets: plan.InShort(t.Stations), Filtered: b.filter.leavesOut(t)}
	_, out.Place = b.draft.Order.Find(t.Job)
	if j, ok := b.shop.Job(t.Job); ok {
		out.Pin = j.Pin
	}
	out.Bars = append(b.bars("ready", h, t.MakereadyStart, t.RunStart, out.At), b.bars("run", h, t.RunStart, t.RunEnd, out.At)...)
	if t.Late > 0 {
		due := b.axis.span(calendar.Later(t.Due, t.MakereadyStart), t.RunEnd)
		due.At, due.To = due.At.less(out.At), due.To.less(out.At)
		out.Overdue = &due
	}
	return out
}

// bars are the working parts of a piece of time.
func (b *boarding) bars(kind string, h calendar.Hours, from, to time.Time, origin axisPlace) []dayBar {
	if !from.Before(to) {
		return nil
	}
	var out []dayBar
	for _, w := range h.Windows(from, to) {
		s := b.axis.span(w.From, w.To)
		out = append(out, dayBar{axisSpan{s.At.less(origin), s.To.less(origin)}, kind})
	}
	return out
}

func (p axisPlace) less(q axisPlace) axisPlace {
	return axisPlace{p.minutes - q.minutes, p.strips - q.strips}
}

func (b *boarding) bench(who *shop.Person) dayBench {
	h, _ := b.shop.Hours(who)
	out := dayBench{Name: who.Name, Closed: b.axis.closed(h)}
	for _, build := range b.draft.Plan.Day.Bench {
		if build.Person != who.Name {
			continue
		}
		span := b.axis.span(build.Start, build.End)
		out.Work += build.Work
		out.Builds = append(out.Builds, dayBuild{build, span, b.bars("run", h, build.Start, build.End, span.At)})
	}
	return out
}

// stationWords says how a station gets its tools, in full.
func stationWords(st plan.Station) words.Text {
	switch st.Mode {
	case changeover.Keep:
		return words.T("leave %s in", st.Set)
	case changeover.Shift:
		return words.T("leave %s in and move the guide", st.Set)
	case changeover.Swap:
		return words.T("swap %s in from the rack", st.Set)
	case changeover.Built:
		return words.T("swap %s in once the bench has built it", st.Set)
	case changeover.InFolder:
		return words.T("strip and fit %s in the folder", st.Set)
	case changeover.Plain:
		return words.T("swap plain shafts %s in", st.Set)
	}
	return words.T("not decided")
}
