package main

import (
	"fmt"
	"slices"

	"foldwright/internal/plan"
	speech "foldwright/internal/words"
)

// percentile tells with which minutes a plan reckons when it is not those in the middle.
func (p sheet) percentile(day *plan.Plan) {
	if day.Percentile > 0 {
		p.line("", "Planned with minutes that suffice in %d of 100 cases.", day.Percentile)
	}
}

// kept tells what became of the near future that was to be kept.
func (p sheet) kept(k *plan.Kept) {
	if k == nil {
		return
	}
	p.line("", "Near until %s: %d in the order given; moved although near: %d, at %s each. A plan that keeps nothing costs %s.", p.hour(k.Until), k.Near, len(k.Moved), k.Price, k.Free)
	if len(k.Moved) > 0 {
		var names speech.List
		for _, name := range k.Moved {
			names = append(names, name)
		}
		p.line("", "Moved although near: %s.", names)
	}
}

// surely is from which chance on a job is not worth a line.
const surely = 0.99

// chances tells how likely the plan holds, the shakiest jobs first.
func (p sheet) chances(c *plan.Chances) {
	if c == nil {
		return
	}
	p.gap()
	p.head("Chances")
	p.line("", "%d days simulated: on average %s jobs late by %s in all; no job late on %s %% of the days.",
		c.Samples, p.words.Number(c.LateJobs, 1), c.Late, p.words.Number(100*c.AllOnTime, 0))
	var shaky []plan.Chance
	for _, x := range c.Jobs {
		if x.OnTime < surely {
			shaky = append(shaky, x)
		}
	}
	if len(shaky) == 0 {
		p.line("", "Every job is on time on at least %s %% of the days.", p.words.Number(100*surely, 0))
		return
	}
	slices.SortStableFunc(shaky, func(a, b plan.Chance) int { return int(1e6*a.OnTime) - int(1e6*b.OnTime) })
	t := newTable(words(p.in("job")), words(p.in("folder")), words(p.in("due")), figures(p.in("on time")), words(p.in("ends by, on 10, 50, 90 days of 100")))
	for _, x := range shaky {
		t.row(x.Job, x.Folder, p.hour(x.Due), fmt.Sprintf("%.0f %%", 100*x.OnTime), p.ends(x))
	}
	t.write(p.streams)
}

// ends is when a job ends on good, middling and bad days.
func (p sheet) ends(x plan.Chance) string {
	if x.Tail.IsZero() {
		return p.in("beyond the hours of its folder")
	}
	return p.hour(x.Early) + ", " + p.after(x.Middle, x.Early) + ", " + p.after(x.Tail, x.Middle)
}
