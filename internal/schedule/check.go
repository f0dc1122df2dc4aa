package schedule

import (
	"errors"
	"fmt"
)

// Limits of a problem, wide enough for years of seconds and narrow enough that no cost overflows.
const (
	mostTime   Time  = 1 << 40 // about 35 000 years
	mostWeight int64 = 1 << 20
	mostCost         = 1 << 62
)

// Check says everything that is wrong with a problem. The other functions of the package rely on it: they may panic on
// a problem that it refuses.
func (p *Problem) Check() error {
	c := &checker{Problem: p}
	for i := range p.Machines {
		c.machine(i)
	}
	for j := range p.Jobs {
		c.job(j)
	}
	c.setups()
	c.closings()
	c.racks()
	c.precedences()
	c.fixed()
	if p.Tools != nil {
		c.tooling()
	}
	if c.faults == nil {
		c.size()
	}
	return errors.Join(c.faults...)
}

type checker struct {
	*Problem
	faults []error
}

func (c *checker) addf(format string, args ...any) {
	c.faults = append(c.faults, fmt.Errorf(format, args...))
}

// in reports whether an index lies in [0, n), and says so when it does not.
func (c *checker) in(i, n int, what string, args ...any) bool {
	if i >= 0 && i < n {
		return true
	}
	c.addf("%s is %d; there are %d, counted from 0", fmt.Sprintf(what, args...), i, n)
	return false
}

// span checks a time that must lie in [0, most].
func (c *checker) span(t Time, what string, args ...any) {
	if t < 0 || t > mostTime {
		c.addf("%s is %d s; it must be from 0 to %d", fmt.Sprintf(what, args...), t, mostTime)
	}
}

func (c *checker) machine(i int) { c.windows(c.Machines[i].Windows, "machine %d", i) }

func (c *checker) windows(windows []Window, whose string, args ...any) {
	whose = fmt.Sprintf(whose, args...)
	var last Time
	for n, w := range windows {
		if w.From < last || w.To <= w.From {
			c.addf("window %d of %s is [%d, %d); windows must ascend from 0, not overlap and not be empty", n, whose, w.From, w.To)
		}
		open := n == len(windows)-1 && w.To == Forever
		if w.From > mostTime || w.To > mostTime && !open {
			c.addf("window %d of %s is [%d, %d); no window but an open last one may pass %d", n, whose, w.From, w.To, mostTime)
		}
		last = w.To
	}
}

func (c *checker) job(j int) {
	job := &c.Jobs[j]
	if len(job.Run) != len(c.Machines) {
		c.addf("job %d has run times for %d machines; there are %d", j, len(job.Run), len(c.Machines))
		return
	}
	able := false
	for i, run := range job.Run {
		able = able || run >= 0
		if run > mostTime {
			c.span(run, "the run of job %d on machine %d", j, i)
		}
	}
	if !able {
		c.addf("job %d can run nowhere; leave it out or give it a machine", j)
	}
	c.span(job.Release, "the release of job %d", j)
	if job.Due < -mostTime || job.Due > mostTime && job.Due != Forever {
		c.addf("job %d is due at %d; it must be within %d of 0, or Forever", j, job.Due, mostTime)
	}
	if job.Weight < 0 || job.Weight > mostWeight {
		c.addf("job %d weighs %d; it must be from 0 to %d", j, job.Weight, mostWeight)
	}
}

func (c *checker) setups() {
	if len(c.Setup) != len(c.Machines) {
		c.addf("there are set-up tables for %d machines; there are %d machines", len(c.Setup), len(c.Machines))
		return
	}
	for i, table := range c.Setup {
		if len(table) != len(c.Jobs)+1 {
			c.addf("the set-up table of machine %d has %d rows; it needs one a job and one for the present state, %d", i, len(table), len(c.Jobs)+1)
			continue
		}
		for from, row := range table {
			if len(row) != len(c.Jobs) {
				c.addf("row %d of the set-up table of machine %d has %d entries; there are %d jobs", from, i, len(row), len(c.Jobs))
				continue
			}
			c.setupRow(i, from, row)
		}
	}
}

func (c *checker) setupRow(i, from int, row []Time) {
	if from < len(c.Jobs) && !c.able(from, i) {
		return
	}
	for to, t := range row {
		if from != to && c.able(to, i) {
			c.span(t, "the set-up on machine %d from job %d to job %d", i, from, to)
		}
	}
}

func (c *checker) closings() {
	if c.Closing == nil {
		return
	}
	if len(c.Closing) != len(c.Machines) {
		c.addf("there are closing set-ups for %d machines; there are %d machines, or none at all to leave nothing ready", len(c.Closing), len(c.Machines))
		return
	}
	for i, row := range c.Closing {
		if len(row) != len(c.Jobs) {
			c.addf("machine %d has %d closing set-ups; there are %d jobs", i, len(row), len(c.Jobs))
			continue
		}
		for j, t := range row {
			if c.able(j, i) {
				c.span(t, "the closing set-up on machine %d after job %d", i, j)
			}
		}
	}
}

func (c *checker) able(j, i int) bool { return i < len(c.Jobs[j].Run) && c.Jobs[j].Run[i] >= 0 }

// precedences also finds circles, by taking away jobs that wait for none until none is left.
func (c *checker) precedences() {
	waits, after := make([]int, len(c.Jobs)), make([][]int, len(c.Jobs))
	for n, x := range c.Precedences {
		if !c.in(x.Before, len(c.Jobs), "the first job of precedence %d", n) || !c.in(x.After, len(c.Jobs), "the second job of precedence %d", n) {
			return
		}
		waits[x.After]++
		after[x.Before] = append(after[x.Before], x.After)
	}
	var clear []int
	for j, n := range waits {
		if n == 0 {
			clear = append(clear, j)
		}
	}
	for i := 0; i < len(clear); i++ {
		for _, j := range after[clear[i]] {
			if waits[j]--; waits[j] == 0 {
				clear = append(clear, j)
			}
		}
	}
	for j, n := range waits {
		if n > 0 {
			c.addf("job %d waits for itself by way of its precedences; break the circle", j)
			return
		}
	}
}

func (c *checker) fixed() {
	seen := make([]bool, len(c.Jobs))
	for i := range c.Machines {
		m := &c.Machines[i]
		if m.Started && len(m.Fixed) == 0 {
			c.addf("machine %d has started but no fixed job; name the job that is running", i)
		}
		for n, j := range m.Fixed {
			if !c.in(j, len(c.Jobs), "fixed job %d of machine %d", n, i) {
				continue
			}
			if seen[j] {
				c.addf("job %d is fixed twice; fix it on one machine only", j)
			}
			if !c.able(j, i) {
				c.addf("job %d is fixed on machine %d, which cannot run it", j, i)
			}
			seen[j] = true
		}
	}
}

// size refuses problems whose cost could overflow: the sum of everything, at the highest price.
func (c *checker) size() {
	w := c.Weights
	for _, price := range []int64{w.Late, w.Setup, w.Wait, w.Bench, w.Makespan} {
		if price < 0 || price > mostWeight {
			c.addf("a weight of the cost is %d; it must be from 0 to %d", price, mostWeight)
			return
		}
	}
	if worst := c.worst(); worst >= mostCost {
		c.addf("times and weights are so large that the cost could reach %.3g; scale them down below %.3g", worst, float64(mostCost))
	}
}

// worst is a generous estimate of the highest cost: every job ends after all windows and all work, and each part of the
// cost is the whole span for every job.
func (c *checker) worst() float64 {
	var span, weight, early float64
	for i := range c.Machines {
		for _, w := range c.Machines[i].Windows {
			span = max(span, float64(w.From))
			if w.To < Forever {
				span = max(span, float64(w.To))
			}
		}
	}
	for j := range c.Jobs {
		job := &c.Jobs[j]
		weight += float64(job.Weight)
		early = max(early, -float64(job.Due))
		span = max(span, float64(job.Release))
	}
	for j := range c.Jobs {
		var most Time
		for i, run := range c.Jobs[j].Run {
			if run >= 0 {
				most = max(most, run+c.mostSetup(i, j))
			}
		}
		span += float64(most)
	}
	w, jobs := c.Weights, float64(len(c.Jobs)+1)
	rest := float64(w.Setup+w.Wait+w.Bench+w.Makespan+5000) * (float64(len(c.Machines)) + jobs)
	return (span + early) * (weight*float64(w.Late+1) + rest)
}

// mostSetup is the longest set-up before a job on a machine, tooling included.
func (c *checker) mostSetup(i, j int) Time {
	var most, tools Time
	for from, row := range c.Setup[i] {
		if from == len(c.Jobs) || from != j && c.able(from, i) {
			most = max(most, row[j])
		}
	}
	if c.Closing != nil {
		most += c.Closing[i][j]
	}
	if c.Racks != nil && c.Racks[i].Places > 0 {
		most += Time(len(c.Racks[i].Needs[j])) * c.Racks[i].Load
	}
	if c.Tools == nil {
		return most
	}
	for k := range c.Tools.Stations {
		if st := &c.Tools.Stations[k]; st.Machine == i {
			tools += st.Swap + st.Access + c.Tools.Units[st.Unit].GuideMove
			if w := &c.Tools.Wants[j][k]; !w.Any {
				tools += c.mostWork(w.Pattern)
			}
		}
	}
	return most + tools
}

// mostWork is the longest that making the pattern takes, at the machine or on the bench.
func (c *checker) mostWork(q int) Time {
	var most Time
	for p := range c.Tools.Patterns {
		most = max(most, c.Tools.InFolder[p][q], c.Tools.OnBench[p][q])
	}
	return most
}
