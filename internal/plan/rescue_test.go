package plan_test

import (
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"foldwright/internal/calendar"
	"foldwright/internal/exchange"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
)

// taskIn finds a job in a day.
func taskIn(t rapid.TB, day *plan.Plan, job string) plan.Task {
	t.Helper()
	for _, f := range day.Folders {
		for _, task := range f.Tasks {
			if task.Job == job {
				return task
			}
		}
	}
	t.Fatalf("job %s is in no task", job)
	return plan.Task{}
}

// othersLate is the lateness of all jobs of a day but one.
func othersLate(day *plan.Plan, job string) time.Duration {
	sum := time.Duration(0)
	for _, l := range day.Late {
		if l.Job != job {
			sum += l.Late
		}
	}
	return sum
}

// holds compares what a rescue promises with the day that comes of it.
func holds(t rapid.TB, r plan.Rescue, job string, was, is *plan.Plan) {
	t.Helper()
	task := taskIn(t, is, job)
	if task.Late != r.Late || !task.RunEnd.Equal(r.End) {
		t.Errorf("%s: ends %v, late %v; promised are %v, %v", r.Text, task.RunEnd, task.Late, r.End, r.Late)
	}
	if folder, place := is.Order().Find(job); folder != r.Folder || place != r.Place {
		t.Errorf("%s: stands on %s, %d; promised is %s, %d", r.Text, folder, place, r.Folder, r.Place)
	}
	if cost := is.Figures.Cost - was.Figures.Cost; cost != r.Cost {
		t.Errorf("%s: costs %v more, promised is %v", r.Text, cost, r.Cost)
	}
	if more := is.Figures.Makeready - was.Figures.Makeready; more != r.Makeready {
		t.Errorf("%s: needs %v more make-ready, promised is %v", r.Text, more, r.Makeready)
	}
	if more := othersLate(is, job) - othersLate(was, job); more != r.OthersLate {
		t.Errorf("%s: others are %v later, promised is %v", r.Text, more, r.OthersLate)
	}
}

// evaluated works out an order in a shop that is changed first.
func evaluated(t rapid.TB, file []byte, change func(*shop.Shop), order plan.Order) *plan.Plan {
	t.Helper()
	s, err := exchange.ReadShop("shop.yaml", file)
	if err != nil {
		t.Fatal(err)
	}
	change(s)
	if err := s.Check().Err(); err != nil {
		t.Fatal(err)
	}
	p, err := plan.Prepare(s, s.Now)
	if err != nil {
		t.Fatal(err)
	}
	day, err := p.Evaluate(order)
	if err != nil {
		t.Fatal(err)
	}
	return day
}

// longer lets a folder work more, by exceptions of a calendar of its own.
func longer(folder string, spans []plan.Span) func(*shop.Shop) {
	return func(s *shop.Shop) {
		f, _ := s.Folder(folder)
		cal, _ := s.Calendar(f.Calendar)
		own := *cal
		own.Name, own.Days = "longer", maps.Clone(cal.Days)
		if own.Days == nil {
			own.Days = map[string][]calendar.Span{}
		}
		for _, span := range spans {
			from := span.From.In(cal.Zone)
			date := time.Date(from.Year(), from.Month(), from.Day(), 0, 0, 0, 0, cal.Zone)
			day, exception := own.Days[date.Format(time.DateOnly)]
			if !exception {
				day = cal.Week[date.Weekday()]
			}
			more := calendar.Span{From: int(from.Sub(date) / time.Minute), To: int(span.To.Sub(date) / time.Minute)}
			own.Days[date.Format(time.DateOnly)] = append(slices.Clone(day), more)
		}
		s.Calendars = append(s.Calendars, own)
		f.Calendar = "longer"
	}
}

// Goal: every rescue does what it says, to the second. Method: what it asks for is done by hand to the order or to the
// shop itself, and the day worked out anew.
func TestRescuesDoWhatTheySay(t *testing.T) {
	seen := map[plan.Way]int{}
	for name, file := range shops(t) {
		p, _ := prepared(t, file)
		day, err := p.Evaluate(p.Given())
		if err != nil {
			t.Fatal(err)
		}
		p.Rescue(day, len(day.Late))
		for _, late := range day.Late {
			if len(late.Rescues) == 0 {
				t.Errorf("%s: nothing is said about job %s, not even that nothing was found", name, late.Job)
			}
			for _, r := range late.Rescues {
				seen[r.Way]++
				if r.Late > 0 != (r.Way == plan.Nothing) {
					t.Errorf("%s: %s leaves %v late", late.Job, r.Text, r.Late)
				}
				holds(t, r, late.Job, day, rescued(t, file, day, late.Job, r))
			}
		}
	}
	for _, way := range []plan.Way{plan.Place, plan.Overtime} {
		if seen[way] == 0 {
			t.Errorf("no rescue by way of %s; the test shows nothing about it", way)
		}
	}
}

// rescued does what a rescue asks for.
func rescued(t rapid.TB, file []byte, day *plan.Plan, job string, r plan.Rescue) *plan.Plan {
	t.Helper()
	switch r.Way {
	case plan.Overtime:
		return evaluated(t, file, longer(r.Folder, r.Working), day.Order())
	case plan.Release:
		return evaluated(t, file, func(s *shop.Shop) { j, _ := s.Job(job); j.Release = r.By }, day.Order())
	case plan.Hands:
		return evaluated(t, file, func(s *shop.Shop) {
			f, _ := s.Folder(r.Folder)
			more := shop.Person{Calendar: f.Calendar}
			if len(s.Bench) > 0 {
				more = s.Bench[0]
			}
			more.Name = "more hands"
			s.Bench = append(s.Bench, more)
		}, day.Order())
	}
	order, err := day.Order().Move(job, r.Folder, r.Place)
	if err != nil {
		t.Fatal(err)
	}
	return evaluated(t, file, func(*shop.Shop) {}, order)
}

// Goal: the same in many shops, and every way is met. Method: the shops are drawn from fixed seeds.
func TestRescuesHoldInManyShops(t *testing.T) {
	file := read(t, "testdata/workshop.yaml")
	any := rapid.Custom(func(r *rapid.T) []byte {
		s, err := exchange.ReadShop("shop.yaml", file)
		if err != nil {
			r.Fatal(err)
		}
		vary(r, s)
		return exchange.WriteShop(s)
	})
	met := map[plan.Way]int{}
	for seed := range 200 {
		written := any.Example(seed)
		s, err := exchange.ReadShop("varied.yaml", written)
		if err != nil {
			continue // no shop: pins and waiting jobs contradict one another
		}
		p, err := plan.Prepare(s, s.Now)
		if err != nil {
			t.Fatal(err)
		}
		day, err := p.Evaluate(p.Given())
		if err != nil {
			t.Fatal(err)
		}
		p.Rescue(day, len(day.Late))
		for _, late := range day.Late {
			for _, r := range late.Rescues {
				met[r.Way]++
				holds(t, r, late.Job, day, rescued(t, written, day, late.Job, r))
			}
		}
	}
	for _, way := range []plan.Way{plan.Place, plan.Overtime, plan.Release, plan.Hands, plan.Nothing} {
		if met[way] == 0 {
			t.Errorf("no rescue by way of %s was met; the shops are too tame", way)
		}
	}
	t.Log(met)
}

// Goal: the place that is told is the cheapest at which the job is on time; and when none is, the one at which it is least
// late. Method: every place is tried by hand.
func TestRescueByPlaceIsTheCheapest(t *testing.T) {
	p, _ := prepared(t, read(t, "testdata/workshop.yaml"))
	day, err := p.Evaluate(p.Given())
	if err != nil {
		t.Fatal(err)
	}
	if len(day.Late) == 0 {
		t.Fatal("no job is late")
	}
	for _, late := range day.Late {
		cheapest, least := time.Duration(1<<62), late.Late
		for _, lane := range day.Order() {
			for place := 1; place <= len(lane.Jobs)+1; place++ {
				order, err := day.Order().Move(late.Job, lane.Folder, place)
				if err != nil {
					continue
				}
				tried, err := p.Evaluate(order)
				if err != nil || len(tried.Unplaced) > len(day.Unplaced) {
					continue
				}
				is := taskIn(t, tried, late.Job).Late
				least = min(least, is)
				if is == 0 {
					cheapest = min(cheapest, tried.Figures.Cost-day.Figures.Cost)
				}
			}
		}
		told := p.Rescues(day, late.Job)
		at := slices.IndexFunc(told, func(r plan.Rescue) bool { return r.Way == plan.Place })
		switch {
		case least == 0 && (at < 0 || told[at].Cost != cheapest):
			t.Errorf("%s is on time for %v more, told is %v", late.Job, cheapest, told)
		case least > 0 && at >= 0:
			t.Errorf("%s is never on time, told is %v", late.Job, told[at].Text)
		case least > 0 && told[0].Way == plan.Nothing && told[0].Late != least:
			t.Errorf("%s is %v late at the least, told is %v", late.Job, least, told[0].Text)
		}
	}
}

// oneLate is the twins' shop with one job of its own, on the first folder, and little else to do.
func oneLate(t *testing.T, job string, edits ...string) (*plan.Prepared, []byte) {
	t.Helper()
	file := string(read(t, "testdata/workshop.yaml"))
	jobs := file[strings.Index(file, "jobs:"):strings.Index(file, "done:")]
	file = strings.Replace(file, jobs, "jobs:\n"+job+"\n", 1)
	file = strings.NewReplacer(edits...).Replace(file)
	p, _ := prepared(t, []byte(file))
	return p, []byte(file)
}

// Goal: what holds a job is found. Each case is made so that only one thing can help.
func TestRescuesWorkedByHand(t *testing.T) {
	const size = `sheet: 600 x 420, stock: offset 90, fold: "up 1/2"`
	for _, c := range []struct {
		name, job, want string
		edits           []string
	}{
		{
			// Elder works until 22:00, and 185 000 sheets take longer than the two shifts of the day.
			"overtime", `  - {name: "1", ` + size + `, sheets: 185000, due: 2026-03-27 23:00, given: elder, pin: {folder: elder}}`,
			"of overtime on elder, 22:00 to ", nil,
		},
		{
			"release", `  - {name: "1", ` + size + `, sheets: 5000, release: 2026-03-27 12:00, due: 2026-03-27 12:30, given: elder, pin: {folder: elder}}`,
			"released by ", nil,
		},
		{
			"nothing", `  - {name: "1", ` + size + `, sheets: 30000, due: 2026-03-27 06:10, given: elder, pin: {folder: elder}}`,
			"nothing found; on elder, place 1, it is least late: ", nil,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, file := oneLate(t, c.job, c.edits...)
			day, err := p.Evaluate(p.Given())
			if err != nil {
				t.Fatal(err)
			}
			told := p.Rescues(day, "1")
			if len(told) != 1 || !strings.Contains(told[0].Text.String(), c.want) {
				t.Fatalf("%v; the job ends %v", told, taskIn(t, day, "1").RunEnd)
			}
			holds(t, told[0], "1", day, rescued(t, file, day, "1", told[0]))
			if told[0].Way == plan.Overtime { // a minute less is not enough
				less := slices.Clone(told[0].Working)
				less[0].To = less[0].To.Add(-time.Minute)
				if late := taskIn(t, evaluated(t, file, longer("elder", less), day.Order()), "1").Late; late == 0 {
					t.Error("a minute less of overtime would do")
				}
			}
			if told[0].Way == plan.Release { // a minute later is too late
				later := evaluated(t, file, func(s *shop.Shop) { s.Jobs[0].Release = told[0].By.Add(time.Minute) }, day.Order())
				if taskIn(t, later, "1").Late == 0 {
					t.Error("a minute later would do")
				}
			}
		})
	}
}

// Goal: a job that is on time, or that nobody knows, needs no rescue.
func TestNoRescueWhereNoneIsNeeded(t *testing.T) {
	p, _ := prepared(t, read(t, "testdata/workshop.yaml"))
	day, err := p.Evaluate(p.Given())
	if err != nil {
		t.Fatal(err)
	}
	late := map[string]bool{}
	for _, l := range day.Late {
		late[l.Job] = true
	}
	for _, f := range day.Folders {
		for _, task := range f.Tasks {
			if told := p.Rescues(day, task.Job); len(told) > 0 && !late[task.Job] {
				t.Errorf("%s is on time and told %v", task.Job, told)
			}
		}
	}
	if told := p.Rescues(day, "nobody"); told != nil {
		t.Error(told)
	}
}
