package draw

import (
	"time"

	"foldwright/internal/calendar"
	"foldwright/internal/changeover"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

// The measures of a page of the day, mm: A4 lying, which Letter holds too when printed to fit.
const (
	dayWidth, dayHeight = 297.0, 210.0
	dayMargin           = 10.0
	laneLabel           = 26.0
	laneTop             = 30.0
	laneBar             = 13.5
	legendHeight        = 14.0
)

var (
	penRun   = Pen{Width: Medium}
	penReady = Pen{Width: Narrow, Ink: Blue}
	penLate  = Pen{Width: Broad, Ink: Orange}
	penHour  = Pen{Width: Narrow, Ink: Grey}
)

// Timeline draws the plan, one page a calendar day of the shop: a lane for each folder and one for each bench person,
// with make-ready, runs and builds, the hours nobody works, and where late jobs were due.
func Timeline(pl *plan.Plan, s *shop.Shop, say *words.Speaker) []*Picture {
	var pages []*Picture
	for _, d := range workedDays(pl, s) {
		t := &timeline{plan: pl, shop: s, say: say, from: d.from, to: d.to}
		pages = append(pages, t.draw())
	}
	return pages
}

// timeline draws one page.
type timeline struct {
	p        *Picture
	plan     *plan.Plan
	shop     *shop.Shop
	say      *words.Speaker
	from, to time.Time
	lane     float64        // height of a lane
	hours    calendar.Hours // of the lane at hand
}

func (t *timeline) draw() *Picture {
	date := t.from.Format("2006-01-02")
	t.p = &Picture{Width: dayWidth, Height: dayHeight, Title: t.say.Say("Plan for %s", date)}
	persons := t.shop.Bench
	lanes := len(t.plan.Folders) + len(persons)
	t.lane = min(30, (dayHeight-laneTop-dayMargin-legendHeight)/float64(max(1, lanes)))
	t.p.Write(Text{X: dayMargin, Y: 16, Size: 5, Bold: true, String: t.say.Say("Plan for %s", date)})
	t.p.Write(Text{X: dayWidth - dayMargin, Y: 16, Size: 3.4, Anchor: End, Ink: Grey, String: shortened(t.plan.Shop, 3.4, dayWidth/2)})
	t.clock(laneTop + float64(lanes)*t.lane)
	for i, f := range t.plan.Folders {
		y := laneTop + float64(i)*t.lane
		t.hours, _ = t.shop.FolderHours(f.Name)
		t.laneFrame(y, f.Name)
		for _, task := range f.Tasks {
			t.task(y, task)
		}
	}
	for i := range persons {
		who := &persons[i]
		y := laneTop + float64(len(t.plan.Folders)+i)*t.lane
		t.hours, _ = t.shop.Hours(who)
		t.laneFrame(y, t.say.Say("bench: %s", who.Name))
		t.builds(y, who.Name)
	}
	t.legend(laneTop + float64(lanes)*t.lane + 6)
	return t.p
}

// x is where an instant stands; what lies before or after the page stands at its edge.
func (t *timeline) x(at time.Time) float64 {
	left, right := dayMargin+laneLabel, dayWidth-dayMargin
	at = calendar.Earlier(calendar.Later(at, t.from), t.to)
	return left + (right-left)*float64(at.Sub(t.from))/float64(t.to.Sub(t.from))
}

func (t *timeline) clock(bottom float64) {
	for at := t.from; !at.After(t.to); at = at.Add(time.Hour) {
		x := t.x(at)
		t.p.Line(x, laneTop-3, x, bottom, penHour)
		t.p.Write(Text{X: x, Y: laneTop - 4.2, Size: 2.8, Anchor: Middle, Ink: Grey, String: at.Format("15:04")})
	}
}

// laneFrame draws a lane with its name and shades the hours that nobody works.
func (t *timeline) laneFrame(y float64, name string) {
	t.p.Line(dayMargin, y, dayWidth-dayMargin, y, penRun)
	t.p.Line(dayMargin, y+t.lane, dayWidth-dayMargin, y+t.lane, penRun)
	t.p.Write(Text{X: dayMargin, Y: y + 7, Size: fitSize(name, 3.4, laneLabel-2), Bold: true, String: name})
	closedFrom := t.from
	for _, w := range worked(t.hours, t.from, t.to) {
		t.closed(y, closedFrom, w.From)
		closedFrom = w.To
	}
	t.closed(y, closedFrom, t.to)
}

func (t *timeline) closed(y float64, from, to time.Time) {
	if from.Before(to) {
		t.p.Area(Box{t.x(from), y + 0.3, t.x(to) - t.x(from), t.lane - 0.6}, Pale)
	}
}

// task draws make-ready (shaded with strokes) and run (plain) with the job's name, interrupted where nobody works; a late
// one gets a bar from when it was due and says by how much.
func (t *timeline) task(y float64, task plan.Task) {
	top := y + 3
	for _, b := range t.bars(top, task.MakereadyStart, task.RunStart) {
		t.p.Area(b, White)
		t.hatch(b)
		t.p.Outline(b, penReady)
	}
	runs := t.bars(top, task.RunStart, task.RunEnd)
	for _, b := range runs {
		t.p.Area(b, White)
		t.p.Outline(b, penRun)
	}
	if len(runs) == 0 {
		return
	}
	t.inside(widest(runs), task.Job, task.Title)
	t.sets(y, task)
	if task.Late > 0 {
		t.late(runs[len(runs)-1], task)
	} else if !task.RunEnd.After(t.to) {
		t.due(widest(runs), task)
	}
}

// bars are the working parts of a time span that the page shows.
func (t *timeline) bars(top float64, from, to time.Time) []Box {
	var list []Box
	for _, w := range worked(t.hours, calendar.Later(from, t.from), calendar.Earlier(to, t.to)) {
		list = append(list, Box{t.x(w.From), top, t.x(w.To) - t.x(w.From), laneBar})
	}
	return list
}

func widest(boxes []Box) Box {
	best := boxes[0]
	for _, b := range boxes {
		if b.W > best.W {
			best = b
		}
	}
	return best
}

// sets writes below the make-ready which sets go in, one station a line, where there is room for them.
func (t *timeline) sets(y float64, task plan.Task) {
	const size = 2.2
	if task.MakereadyStart.Before(t.from) {
		return
	}
	x, line := t.x(task.MakereadyStart), y+3+laneBar+3.4
	room := t.x(task.RunEnd) - x - 1
	for _, st := range task.Stations {
		if st.Mode == changeover.Keep || st.Mode == changeover.Shift {
			continue
		}
		text := st.Station + " " + st.Set
		if line+size*descent > y+t.lane || TextWidth(text, size, false) > room {
			return
		}
		t.p.Write(Text{X: x, Y: line, Size: size, Ink: Blue, String: text})
		line += size * 1.25
	}
}

func (t *timeline) hatch(b Box) {
	for x := b.X - b.H; x < b.Right(); x += 1.6 {
		x0, y0, x1, y1 := x, b.Bottom(), x+b.H, b.Y
		if x0 < b.X {
			y0, x0 = y0-(b.X-x0), b.X
		}
		if x1 > b.Right() {
			y1, x1 = y1+(x1-b.Right()), b.Right()
		}
		if x0 < x1 {
			t.p.Line(x0, y0, x1, y1, penReady)
		}
	}
}

// inside writes a name and, where there is room, a title into a bar; a name too wide for it is written upwards.
func (t *timeline) inside(b Box, name, title string) {
	const size = 2.8
	switch {
	case TextWidth(name, size, true) < b.W-1:
		t.p.Write(Text{X: b.X + b.W/2, Y: b.Y + 4, Size: size, Bold: true, Anchor: Middle, String: name})
		if cut := shortened(title, 2.2, b.W-1); cut != "" {
			t.p.Write(Text{X: b.X + b.W/2, Y: b.Y + 7.6, Size: 2.2, Anchor: Middle, Ink: Grey, String: cut})
		}
	case b.W > size*0.95:
		t.p.Write(Text{X: b.X + b.W/2 + 1, Y: b.Bottom() - 0.8, Size: fitSize(name, size, b.H-1.6), Bold: true, Turns: 1, String: name})
	}
}

// shortened is as much of a text as fits, with an ellipsis when something is left out; nothing when that is too little.
func shortened(text string, size, room float64) string {
	if TextWidth(text, size, false) <= room {
		return text
	}
	letters := []rune(text)
	for n := len(letters) - 1; n >= 4; n-- {
		if cut := string(letters[:n]) + "…"; TextWidth(cut, size, false) <= room {
			return cut
		}
	}
	return ""
}

// late draws a broad line above the last part of the run from when it was due, a mark there, and the minutes where there
// is room.
func (t *timeline) late(run Box, task plan.Task) {
	y := run.Y - 1
	from := max(t.x(task.Due), run.X)
	t.p.Line(from, y, run.Right(), y, penLate)
	if t.shows(task.Due) {
		t.p.Shape(pointer(t.x(task.Due), run.Y), Orange)
	}
	if text := t.say.Say("late %s", task.Late); TextWidth(text, 2.2, true) < run.W-0.6 {
		t.p.Write(Text{X: run.Right() - 0.4, Y: run.Bottom() - 0.6, Size: 2.2, Bold: true, Anchor: End, Ink: Orange, String: text})
	}
}

// due marks above the lane when a job that is on time was due, hollow, and says it in the bar where there is room: the
// hour alone when it is the page's own day.
func (t *timeline) due(run Box, task plan.Task) {
	if task.Due.IsZero() {
		return
	}
	if t.shows(task.Due) {
		t.p.Marks = append(t.p.Marks, Stroke{Points: pointer(t.x(task.Due), run.Y), Closed: true, Pen: penRuler})
	}
	at := task.Due.In(t.plan.Zone)
	when := at.Format("15:04")
	if at.YearDay() != t.from.YearDay() || at.Year() != t.from.Year() {
		when = at.Format("01-02 15:04")
	}
	if text := t.say.Say("due %s", when); TextWidth(text, 2.2, false) < run.W-0.6 {
		t.p.Write(Text{X: run.Right() - 0.4, Y: run.Bottom() - 0.6, Size: 2.2, Anchor: End, Ink: Grey, String: text})
	}
}

// shows tells whether an instant is on the page.
func (t *timeline) shows(at time.Time) bool { return !at.Before(t.from) && !at.After(t.to) }

// pointer is a triangle that points down to a place.
func pointer(x, y float64) []Point { return []Point{{x, y}, {x - 1, y - 2.4}, {x + 1, y - 2.4}} }

// builds draws the work of a bench person, each build named below it, moved aside where names would touch.
func (t *timeline) builds(y float64, who string) {
	const size, pitch = 2.2, 2.5
	last := 0.0
	for _, b := range t.plan.Day.Bench {
		bars := t.bars(y+3, b.Start, b.End)
		if b.Person != who || len(bars) == 0 {
			continue
		}
		for _, bar := range bars {
			t.p.Area(bar, White)
			t.p.Outline(bar, penRun)
		}
		middle := bars[0].X + bars[0].W/2
		x := max(middle, last+pitch)
		last = x
		name := b.Set + " → " + b.Job
		foot := bars[0].Bottom() + 1.4
		t.p.Line(middle, bars[0].Bottom(), x, foot, penRuler)
		text := Text{X: x + 0.75, Y: y + t.lane - 0.6, Size: fitSize(name, size, y+t.lane-1.4-foot), Turns: 1, String: name}
		text.Y = foot + TextWidth(name, text.Size, false) + 0.8
		t.p.Write(text)
	}
}

// legend says in words what bars and shades mean.
func (t *timeline) legend(y float64) {
	x := dayMargin
	item := func(draw func(Box), text string) {
		draw(Box{x, y, 9, 4})
		t.p.Write(Text{X: x + 10.5, Y: y + 3.1, Size: 2.8, String: text})
		x += 16 + TextWidth(text, 2.8, false)
	}
	item(func(b Box) { t.hatch(b); t.p.Outline(b, penReady) }, t.say.Say("make-ready"))
	item(func(b Box) { t.p.Outline(b, penRun) }, t.say.Say("run or bench work"))
	item(func(b Box) { t.p.Area(b, Pale) }, t.say.Say("nobody works"))
	item(func(b Box) {
		t.p.Line(b.X+2, b.Y+2.4, b.Right(), b.Y+2.4, penLate)
		t.p.Shape(pointer(b.X+2, b.Y+3.4), Orange)
	}, t.say.Say("late, from when it was due"))
	item(func(b Box) {
		t.p.Marks = append(t.p.Marks, Stroke{Points: pointer(b.X+7, b.Y+3.4), Closed: true, Pen: penRuler})
	}, t.say.Say("due, on time"))
}
