package schedule

// day is a problem as a shop has it, of our own invention: folders of two shaft classes with two stations each on one
// guided unit, two shifts with breaks, jobs half of which want tools, sets of which most jobs find one that serves, one
// person at the bench. Times in seconds. Common practice, no source, for the sizes of the set-up minutes.
func day(jobs, machines, sets int, seed uint64) *Problem {
	d := seededDice(seed)
	days := 2 + jobs/(machines*8)
	p := &Problem{Weights: Weights{Late: 1000, Setup: 1000, Wait: 500, Bench: 300}}
	t := &Tooling{Classes: 2}
	for i := range machines {
		p.Machines = append(p.Machines, Machine{Windows: twoShifts(days)})
		t.Units = append(t.Units, Unit{Machine: i, GuideMove: 60, GuideAt: 180_000})
		for range 2 {
			t.Stations = append(t.Stations, Station{Machine: i, Unit: i, Class: i % 2, Access: 60, Swap: 180})
		}
	}
	dayPatterns(d, t)
	for len(t.Sets) < sets {
		x := len(t.Sets)
		set := Set{Station: -1, Class: d(0, 1)}
		if x < len(t.Stations) {
			set.Station, set.Class = x, t.Stations[x].Class
		}
		set.Pattern = set.Class * patternsPerClass
		if x >= len(t.Stations)+4 {
			set.Pattern += d(0, patternsPerClass-1)
		}
		t.Sets = append(t.Sets, set)
	}
	t.Loose = []int{6, 6, 4, 2}
	t.People = []Person{{Windows: oneShift(days)}}
	for range jobs {
		dayJob(d, p, t, days)
	}
	daySetups(d, p)
	p.Tools = t
	return p
}

const patternsPerClass = 10

func twoShifts(days int) []Window {
	var w []Window
	for n := range days {
		at := Time(n) * 86400
		w = append(w, Window{at, at + 4*3600}, Window{at + 4*3600 + 1800, at + 8*3600}, Window{at + 8*3600, at + 12*3600}, Window{at + 12*3600 + 1800, at + 16*3600})
	}
	w[len(w)-1].To = Forever
	return w
}

func oneShift(days int) []Window {
	var w []Window
	for n := range days {
		at := Time(n) * 86400
		w = append(w, Window{at, at + 4*3600}, Window{at + 4*3600 + 1800, at + 8*3600})
	}
	return w
}

func dayPatterns(d dice, t *Tooling) {
	for class := range 2 {
		t.Patterns = append(t.Patterns, Pattern{Class: class})
		for range patternsPerClass - 1 {
			t.Patterns = append(t.Patterns, Pattern{Class: class, Tools: []Count{{Type: d(0, 1), N: d(1, 3)}, {Type: d(2, 3), N: 1}}})
		}
	}
	for p, a := range t.Patterns {
		var folder, bench []Time
		for q, b := range t.Patterns {
			work := Time(0)
			for kind := range 4 {
				n := a.count(kind) - b.count(kind)
				work += Time(max(n, -n))*150 + Time(min(a.count(kind), b.count(kind)))*40
			}
			if p == q {
				work = 0
			}
			if a.Class != b.Class {
				work = -1
			}
			folder, bench = append(folder, work), append(bench, work*2/3)
			if work < 0 {
				bench[q] = -1
			}
		}
		t.InFolder, t.OnBench = append(t.InFolder, folder), append(t.OnBench, bench)
	}
}

func dayJob(d dice, p *Problem, t *Tooling, days int) {
	j := Job{Due: Time(d(3, 12*days)) * 7200, Weight: int64(d(1, 3))}
	run := Time(d(600, 5400))
	only := -1
	if d(0, 9) == 0 {
		only = d(0, len(p.Machines)-1)
	}
	for i := range p.Machines {
		if only >= 0 && only != i || only < 0 && d(0, 3) == 0 && i > 0 {
			j.Run = append(j.Run, -1)
			continue
		}
		j.Run = append(j.Run, run*Time(90+10*i)/100)
	}
	wanted, guide := d(1, patternsPerClass-1), int64(d(120, 240))*1000
	marks := d(0, 1) == 0
	var wants []Want
	for k := range t.Stations {
		wants = append(wants, dayWant(t, k, marks && k%2 == 0, wanted, guide))
	}
	p.Jobs, t.Wants = append(p.Jobs, j), append(t.Wants, wants)
}

// dayWant is the wanted pattern with a guide near its place, or plain shafts with the guide anywhere.
func dayWant(t *Tooling, k int, marks bool, wanted int, guide int64) Want {
	first := t.Stations[k].Class * patternsPerClass
	if !marks {
		return Want{Pattern: first, Guide: guide, Fits: []Fit{{Pattern: first, Lo: AnywhereLo, Hi: AnywhereHi}}}
	}
	q := first + wanted
	w := Want{Pattern: q, Guide: guide}
	if q%3 == 0 {
		w.Fits = append(w.Fits, Fit{Pattern: q - 1, Lo: guide + 5_000, Hi: guide + 25_000})
	}
	w.Fits = append(w.Fits, Fit{Pattern: q, Lo: guide - 20_000, Hi: guide + 20_000})
	return w
}

// daySetups gives jobs of a family short set-ups among themselves.
func daySetups(d dice, p *Problem) {
	family := make([]int, len(p.Jobs)+1)
	for j := range family {
		family[j] = d(0, 6)
	}
	for range p.Machines {
		var table [][]Time
		for from := range family {
			var row []Time
			for to := range p.Jobs {
				work := Time(d(60, 240))
				if family[from] != family[to] {
					work += Time(d(300, 900))
				}
				row = append(row, work)
			}
			table = append(table, row)
		}
		p.Setup = append(p.Setup, table)
	}
}
