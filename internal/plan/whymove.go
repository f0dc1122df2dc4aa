package plan

import (
	"slices"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/schedule"
	"foldwright/internal/words"
)

// reason is something that a move is good for, and what that is worth in the plan's cost.
type reason struct {
	text  words.Text
	worth time.Duration
}

// leastWorth is what is worth a word.
const leastWorth = 30 * time.Second

// mostReasons are told of a move; those that are worth most.
const mostReasons = 2

// why says in a sentence why a move pays: what its account saves of make-ready, what it does for its own due time, and what
// the others would lose if the job went back alone.
func (c *comparison) why(j int, a *account, m *Move, undone *schedule.Plan) words.Text {
	reasons := append(c.makereadySaved(j, a), c.ownLateness(j, m)...)
	if m.Alone && m.Pays > 0 {
		reasons = append(reasons, c.forOthers(j, undone)...)
	}
	reasons = slices.DeleteFunc(reasons, func(r reason) bool { return r.worth < leastWorth })
	slices.SortStableFunc(reasons, func(x, y reason) int { return int(y.worth/time.Second) - int(x.worth/time.Second) })
	reasons = reasons[:min(len(reasons), mostReasons)]
	var said words.Series
	for _, r := range reasons {
		said = append(said, r.text)
	}
	if costs := -a.saves(); len(said) > 0 && costs >= leastWorth {
		said = append(said, words.T("costs %s more make-ready", costs))
	}
	switch {
	case !m.Alone || m.Pays < 0:
		said = append(said, words.T("pays only together with other moves"))
	case len(said) == 0:
		said = append(said, words.T("by itself it hardly matters"))
	}
	return words.T("%s", said)
}

// priced is what some time is worth at a price in thousandths.
func priced(d time.Duration, price int64) time.Duration { return d * time.Duration(price) / 1000 }

// makereadySaved tells what make-ready the account saves, on which line most of it, and where.
func (c *comparison) makereadySaved(j int, a *account) []reason {
	saves := a.saves()
	if saves < leastWorth {
		return nil
	}
	text := words.T("saves %s of make-ready", saves)
	gains := a.gains()
	best := slices.MaxFunc(gains, func(x, y Gain) int { return int((x.Saves() - y.Saves()) / time.Second) })
	switch {
	case best.What.Key == "tooling" && len(gains) == 1:
		text = words.T("saves %s of tooling", saves)
	case 2*best.Saves() > saves:
		text = words.T("saves %s of make-ready, most of it %s", saves, best.What)
	}
	return []reason{{words.T("%s: %s", c.whereSaved(j, a), text), priced(saves, c.problem.Weights.Setup)}}
}

// whereSaved names the place where an account saves most.
func (c *comparison) whereSaved(j int, a *account) words.Text {
	is, was := c.is[j], c.was[j]
	most := itself
	for of := range sides {
		if a.bySide[of] > a.bySide[most] {
			most = of
		}
	}
	switch {
	case most == joined && is.after >= 0:
		return words.T("in front of job %s", c.jobs[is.after].Name)
	case most == left && was.after >= 0:
		return words.T("out of the way of job %s", c.jobs[was.after].Name)
	case is.before < 0:
		return words.T("first on %s", c.folder(is.machine).Name)
	}
	if set := keptSet(is.task, was.task); set != "" {
		return words.T("stays with set %s behind job %s", set, c.jobs[is.before].Name)
	}
	return words.T("behind job %s", c.jobs[is.before].Name)
}

// keptSet is a set that stays where it is for the task and did not in the order given; empty when there is none.
func keptSet(now, given *Task) string {
	stays := func(s Station) bool { return s.Set != "" && (s.Mode == changeover.Keep || s.Mode == changeover.Shift) }
	for _, s := range now.Stations {
		tools := slices.ContainsFunc(now.Lines, func(l changeover.Line) bool { return l.What.Key == toolingKey })
		if stays(s) && !tools && !slices.ContainsFunc(given.Stations, func(g Station) bool { return stays(g) && g.Set == s.Set }) {
			return s.Set
		}
	}
	return ""
}

// ownLateness tells what becomes of the job's own due time.
func (c *comparison) ownLateness(j int, m *Move) []reason {
	less := m.LateGiven - m.Late
	if less < leastWorth {
		return nil
	}
	text := words.T("%s late instead of %s", m.Late, m.LateGiven)
	if m.Late == 0 {
		text = words.T("on time instead of %s late", m.LateGiven)
	}
	return []reason{{text, priced(less*time.Duration(c.problem.Jobs[j].Weight), c.problem.Weights.Late)}}
}

// forOthers tells what the others would lose by the job going back.
func (c *comparison) forOthers(j int, undone *schedule.Plan) []reason {
	w := c.problem.Weights
	others := func(p *schedule.Plan) (plain, weighted time.Duration) {
		for _, lane := range p.Tasks {
			for _, task := range lane {
				if late := duration(c.lateness(task)); task.Job != j {
					plain, weighted = plain+late, weighted+late*time.Duration(c.problem.Jobs[task.Job].Weight)
				}
			}
		}
		return plain, weighted
	}
	plainBack, back := others(undone)
	plain, now := others(c.found.Plan)
	var out []reason
	if plainBack > plain {
		out = append(out, reason{words.T("other jobs are %s less late in all", plainBack-plain), priced(back-now, w.Late)})
	}
	if waits := duration(undone.Cost.Wait - c.found.Cost.Wait); waits > 0 {
		out = append(out, reason{words.T("saves %s of waiting", waits), priced(waits, w.Wait)})
	}
	if bench := duration(undone.Cost.Bench - c.found.Cost.Bench); bench > 0 {
		out = append(out, reason{words.T("saves %s of bench work", bench), priced(bench, w.Bench)})
	}
	return out
}
