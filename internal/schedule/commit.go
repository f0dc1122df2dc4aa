package schedule

import "slices"

// commit makes the chosen tooling of a task part of the state and reports whether sets or tools come free by it.
func (d *decoder) commit(i int, t *Task) (freed bool) {
	for _, u := range d.units[i] {
		d.guides[u] = d.guideTo[u]
	}
	for c := range d.chosen {
		if d.mount(&d.chosen[c], t) {
			freed = true
		}
	}
	return freed
}

func (d *decoder) mount(c *choice, t *Task) (freed bool) {
	if c.mode == Built {
		d.carryOut(&c.build)
		freed = true
	}
	if out := d.mounted[c.station]; out != c.set {
		if out >= 0 {
			d.where[out], d.since[out] = -1, t.RunStart
		}
		d.mounted[c.station], d.where[c.set] = c.set, c.station
		freed = true
	}
	if c.mode == InFolder {
		d.rebuild(c.set, c.from, c.to, t.RunStart)
		freed = true
	}
	return freed
}

// carryOut enters a build: the set is free again when it ends.
func (d *decoder) carryOut(b *Build) {
	d.rebuild(b.Set, b.From, b.Pattern, b.End)
	d.since[b.Set] = b.End
	d.bench[b.Person] = max(d.bench[b.Person], b.End)
	d.cost.Bench += b.Work
}

// rebuild changes the pattern of a set: tools that are missing are drawn at once, those left over are loose at the end.
func (d *decoder) rebuild(x, from, to int, end Time) {
	have, want := &d.Tools.Patterns[from], &d.Tools.Patterns[to]
	for _, c := range want.Tools {
		if n := have.lacks(c); n > 0 {
			d.loose.draw(c.Type, n)
		}
	}
	for _, c := range have.Tools {
		if n := want.lacks(c); n > 0 {
			d.loose.giveBack(c.Type, n, end)
		}
	}
	d.pattern[x] = to
}

// record writes a task into the plan. Builds are numbered as they come; tidy puts them in order.
func (d *decoder) record(i int, t *Task) {
	for c := range d.chosen {
		c := &d.chosen[c]
		m := Mount{Station: c.station, Mode: c.mode, Set: c.set, From: c.from, Time: c.time, Build: -1}
		u := d.Tools.Stations[c.station].Unit
		m.Guide, m.Wished, m.GuideWished = d.guideTo[u], c.wished, d.guideWished(u, t.Job)
		if c.mode == Built {
			m.Build = len(d.plan.Builds)
			d.plan.Builds = append(d.plan.Builds, c.build)
		}
		t.Mounts = append(t.Mounts, m)
	}
	if d.racks != nil && len(d.racks.brought[t.Job]) > 0 {
		t.Brought = slices.Clone(d.racks.brought[t.Job])
	}
	slices.SortFunc(t.Mounts, func(a, b Mount) int { return a.Station - b.Station })
	d.plan.Tasks[i] = append(d.plan.Tasks[i], *t)
}
