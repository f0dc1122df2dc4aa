package schedule

import "slices"

// Wish is a way for a job to get its tools, or a place for a guide, that the rules of [Decode] would not take: dearer for the job at
// hand, it may be cheaper for those that come later. What cannot be had as things stand is as if it had not been wished.
type Wish struct {
	Job, Unit int
	Station   int   // -1: the wish is for the guide of the unit
	Mode      Mode  // Swap, Built or InFolder; with a station
	Set       int   // with a station
	Guide     int64 // without one
}

// wishes are those for the jobs of an order, by job.
type wishes [][]Wish

// add puts a wish in, in place of one for the same thing, and returns what the job wished before.
func (w wishes) add(one Wish) (before []Wish) {
	before = w[one.Job]
	now := slices.DeleteFunc(slices.Clone(before), func(o Wish) bool { return o.Unit == one.Unit && o.Station == one.Station })
	w[one.Job] = append(now, one)
	return before
}

// follow makes the decoder grant wishes, but for those that never can be.
func (d *decoder) follow(all []Wish) {
	d.wishes = make(wishes, d.jobs)
	for _, w := range all {
		if w.Station < 0 || d.couldStand(&w) {
			d.wishes.add(w)
		}
	}
}

// couldStand says whether a set could ever get to a station as it is wished.
func (d *decoder) couldStand(w *Wish) bool {
	set, st := &d.Tools.Sets[w.Set], &d.Tools.Stations[w.Station]
	return set.Class == st.Class && st.Unit == w.Unit && (!set.Locked || w.Mode == Swap) && !d.want(w.Job, w.Station).any
}

// wish grants what the task wishes of a unit; false when it wishes nothing or cannot have it.
func (d *decoder) wish(i, u int, t *Task) bool {
	if d.wishes == nil || !slices.ContainsFunc(d.wishes[t.Job], func(w Wish) bool { return w.Unit == u }) {
		return false
	}
	d.asked = d.wishes[t.Job]
	granted := d.chooseUnit(i, u, t)
	d.asked = nil
	return granted
}

// wishedGuide is where the task at hand wishes the guide of a unit; false when it does not.
func (d *decoder) wishedGuide(u int) (int64, bool) {
	for n := range d.asked {
		if w := &d.asked[n]; w.Unit == u && w.Station < 0 {
			return w.Guide, true
		}
	}
	return 0, false
}

// wishedSet is what the task at hand wishes of a station, nil when it wishes nothing.
func (d *decoder) wishedSet(k int) *Wish {
	for n := range d.asked {
		if d.asked[n].Station == k {
			return &d.asked[n]
		}
	}
	return nil
}

// guideWished says whether the guide of a unit goes where a job wishes it.
func (d *decoder) guideWished(u, j int) bool {
	return d.wishes != nil && slices.ContainsFunc(d.wishes[j], func(w Wish) bool {
		return w.Unit == u && w.Station < 0 && w.Guide == d.guideTo[u]
	})
}

// grant is the option that is wished, hopeless when it cannot be had with the guide at g.
func (d *decoder) grant(i, j int, wish *Wish, g int64, start Time) choice {
	k, best := wish.Station, choice{score: hopeless}
	w := d.want(j, k)
	stands, own := d.mounted[k] == wish.Set, d.fit(w, w.pattern).has(g)
	switch {
	case !stands && !d.atHand(wish.Set):
	case wish.Mode == Swap && !stands && d.fit(w, d.pattern[wish.Set]).has(g):
		c := d.swapIn(k, w, wish.Set, start)
		d.offer(i, start, &c, 0, &best)
	case wish.Mode == Built && !stands && own:
		if b, ok := d.build(wish.Set, w.pattern); ok {
			d.offerBuild(i, k, j, b, start, &best)
		}
	case wish.Mode == InFolder && d.pattern[wish.Set] == w.pattern: // there is nothing to fit
	case wish.Mode == InFolder && stands && own:
		d.inFolder(i, k, w, start, &best)
	case wish.Mode == InFolder && own:
		d.refit(i, k, w, wish.Set, start, &best)
	}
	best.wished = true
	return best
}

// awaits says whether a job wishes to wait for a set that stands at another machine and serves.
func (d *decoder) awaits(i, j int) bool {
	if d.wishes == nil || d.forgone[j] {
		return false
	}
	return slices.ContainsFunc(d.wishes[j], func(w Wish) bool {
		return w.Station >= 0 && w.Mode == Swap && d.Tools.Stations[w.Station].Machine == i && d.elsewhere(i, w.Set) &&
			!d.fit(d.want(j, w.Station), d.pattern[w.Set]).empty()
	})
}

// elsewhere says whether a set stands at another machine.
func (d *decoder) elsewhere(i, x int) bool {
	k := d.where[x]
	return k >= 0 && d.Tools.Stations[k].Machine != i
}

// forgo makes a job that waits for a set wait no longer; false when it does not.
func (d *decoder) forgo(i int) bool {
	j := d.order[i][d.place[i]]
	if !d.awaits(i, j) {
		return false
	}
	d.forgone[j] = true
	d.look(i)
	return true
}
