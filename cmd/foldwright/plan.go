package main

import (
	"context"
	"fmt"
	"strings"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/plan"
	speech "foldwright/internal/words"
)

type planCommand struct {
	shopFlag
	planFlags
}

// searchFlags say how long to plan.
type searchFlags struct {
	Time       time.Duration `default:"5s" help:"How long to search, such as 5s or 2m; does not count with --iterations."`
	Iterations int           `placeholder:"N" help:"Search exactly so far instead: the same plan on every machine."`
	Seed       uint64        `default:"1" help:"Where the search begins; another seed may find another plan."`
}

// planFlags say how to answer, too; the demo takes them as well.
type planFlags struct {
	searchFlags
	langFlag
	Lines bool `help:"Print the lines of every make-ready too."`
	JSON  bool `name:"json" xor:"as" help:"As JSON."`
	SVG   bool `name:"svg" xor:"as" help:"As a picture: the lanes of every day, as SVG."`
}

func (planCommand) Help() string {
	return `
Decides which folder runs which job after which, how every station gets its tools and what the bench builds when, and puts
the order given beside it. The plan never costs more than the order given. Jobs that nobody can fold are listed with what
comes nearest.

Examples:

    foldwright plan --shop shop.yaml
    foldwright plan --shop shop.yaml --time 1m --lines
    foldwright plan --shop shop.yaml --iterations 2000 --seed 7 --json
    foldwright plan --shop shop.yaml --svg > day.svg
`
}

func (c searchFlags) Validate() error {
	switch {
	case c.Iterations < 0:
		return fmt.Errorf("--iterations is %d; it counts from 1", c.Iterations)
	case c.Iterations == 0 && c.Time <= 0:
		return fmt.Errorf("--time is %v; it must be more than nothing, such as 5s", c.Time)
	}
	return nil
}

func (c planCommand) Run(ctx context.Context, s streams) error { return c.plan(ctx, s, c.desk(s)) }

// plan asks the desk for the plan of its shop and prints it.
func (c planFlags) plan(ctx context.Context, s streams, d *desk.Desk) error {
	p, err := c.search(ctx, s, d)
	if err != nil {
		return err
	}
	switch {
	case c.JSON:
		return s.json(exchange.Plan(p))
	case c.SVG:
		return c.timeline(ctx, s, d, p)
	}
	showPlan(s, p, c.Lines, c.speaker(p.Inch))
	return nil
}

// search asks for the plan, at most as long as wished, and shows how far it is.
func (c searchFlags) search(ctx context.Context, s streams, d *desk.Desk) (*plan.Plan, error) {
	began := s.now()
	bar := s.progress(ctx, "planning", c.total())
	defer bar.done()
	if c.Iterations == 0 {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(ctx, c.Time)
		defer stop()
	}
	p, err := d.Plan(ctx, plan.Options{Seed: c.Seed, Iterations: c.Iterations, Progress: func(at plan.Progress) {
		done := int64(at.Iterations)
		if c.Iterations == 0 {
			done = int64(s.now().Sub(began) / time.Millisecond)
		}
		bar.set(done, fmt.Sprintf("cost %s min, given %s", minutes(at.Best.Cost), minutes(at.From.Cost)))
	}})
	if p != nil {
		p.Search.Took = s.now().Sub(began)
	}
	return p, err
}

// total is what the progress counts up to: iterations, or milliseconds.
func (c searchFlags) total() int64 {
	if c.Iterations > 0 {
		return int64(c.Iterations)
	}
	return int64(c.Time / time.Millisecond)
}

// showPlan prints a plan for people: the figures beside those of the order given, a lane a folder, with the lines of each
// make-ready when wished, the bench, and what asks for attention.
func showPlan(s streams, p *plan.Plan, lines bool, say *speech.Speaker) {
	s.title("%s, from %s", p.Shop, planMoment(p.From))
	s.gap()
	showFigures(s, p)
	for _, f := range p.Folders {
		showLane(s, f, lines, say)
	}
	s.gap()
	s.say(toolsKey)
	showBench(s, p.Bench, p.Inch)
	showLate(s, p.Late)
	showUnplaced(s, p.Unplaced, say)
	showMoves(s, p.Moves)
}

// showFigures puts plan and order given side by side.
func showFigures(s streams, p *plan.Plan) {
	t := newTable(words("minutes"), figures("plan"), figures("order given"), figures("saved"), figures("weight"))
	part := func(name string, is, was time.Duration, weight string) {
		t.row(name, minutes(is), minutes(was), minutes(was-is), weight)
	}
	is, was := p.Figures, p.Given.Figures
	part("late, by docket weight", is.Late, was.Late, planWeight(p.Weights.Late))
	part("make-ready", is.Makeready, was.Makeready, planWeight(p.Weights.Makeready))
	part("waiting", is.Waiting, was.Waiting, planWeight(p.Weights.Waiting))
	part("bench", is.Bench, was.Bench, planWeight(p.Weights.Bench))
	part("cost", is.Cost, was.Cost, "")
	t.write(s)
	s.say("Late jobs: %d by %s min in all, in the order given %d by %s.", is.LateJobs, minutes(is.LatePlain), was.LateJobs, minutes(was.LatePlain))
	s.say("Ends %s, in the order given %s.", planMoment(is.End), planMoment(was.End))
	if p.Bound > 0 {
		s.say("No order needs less than %s min of make-ready; this one needs %s.", minutes(p.Bound), minutes(is.Makeready))
	}
	s.say("%d iterations from seed %d in %.1f s.", p.Search.Iterations, p.Search.Seed, p.Search.Took.Seconds())
}

// showLane prints what a folder does.
func showLane(s streams, f plan.Folder, lines bool, say *speech.Speaker) {
	s.gap()
	s.title("%s", f.Name)
	if len(f.Tasks) == 0 {
		s.say("nothing to do")
		return
	}
	t := newTable(words("make-ready"), words("run"), words("end"), words("job"), words(""), figures("min"), figures("late"), figures("sheets/h"), words("tools"))
	for _, task := range f.Tasks {
		t.row(planMoment(task.MakereadyStart), hour(task.RunStart, task.MakereadyStart), hour(task.RunEnd, task.RunStart), task.Job, task.Title,
			minutes(task.Makeready), lateMinutes(s, task.Late), fmt.Sprint(task.RatePerHour), toolsInShort(task.Stations))
		if lines {
			showLines(t, task.Lines, say)
		}
	}
	t.write(s)
}

// showLines puts the lines of a make-ready below its job, minutes under minutes.
func showLines(t *table, lines []changeover.Line, say *speech.Speaker) {
	for _, l := range lines {
		t.row("", "", "", "", "", minutes(l.Time), "", "", "  "+say.Say("%s: %s", l.What, l.Why))
	}
}

// hour is a moment with the day only when it is another day than that of the moment before.
func hour(t, before time.Time) string {
	if t.Format(time.DateOnly) == before.Format(time.DateOnly) {
		return t.Format("15:04")
	}
	return planMoment(t)
}

// toolsInShort tells what is done at the stations; where nothing is done there is nothing to tell.
func toolsInShort(stations []plan.Station) string {
	var said []string
	for _, st := range stations {
		switch st.Mode {
		case changeover.Shift:
			said = append(said, st.Station+" shift")
		case changeover.Swap:
			said = append(said, st.Station+" "+st.Set+" in")
		case changeover.Built:
			said = append(said, st.Station+" "+st.Set+" built")
		case changeover.InFolder:
			said = append(said, st.Station+" "+st.Set+" fitted")
		case changeover.Plain:
			said = append(said, st.Station+" "+st.Set+" plain")
		}
	}
	return strings.Join(said, ", ")
}

// toolsKey says what the short words of the lanes mean.
const toolsKey = `Tools: in = a set from the rack; built = a set the bench has built before; fitted = stripped and fitted at the machine;
plain = plain shafts; shift = the set stays, the side guide moves; nothing said = all stays.`

// lateMinutes are there only when the job is late.
func lateMinutes(s streams, late time.Duration) string {
	if late == 0 {
		return ""
	}
	return s.warn(minutes(late))
}

// showBench prints what is built when.
func showBench(s streams, builds []plan.Build, inch bool) {
	if len(builds) == 0 {
		return
	}
	s.gap()
	s.title("Bench")
	t := newTable(words("start"), words("end"), words("set"), words("for"), words("at"), words("from"), words("to"), words("who"))
	for _, b := range builds {
		t.row(planMoment(b.Start), hour(b.End, b.Start), b.Set, b.Job, b.Folder+" "+b.Station, toolWords(b.From, inch), builtWords(b, inch), b.Person)
	}
	t.write(s)
}

// builtWords says what a set becomes on the bench.
func builtWords(b plan.Build, inch bool) string {
	if b.Frees {
		return "plain, to free its tools"
	}
	return toolWords(b.To, inch)
}

// showLate lists the late jobs.
func showLate(s streams, late []plan.Late) {
	if len(late) == 0 {
		return
	}
	s.gap()
	s.title("Late")
	t := newTable(words("job"), words("folder"), words("due"), words("end"), figures("min"), figures("weight"))
	for _, l := range late {
		t.row(l.Job, l.Folder, planMoment(l.Due), planMoment(l.End), minutes(l.Late), fmt.Sprint(l.Weight))
	}
	t.write(s)
}

// showUnplaced lists the jobs without a place and why.
func showUnplaced(s streams, unplaced []plan.Unplaced, say *speech.Speaker) {
	if len(unplaced) == 0 {
		return
	}
	s.gap()
	s.title("Not in the plan")
	t := newTable(words("job"), words("folder"), words("why"))
	for _, u := range unplaced {
		job := u.Job
		for _, why := range u.Whys {
			t.row(job, why.Folder, say.Text(why.Text))
			job = ""
		}
	}
	t.write(s)
}

// showMoves tells what moved against the order given.
func showMoves(s streams, moves []plan.Move) {
	if len(moves) == 0 {
		return
	}
	s.gap()
	s.title("Moved against the order given")
	t := newTable(words("job"), words("from"), words("to"), figures("make-ready"), figures("was"), figures("late"), figures("was"))
	for _, m := range moves {
		t.row(m.Job, fmt.Sprintf("%s, place %d", m.FromFolder, m.FromPlace), fmt.Sprintf("%s, place %d", m.ToFolder, m.ToPlace),
			minutes(m.Makeready), minutes(m.MakereadyGiven), minutes(m.Late), minutes(m.LateGiven))
	}
	t.write(s)
}

// planMoment is a moment as people say it within a week.
func planMoment(t time.Time) string { return t.Format("Mon 15:04") }

// planWeight is a weight in thousandths as a number.
func planWeight(mille int64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.3f", float64(mille)/1000), "0"), ".")
}
