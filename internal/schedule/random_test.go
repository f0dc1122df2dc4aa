package schedule

import (
	"math/rand/v2"
	"slices"

	"pgregory.net/rapid"
)

// dice draws a whole number from lo to hi, both included: rapid's for properties, a seeded generator's for the rest.
type dice func(lo, hi int) int

func rapidDice(t *rapid.T) dice {
	return func(lo, hi int) int { return rapid.IntRange(lo, hi).Draw(t, "n") }
}

func seededDice(seed uint64) dice {
	rng := rand.New(rand.NewPCG(seed, 7))
	return func(lo, hi int) int { return lo + rng.IntN(hi-lo+1) }
}

// shape is how large a random problem is and what it has.
type shape struct {
	jobs, machines, stations, classes, patterns, sets, kinds, people int
	windows                                                          bool // shifts with breaks instead of one open window
	before                                                           int  // precedences
	fixed                                                            bool
	scarce                                                           bool // few loose tools, some sets locked, some stations empty
	closing                                                          bool // set-ups after the last job
	places                                                           int  // of racks, some machines without; 0 = no racks
}

// draw makes a problem that Check accepts. Every job gets a machine, every class a plain pattern.
func (s shape) draw(d dice) *Problem {
	p := &Problem{Weights: Weights{Late: int64(d(0, 2000)), Setup: int64(d(0, 2000)), Wait: int64(d(0, 1000)), Bench: int64(d(0, 500)), Makespan: int64(d(0, 100))}}
	for range s.machines {
		p.Machines = append(p.Machines, Machine{Windows: s.shifts(d)})
	}
	for range s.jobs {
		p.Jobs = append(p.Jobs, s.job(d))
	}
	p.Setup = s.table(d)
	for range s.before {
		if a, b := d(0, s.jobs-1), d(0, s.jobs-1); a < b {
			p.Precedences = append(p.Precedences, Precedence{Before: a, After: b})
		}
	}
	if s.fixed {
		s.fix(d, p)
	}
	if s.closing {
		p.Closing = s.closings(d)
	}
	if s.places > 0 {
		p.Racks = s.racks(d)
	}
	if s.sets > 0 {
		p.Tools = s.tooling(d, p)
	}
	return p
}

// shifts is working time with gaps, the last window open.
func (s shape) shifts(d dice) []Window {
	if !s.windows {
		return []Window{{From: 0, To: Forever}}
	}
	var w []Window
	at := Time(d(0, 50))
	for range d(1, 6) {
		end := at + Time(d(1, 400))
		w = append(w, Window{From: at, To: end})
		at = end + Time(d(0, 200))
	}
	if d(0, 9) > 0 {
		w[len(w)-1].To = Forever
	}
	return w
}

func (s shape) job(d dice) Job {
	j := Job{Due: Time(d(0, 400*s.jobs/s.machines)), Weight: int64(d(1, 5))}
	if d(0, 3) == 0 {
		j.Release = Time(d(0, 500))
	}
	base := d(1, 200)
	for range s.machines {
		run := Time(-1)
		if d(0, 3) > 0 {
			run = Time(base + d(0, base))
		}
		j.Run = append(j.Run, run)
	}
	j.Run[d(0, s.machines-1)] = Time(base)
	return j
}

func (s shape) table(d dice) [][][]Time {
	var all [][][]Time
	for range s.machines {
		var table [][]Time
		for range s.jobs + 1 {
			var row []Time
			for range s.jobs {
				row = append(row, Time(d(0, 60)))
			}
			table = append(table, row)
		}
		all = append(all, table)
	}
	return all
}

func (s shape) closings(d dice) [][]Time {
	var all [][]Time
	for range s.machines {
		var row []Time
		for range s.jobs {
			row = append(row, Time(d(0, 60)))
		}
		all = append(all, row)
	}
	return all
}

func (s shape) racks(d dice) []Rack {
	var all []Rack
	for range s.machines {
		r := Rack{Places: max(0, s.places-d(0, 2)), Load: Time(d(0, 20))}
		r.Needs = needsOf(d, s.jobs, 6, r.Places)
		all = append(all, r)
	}
	return all
}

func (s shape) fix(d dice, p *Problem) {
	for i := range p.Machines {
		for j := range p.Jobs {
			free := !slices.ContainsFunc(p.Machines, func(m Machine) bool { return slices.Contains(m.Fixed, j) })
			if free && p.Jobs[j].Run[i] >= 0 && len(p.Machines[i].Fixed) < 2 && d(0, 4) == 0 {
				p.Machines[i].Fixed = append(p.Machines[i].Fixed, j)
			}
		}
		p.Machines[i].Started = len(p.Machines[i].Fixed) > 0 && d(0, 1) == 0
	}
}

func (s shape) tooling(d dice, p *Problem) *Tooling {
	t := &Tooling{Classes: s.classes}
	for range s.kinds {
		t.Loose = append(t.Loose, d(0, 4))
		if !s.scarce {
			t.Loose[len(t.Loose)-1] += 20
		}
	}
	for c := range s.classes {
		t.Patterns = append(t.Patterns, Pattern{Class: c})
	}
	for len(t.Patterns) < s.patterns {
		t.Patterns = append(t.Patterns, s.pattern(d))
	}
	s.stationsOf(d, p, t)
	s.setsOf(d, t)
	for range s.people {
		t.People = append(t.People, Person{Windows: s.shifts(d)})
	}
	t.InFolder, t.OnBench = s.conversions(d, t), s.conversions(d, t)
	for range s.jobs {
		var row []Want
		for k := range t.Stations {
			row = append(row, s.want(d, t, k))
		}
		t.Wants = append(t.Wants, row)
	}
	return t
}

func (s shape) pattern(d dice) Pattern {
	p := Pattern{Class: d(0, s.classes-1)}
	for kind := range s.kinds {
		if n := d(0, 4) - 2; n > 0 {
			p.Tools = append(p.Tools, Count{Type: kind, N: n})
		}
	}
	return p
}

// stationsOf spreads the stations over the machines, sometimes two to a unit.
func (s shape) stationsOf(d dice, p *Problem, t *Tooling) {
	for k := range s.stations {
		m := k % s.machines
		unit := -1
		for u := range t.Units {
			if t.Units[u].Machine == m && d(0, 1) == 0 {
				unit = u
			}
		}
		if unit < 0 {
			unit = len(t.Units)
			t.Units = append(t.Units, Unit{Machine: m, GuideMove: Time(d(0, 30)), GuideAt: int64(d(0, 100))})
		}
		access := Time(d(0, 20))
		t.Stations = append(t.Stations, Station{Machine: m, Unit: unit, Class: d(0, s.classes-1), Access: access, Swap: access + Time(d(0, 60))})
	}
}

func (s shape) setsOf(d dice, t *Tooling) {
	for k := range t.Stations {
		if s.scarce && d(0, 5) == 0 {
			continue
		}
		t.Sets = append(t.Sets, s.set(d, t, t.Stations[k].Class, k))
	}
	for len(t.Sets) < s.sets {
		t.Sets = append(t.Sets, s.set(d, t, d(0, s.classes-1), -1))
	}
}

func (s shape) set(d dice, t *Tooling, class, station int) Set {
	var fitting []int
	for q := range t.Patterns {
		if t.Patterns[q].Class == class {
			fitting = append(fitting, q)
		}
	}
	return Set{Class: class, Pattern: fitting[d(0, len(fitting)-1)], Station: station, Locked: s.scarce && d(0, 5) == 0}
}

func (s shape) conversions(d dice, t *Tooling) [][]Time {
	var table [][]Time
	for a := range t.Patterns {
		var row []Time
		for b := range t.Patterns {
			switch {
			case t.Patterns[a].Class != t.Patterns[b].Class || s.scarce && d(0, 9) == 0:
				row = append(row, -1)
			case a == b:
				row = append(row, 0)
			default:
				row = append(row, Time(d(5, 200)))
			}
		}
		table = append(table, row)
	}
	return table
}

func (s shape) want(d dice, t *Tooling, k int) Want {
	if d(0, 4) == 0 {
		return Want{Any: true}
	}
	var class []int
	for q := range t.Patterns {
		if t.Patterns[q].Class == t.Stations[k].Class {
			class = append(class, q)
		}
	}
	w := Want{Pattern: class[d(0, len(class)-1)], Guide: int64(d(0, 100))}
	for _, q := range class {
		if q == w.Pattern || d(0, 5) == 0 {
			lo := w.Guide - int64(d(0, 60))
			w.Fits = append(w.Fits, Fit{Pattern: q, Lo: lo, Hi: lo + int64(d(0, 100))})
		}
	}
	return w
}

// anyOrder deals the jobs out at random, in a sequence that precedences allow unless mixed.
func anyOrder(d dice, p *Problem, mixed bool) Order {
	order := make(Order, len(p.Machines))
	dealt := make([]bool, len(p.Jobs))
	for i := range p.Machines {
		for _, j := range p.Machines[i].Fixed {
			order[i] = append(order[i], j)
			dealt[j] = true
		}
	}
	for j := range p.Jobs {
		var able []int
		for i, run := range p.Jobs[j].Run {
			if run >= 0 {
				able = append(able, i)
			}
		}
		if dealt[j] {
			continue
		}
		i := able[d(0, len(able)-1)]
		at := len(order[i])
		if mixed {
			at = d(len(p.Machines[i].Fixed), len(order[i]))
		}
		order[i] = slices.Insert(order[i], at, j)
	}
	return order
}

// anyShape is a small world of any kind.
func anyShape(d dice) shape {
	s := shape{
		jobs: d(1, 9), machines: d(1, 3), windows: d(0, 1) == 0, before: d(0, 3), fixed: d(0, 2) == 0, scarce: d(0, 1) == 0,
		classes: d(1, 2), kinds: d(1, 3), people: d(0, 2),
	}
	if d(0, 2) == 0 {
		s.closing, s.places = d(0, 1) == 0, d(0, 5)
	}
	if d(0, 4) > 0 {
		s.stations, s.patterns, s.sets = d(1, 5), s.classes+d(0, 6), d(1, 9)
	}
	return s
}
