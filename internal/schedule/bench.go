package schedule

// built offers to have the job's pattern built on the bench and swapped in. The bench works ahead: a build may lie
// before the task at hand, as early as the set, the loose tools and a person are free.
func (d *decoder) built(i, k, j int, w *want, start Time, best *choice) {
	pick := Build{Set: -1}
	var pickNeed Time
	for _, x := range d.sets[d.Tools.Stations[k].Class] {
		if d.Tools.Sets[x].Locked || !d.atHand(x) {
			continue
		}
		b, ok := d.build(x, w.pattern)
		if !ok {
			continue
		}
		need := d.needed(d.pattern[x], j)
		if pick.Set < 0 || stripBefore(b, need, pick, pickNeed, start) {
			pick, pickNeed = b, need
		}
	}
	if pick.Set >= 0 {
		d.offerBuild(i, k, j, pick, start, best)
	}
}

// offerBuild offers to swap in what is built.
func (d *decoder) offerBuild(i, k, j int, b Build, start Time, best *choice) {
	b.Job, b.Station = j, k
	c := choice{
		station: k, mode: Built, set: b.Set, from: b.Pattern, to: b.Pattern, time: d.Tools.Stations[k].Swap,
		ready: max(start, b.End), build: b,
	}
	d.offer(i, start, &c, b.Work, best)
}

// build is the earliest bench work that makes of a set one of the pattern; false when it cannot be done.
func (d *decoder) build(x, pattern int) (Build, bool) {
	from := d.pattern[x]
	work := d.Tools.OnBench[from][pattern]
	if work < 0 || from == pattern {
		return Build{}, false
	}
	earliest := d.toolsFrom(from, pattern, d.since[x])
	b := Build{Set: x, From: from, Pattern: pattern, Work: work, End: Forever}
	for who := range d.people {
		begin := d.people[who].next(max(earliest, d.benchFree(who)))
		if begin >= b.End {
			continue
		}
		if end := d.people[who].finish(begin, work); end < b.End {
			b.Person, b.Start, b.End = who, begin, end
		}
	}
	return b, b.End < Forever
}

// benchFree is when a person can take another build, after those for the task at hand.
func (d *decoder) benchFree(who int) Time {
	free := d.bench[who]
	for c := range d.chosen {
		if d.chosen[c].mode == Built && d.chosen[c].build.Person == who {
			free = max(free, d.chosen[c].build.End)
		}
	}
	return free
}

// needed is about when a set of the pattern is next wanted by an open job other than j; Forever when it never is.
func (d *decoder) needed(pattern, j int) Time {
	soonest := Forever
	for _, user := range d.users[pattern] {
		if user != j && d.end[user] < 0 {
			soonest = min(soonest, d.rough[user])
		}
	}
	return soonest
}

// strip has the bench make plain the set on the rack that is needed last among those with tools that the next job of a
// machine cannot find loose, and reports false when there is none. It is for when nothing else helps: every time it
// leaves fewer tools on sets, so it cannot go on for ever.
func (d *decoder) strip(i int) bool {
	j := d.order[i][d.place[i]]
	d.chosen = d.chosen[:0]
	pick, latest := Build{Set: -1}, Time(-1)
	for _, u := range d.units[i] {
		for _, k := range d.stations[u] {
			w := d.want(j, k)
			if w.any {
				continue
			}
			for x := range d.where {
				if !d.donates(x, w.pattern) {
					continue
				}
				b, ok := d.build(x, d.plain[d.Tools.Sets[x].Class])
				if need := d.needed(d.pattern[x], j); ok && need > latest {
					pick, latest = b, need
					pick.Job, pick.Station = j, k
				}
			}
		}
	}
	if pick.Set < 0 {
		return false
	}
	d.carryOut(&pick)
	if d.plan != nil {
		d.plan.Builds = append(d.plan.Builds, pick)
	}
	return true
}

// donates says whether a set can be stripped and has a tool that the pattern needs and too few of which are loose.
func (d *decoder) donates(x, pattern int) bool {
	s := &d.Tools.Sets[x]
	if d.where[x] >= 0 || s.Locked || d.plain[s.Class] < 0 {
		return false
	}
	for _, c := range d.Tools.Patterns[pattern].Tools {
		if d.loose.total[c.Type] < c.N && d.Tools.Patterns[d.pattern[x]].count(c.Type) > 0 {
			return true
		}
	}
	return false
}
