package schedule

import (
	"math"
	"slices"
)

// choice is how one station gets its tools for the task at hand.
type choice struct {
	station int
	mode    Mode
	set     int
	from    int // pattern of the set before the mode's work
	to      int // pattern of the set while the job runs
	time    Time
	ready   Time  // the set-up may not start earlier
	score   int64 // price of what it adds: folder time, waiting, bench
	build   Build // when mode is Built
	wished  bool
}

const hopeless = math.MaxInt64

// choose picks the tooling of a task, unit by unit, and moves its SetupStart to when all of it is at hand. It reports
// false when some station can get no tools as things stand.
func (d *decoder) choose(i int, t *Task) bool {
	d.chosen = d.chosen[:0]
	if d.awaits(i, t.Job) {
		return false
	}
	for _, u := range d.units[i] {
		if d.survey != nil {
			d.survey.note(d, i, u, t.Job)
		}
		if d.wish(i, u, t) {
			continue
		}
		if d.unitServes(u, t.Job) {
			d.stayUnit(u, t.SetupStart)
		} else if !d.chooseUnit(i, u, t) {
			return false
		}
	}
	return true
}

// stay leaves every station of a machine as it is.
func (d *decoder) stay(i int) {
	d.chosen = d.chosen[:0]
	for _, u := range d.units[i] {
		d.stayUnit(u, 0)
	}
}

// unitServes says whether the unit can stay exactly as it is for a job.
func (d *decoder) unitServes(u, j int) bool {
	for _, k := range d.stations[u] {
		if w := d.want(j, k); !w.any && !d.serves(w, k, d.guides[u]) {
			return false
		}
	}
	return true
}

// serves says whether what stands at a station serves with the guide at g.
func (d *decoder) serves(w *want, k int, g int64) bool {
	x := d.mounted[k]
	return x >= 0 && d.fit(w, d.pattern[x]).has(g)
}

func (d *decoder) stayUnit(u int, ready Time) {
	d.guideTo[u] = d.guides[u]
	for _, k := range d.stations[u] {
		d.chosen = append(d.chosen, d.stayStation(k, ready))
	}
}

func (d *decoder) stayStation(k int, ready Time) choice {
	c := choice{station: k, mode: Keep, set: d.mounted[k], from: -1, to: -1, ready: ready}
	if c.set >= 0 {
		c.from = d.pattern[c.set]
		c.to = c.from
	}
	return c
}

// chooseUnit tries every position of the guide that can matter, each station taking its cheapest at that position, and
// keeps the cheapest of all; at a draw the guide stays.
func (d *decoder) chooseUnit(i, u int, t *Task) bool {
	base, best := len(d.chosen), int64(hopeless)
	d.listPositions(u, t.Job)
	if g, wished := d.wishedGuide(u); wished {
		d.position = append(d.position[:0], g)
	}
	for _, g := range d.position {
		d.chosen = d.chosen[:base]
		score := d.tryPosition(i, u, t, g, best)
		if score < best {
			best, d.guideTo[u] = score, g
			d.trial = append(d.trial[:0], d.chosen[base:]...)
		}
	}
	d.chosen = d.chosen[:base]
	if best == hopeless {
		return false
	}
	d.chosen = append(d.chosen, d.trial...)
	if d.guideTo[u] != d.guides[u] {
		t.Guides += d.Tools.Units[u].GuideMove
		if _, wished := d.wishedGuide(u); !wished {
			d.guideTo[u] = d.withNext(i, d.ontoTools(t.Job, d.guideTo[u]))
		}
	}
	for c := range d.trial {
		t.SetupStart = max(t.SetupStart, d.trial[c].ready)
	}
	return true
}

// ontoTools is where a guide that moves goes at last: from g, the position that was tried, to the middle of what the tools
// of the chosen sets allow, so that the tolerance is left to the hands. Where g is the job's own best, it stays.
func (d *decoder) ontoTools(j int, g int64) int64 {
	all, tools := span{AnywhereLo, AnywhereHi}, span{AnywhereLo, AnywhereHi}
	for c := range d.trial {
		w := d.want(j, d.trial[c].station)
		if w.any {
			continue
		}
		if w.guide == g {
			return g
		}
		fit := d.fit(w, d.trial[c].to)
		all = all.meet(fit)
		if !d.Tools.Patterns[w.pattern].Plain() {
			tools = tools.meet(fit)
		}
	}
	if tools.lo == AnywhereLo || tools.hi == AnywhereHi {
		return g
	}
	return all.clamp(tools.lo + (tools.hi-tools.lo)/2)
}

// listPositions lists the guide positions worth trying: where it stands, and for every pattern at hand the position
// nearest to the job's best. Ranges that overlap do so at one of these. On the way it notes the sets on the rack that serve
// somewhere, which spares asking all of them at every position.
func (d *decoder) listPositions(u, j int) {
	d.position = append(d.position[:0], d.guides[u])
	for _, k := range d.stations[u] {
		w := d.want(j, k)
		if w.any {
			continue
		}
		d.addPosition(w, w.pattern)
		if x := d.mounted[k]; x >= 0 {
			d.addPosition(w, d.pattern[x])
		}
		d.serving[k] = d.serving[k][:0]
		for _, x := range d.sets[d.Tools.Stations[k].Class] {
			if d.where[x] < 0 && d.addPosition(w, d.pattern[x]) {
				d.serving[k] = append(d.serving[k], x)
			}
		}
	}
}

// addPosition adds where a pattern serves best; false when it serves nowhere.
func (d *decoder) addPosition(w *want, pattern int) bool {
	fit := d.fit(w, pattern)
	if fit.empty() {
		return false
	}
	if g := fit.clamp(w.guide); !slices.Contains(d.position, g) {
		d.position = append(d.position, g)
	}
	return true
}

// tryPosition appends the choices of a unit's stations with the guide at g and returns their price, or hopeless as soon
// as it cannot be below the limit.
func (d *decoder) tryPosition(i, u int, t *Task, g int64, limit int64) int64 {
	var score int64
	stays := Keep
	if g != d.guides[u] {
		score, stays = d.Tools.Units[u].GuideMove*d.workPrice, Shift
	}
	start := t.SetupStart
	for _, k := range d.stations[u] {
		if score >= limit {
			return hopeless
		}
		c := d.option(i, k, t.Job, g, start)
		if c.score == hopeless {
			return hopeless
		}
		if c.mode == Keep {
			c.mode = stays
		}
		score += c.score
		start = max(start, c.ready)
		d.chosen = append(d.chosen, c)
	}
	return score
}

// option is the cheapest way for a station to get its tools with the guide at g and the set-up not before start; its
// score is hopeless when there is none. At a draw the way named first in [Mode] wins.
func (d *decoder) option(i, k, j int, g int64, start Time) choice {
	w := d.want(j, k)
	if wish := d.wishedSet(k); wish != nil {
		return d.grant(i, j, wish, g, start)
	}
	if w.any || d.serves(w, k, g) {
		return d.stayStation(k, start)
	}
	best := choice{score: hopeless}
	d.swap(i, k, w, g, start, &best)
	own := d.fit(w, w.pattern).has(g)
	if own && (best.score == hopeless || best.ready > start) {
		d.built(i, k, j, w, start, &best)
	}
	if own {
		d.inFolder(i, k, w, start, &best)
		if best.score == hopeless {
			for _, x := range d.sets[d.Tools.Stations[k].Class] {
				if d.atHand(x) {
					d.refit(i, k, w, x, start, &best)
				}
			}
		}
	}
	return best
}

// offer replaces the best choice by c when c is cheaper.
func (d *decoder) offer(i int, start Time, c *choice, bench Time, best *choice) {
	if c.score = hopeless; c.ready >= Forever {
		return
	}
	c.score = c.time*d.workPrice + bench*d.benchPrice
	if c.ready > start {
		c.score += d.shifts[i].between(start, c.ready) * d.waitPrice
	}
	if c.score < best.score {
		*best = *c
	}
}

// swap offers each set on the rack that serves as it is. At a draw the one goes in that serves more of the machine's next
// jobs, then the job's own pattern, then the lowest number.
func (d *decoder) swap(i, k int, w *want, g int64, start Time, best *choice) {
	for own := range 2 {
		for _, x := range d.serving[k] {
			p := d.pattern[x]
			if (p == w.pattern) != (own == 0) || !d.atHand(x) || !d.fit(w, p).has(g) {
				continue
			}
			c := d.swapIn(k, w, x, start)
			d.offer(i, start, &c, 0, best)
			if c.score < hopeless && c.score == best.score && best.set != x && d.lasts(i, k, p) > d.lasts(i, k, best.to) {
				*best = c
			}
		}
	}
}

// swapIn is a set from the rack put in as it is.
func (d *decoder) swapIn(k int, w *want, x int, start Time) choice {
	p := d.pattern[x]
	c := choice{station: k, mode: Swap, set: x, from: p, to: p, time: d.Tools.Stations[k].Swap, ready: max(start, d.since[x])}
	if d.Tools.Patterns[w.pattern].Plain() && d.Tools.Patterns[p].Plain() {
		c.mode = Plain
	}
	return c
}

// inFolder offers to strip and fit at the machine the set that stands there.
func (d *decoder) inFolder(i, k int, w *want, start Time, best *choice) {
	x := d.mounted[k]
	if x < 0 || d.Tools.Sets[x].Locked {
		return
	}
	p := d.pattern[x]
	if work := d.Tools.InFolder[p][w.pattern]; work >= 0 {
		c := choice{station: k, mode: InFolder, set: x, from: p, to: w.pattern, time: d.Tools.Stations[k].Access + work}
		c.ready = d.toolsFrom(p, w.pattern, start)
		d.offer(i, start, &c, 0, best)
	}
}

// refit offers the last resort: a set from the rack goes in and is stripped and fitted at the machine.
func (d *decoder) refit(i, k int, w *want, x int, start Time, best *choice) {
	p := d.pattern[x]
	work := d.Tools.InFolder[p][w.pattern]
	if work < 0 || d.Tools.Sets[x].Locked {
		return
	}
	c := choice{station: k, mode: InFolder, set: x, from: p, to: w.pattern, time: d.Tools.Stations[k].Swap + work}
	c.ready = d.toolsFrom(p, w.pattern, max(start, d.since[x]))
	d.offer(i, start, &c, 0, best)
}

// atHand says whether a set is on the rack and not taken by another station of the task at hand.
func (d *decoder) atHand(x int) bool {
	if d.where[x] >= 0 {
		return false
	}
	for c := range d.chosen {
		if d.chosen[c].set == x {
			return false
		}
	}
	return true
}

// toolsFrom is the first instant, not before earliest, at which the loose tools suffice to make of pattern p one of
// pattern q, beside what the task at hand draws already.
func (d *decoder) toolsFrom(p, q int, earliest Time) Time {
	have, want := &d.Tools.Patterns[p], &d.Tools.Patterns[q]
	for _, c := range want.Tools {
		if n := have.lacks(c); n > 0 {
			if earliest = d.loose.from(c.Type, n+d.drawn(c.Type), earliest); earliest >= Forever {
				break
			}
		}
	}
	return earliest
}

// drawn is how many tools of a type the task at hand draws for its other stations.
func (d *decoder) drawn(kind int) int {
	sum := 0
	for i := range d.chosen {
		if c := &d.chosen[i]; c.from != c.to || c.mode == Built {
			from := c.from
			if c.mode == Built {
				from = c.build.From
			}
			sum += max(0, d.Tools.Patterns[c.to].count(kind)-d.Tools.Patterns[from].count(kind))
		}
	}
	return sum
}
