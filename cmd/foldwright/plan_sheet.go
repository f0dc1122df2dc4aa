package main

import (
	"fmt"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/plan"
	speech "foldwright/internal/words"
)

// plan prints a plan for people: the figures beside those of the order given, a lane a folder, with the lines of each
// make-ready when wished, the bench, and what asks for attention.
func (p sheet) plan(day *plan.Plan, lines bool) {
	p.head("%s, from %s", day.Shop, p.hour(day.From))
	p.gap()
	p.figures(day)
	for _, f := range day.Folders {
		p.lane(f, lines)
	}
	p.gap()
	p.line("", toolsKey)
	p.bench(day.Bench)
	p.late(day.Late, lines)
	p.chances(day.Chances)
	p.unplaced(day.Unplaced)
	p.moves(day, lines)
}

// figures puts plan and order given side by side.
func (p sheet) figures(day *plan.Plan) {
	t := newTable(words(p.in("minutes")), figures(p.in("plan")), figures(p.in("order given")), figures(p.in("saved")), figures(p.in("weight")))
	part := func(name string, is, was time.Duration, weight string) {
		t.row(p.in(name), p.minutes(is), p.minutes(was), p.minutes(was-is), weight)
	}
	is, was := day.Figures, day.Given.Figures
	part("late, by docket weight", is.Late, was.Late, p.weight(day.Weights.Late))
	part("make-ready", is.Makeready, was.Makeready, p.weight(day.Weights.Makeready))
	part("waiting", is.Waiting, was.Waiting, p.weight(day.Weights.Waiting))
	part("bench", is.Bench, was.Bench, p.weight(day.Weights.Bench))
	part("cost", is.Cost, was.Cost, "")
	t.write(p.streams)
	p.line("", "Late jobs: %d by %s in all, in the order given %d by %s.", is.LateJobs, is.LatePlain, was.LateJobs, was.LatePlain)
	p.line("", "Ends %s, in the order given %s.", p.hour(is.End), p.hour(was.End))
	if day.Bound > 0 {
		p.line("", "No order needs less than %s of make-ready; this one needs %s.", day.Bound, is.Makeready)
	}
	p.percentile(day)
	p.kept(day.Kept)
	p.line("", "%d iterations from seed %s in %s s.", day.Search.Iterations, fmt.Sprint(day.Search.Seed), p.words.Number(day.Search.Took.Seconds(), 1))
}

// lane prints what a folder does.
func (p sheet) lane(f plan.Folder, lines bool) {
	p.gap()
	p.title("%s", f.Name)
	if len(f.Tasks) == 0 {
		p.line("", "nothing to do")
		return
	}
	t := newTable(words(p.in("make-ready")), words(p.in("run")), words(p.in("end")), words(p.in("job")), words(""), figures("min"),
		figures(p.in("late")), figures(p.in("sheets/h")), words(p.in("tools")))
	for _, task := range f.Tasks {
		t.row(p.hour(task.MakereadyStart), p.after(task.RunStart, task.MakereadyStart), p.after(task.RunEnd, task.RunStart), task.Job, task.Title,
			p.minutes(task.Makeready), p.lateness(task.Late), p.in("%d", task.RatePerHour), p.words.Text(toolsInShort(task.Stations)))
		if lines {
			p.lines(t, task.Lines)
		}
	}
	t.write(p.streams)
}

// lines puts the lines of a make-ready below its job, minutes under minutes.
func (p sheet) lines(t *table, lines []changeover.Line) {
	for _, l := range lines {
		t.row("", "", "", "", "", p.minutes(l.Time), "", "", "  "+p.in("%s: %s", l.What, l.Why))
	}
}

// after is a moment with the day only when it is another day than that of the moment before.
func (p sheet) after(t, before time.Time) string {
	if t.Format(time.DateOnly) == before.Format(time.DateOnly) {
		return t.Format("15:04")
	}
	return p.hour(t)
}

// toolsInShort tells what is done at the stations; where nothing is done there is nothing to tell.
func toolsInShort(stations []plan.Station) speech.Text {
	said := plan.InShort(stations)
	return speech.T("%s", said)
}

// toolsKey says what the short words of the lanes mean.
const toolsKey = `Tools: in = a set from the rack; built = a set the bench has built before; fitted = stripped and fitted at the machine;
plain = plain shafts; shift = the set stays, the side guide moves; nothing said = all stays.`

// lateness is there only when the job is late.
func (p sheet) lateness(late time.Duration) string {
	if late == 0 {
		return ""
	}
	return p.warn(p.minutes(late))
}

// bench prints what is built when.
func (p sheet) bench(builds []plan.Build) {
	if len(builds) == 0 {
		return
	}
	p.gap()
	p.head("Bench")
	t := newTable(words(p.in("start")), words(p.in("end")), words(p.in("set")), words(p.in("for")), words(p.in("at")), words(p.in("from")),
		words(p.in("to")), words(p.in("who")))
	for _, b := range builds {
		t.row(p.hour(b.Start), p.after(b.End, b.Start), b.Set, b.Job, b.Folder+" "+b.Station,
			p.words.Text(toolWords(b.From)), p.words.Text(builtWords(b)), b.Person)
	}
	t.write(p.streams)
}

// builtWords says what a set becomes on the bench.
func builtWords(b plan.Build) speech.Text {
	if b.Frees {
		return speech.T("plain, to free its tools")
	}
	return toolWords(b.To)
}

// late lists the late jobs, each with the cheapest way to bring it in on time, or with all ways.
func (p sheet) late(late []plan.Late, all bool) {
	if len(late) == 0 {
		return
	}
	p.gap()
	p.head("Late")
	t := newTable(words(p.in("job")), words(p.in("folder")), words(p.in("due")), words(p.in("end")), figures("min"), figures(p.in("weight")),
		words(p.in("what would help")))
	for _, l := range late {
		first := ""
		if len(l.Rescues) > 0 {
			first = p.words.Text(l.Rescues[0].Text)
		}
		t.row(l.Job, l.Folder, p.hour(l.Due), p.hour(l.End), p.minutes(l.Late), fmt.Sprint(l.Weight), first)
		if all && len(l.Rescues) > 1 {
			for _, r := range l.Rescues[1:] {
				t.row("", "", "", "", "", "", p.words.Text(r.Text))
			}
		}
	}
	t.write(p.streams)
}

// unplaced lists the jobs without a place and why.
func (p sheet) unplaced(unplaced []plan.Unplaced) {
	if len(unplaced) == 0 {
		return
	}
	p.gap()
	p.head("Not in the plan")
	t := newTable(words(p.in("job")), words(p.in("folder")), words(p.in("why")))
	for _, u := range unplaced {
		job := u.Job
		for _, why := range u.Whys {
			t.row(job, why.Folder, p.words.Text(why.Text))
			job = ""
		}
	}
	t.write(p.streams)
}

// moves tells what moved against the order given, and why; with the lines of make-ready that it changed when wished.
func (p sheet) moves(day *plan.Plan, lines bool) {
	if len(day.Moves) == 0 {
		return
	}
	p.gap()
	p.head("Moved against the order given")
	t := newTable(words(p.in("job")), words(p.in("from")), words(p.in("to")), figures(p.in("make-ready")), figures(p.in("was")),
		figures(p.in("late")), figures(p.in("was")), figures(p.in("pays")), words(p.in("why")))
	for _, m := range day.Moves {
		pays := ""
		if m.Alone {
			pays = p.minutes(m.Pays)
		}
		t.row(m.Job, p.in("%s, place %d", m.FromFolder, m.FromPlace), p.in("%s, place %d", m.ToFolder, m.ToPlace),
			p.minutes(m.Makeready), p.minutes(m.MakereadyGiven), p.minutes(m.Late), p.minutes(m.LateGiven), pays, p.words.Text(m.Why))
		if lines {
			p.gains(t, m.Gains)
		}
	}
	if lines && len(day.Elsewhere) > 0 {
		t.row(p.in("elsewhere"), "", "", "", "", "", "", "", "")
		p.gains(t, day.Elsewhere)
	}
	t.write(p.streams)
	p.line("", movesKey)
}

// gains puts the lines of make-ready that a move changed below it, minutes under minutes.
func (p sheet) gains(t *table, gains []plan.Gain) {
	for _, g := range gains {
		t.row("", "", "", p.minutes(g.Now), p.minutes(g.Given), "", "", "", "  "+p.words.Text(g.What))
	}
}

// movesKey says what the figures of the moves mean.
const movesKey = `Pays: what the plan would cost more with this job alone back in its place; nothing said = it cannot go back alone.`

// weight is a weight in thousandths as a number.
func (p sheet) weight(mille int64) string { return p.words.Number(float64(mille)/1000, 3) }
