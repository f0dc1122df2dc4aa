package schedule

import "slices"

// survey notes, while an order is decoded, what each task could do as things stand, whether it pays or not.
type survey struct {
	builds, sets, guides []Wish
}

// ways are all of them; those come first that pay most often.
func (s *survey) ways() []Wish { return slices.Concat(s.builds, s.sets, s.guides) }

// note lists the ways for a unit that is about to be chosen for.
func (s *survey) note(d *decoder, i, u, j int) {
	d.listPositions(u, j)
	s.noteGuides(d, i, u, j)
	for _, k := range d.stations[u] {
		if w := d.want(j, k); !w.any {
			s.noteSets(d, i, Wish{Job: j, Unit: u, Station: k})
		}
	}
}

// noteSets lists the ways for a station: a set that serves as it is, now or once it comes out of another machine; or, where the one that
// stands there does not serve, one to build or to fit.
func (s *survey) noteSets(d *decoder, i int, one Wish) {
	k, w := one.Station, d.want(one.Job, one.Station)
	serves := d.serves(w, k, d.guides[one.Unit])
	for _, one.Set = range d.sets[d.Tools.Stations[k].Class] {
		p, stands := d.pattern[one.Set], d.mounted[k] == one.Set
		if one.Mode = Swap; !d.fit(w, p).empty() && (d.atHand(one.Set) || d.elsewhere(i, one.Set)) {
			s.sets = append(s.sets, one)
		}
		if serves || p == w.pattern || d.Tools.Sets[one.Set].Locked || !stands && !d.atHand(one.Set) {
			continue
		}
		if one.Mode = Built; !stands && d.Tools.OnBench[p][w.pattern] >= 0 {
			s.builds = append(s.builds, one)
		}
		if one.Mode = InFolder; d.Tools.InFolder[p][w.pattern] >= 0 {
			s.sets = append(s.sets, one)
		}
	}
}

// ahead is for how many of a machine's next jobs a guide may move early.
const ahead = 3

// noteGuides lists where the guide could go: for the job, and for the next ones already. Of all positions that serve the same it takes
// the middle, so that the tolerance is left to the hands.
func (s *survey) noteGuides(d *decoder, i, u, j int) {
	guides := slices.Clone(d.position)
	var spans []span
	row := d.order[i][d.place[i]:]
	for _, next := range row[:min(1+ahead, len(row))] {
		for _, k := range d.stations[u] {
			w := d.want(next, k)
			if w.any {
				continue
			}
			for _, f := range d.Tools.Wants[next][k].Fits {
				if f.Lo > AnywhereLo && f.Hi < AnywhereHi {
					spans = append(spans, span{f.Lo, f.Hi})
					guides = append(guides, span{f.Lo, f.Hi}.clamp(w.guide), f.Lo)
				}
			}
		}
	}
	for n, g := range guides {
		guides[n] = amid(spans, g)
	}
	slices.Sort(guides)
	for _, g := range slices.Compact(guides) {
		if g != d.guides[u] {
			s.guides = append(s.guides, Wish{Job: j, Unit: u, Station: -1, Guide: g})
		}
	}
}

// amid is the middle of what all the spans that hold g have in common; g itself where none does.
func amid(spans []span, g int64) int64 {
	room := span{AnywhereLo, AnywhereHi}
	for _, s := range spans {
		if s.has(g) {
			room = room.meet(s)
		}
	}
	if room.lo == AnywhereLo {
		return g
	}
	return room.lo + (room.hi-room.lo)/2
}
