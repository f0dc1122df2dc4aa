package settings

import (
	"slices"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// spot is a wheel that is wanted in a unit, at the machine's t.
type spot struct {
	tooling.Type
	t     units.Length
	ops   []int
	strip units.Length // what it takes out; 0 for all but strips
	parts bool         // pieces go on side by side, left and right of it, unless what falls off is too narrow for one
	twoUp bool         // the docket says that they do
}

// cuts tells whether the paper is through after the wheel.
func (s *spot) cuts() bool { return s.Kind == tooling.Slit || s.Kind == tooling.Strip }

// sites finds for every operation the unit and the places where its wheels stand.
type sites struct {
	*lines
	house  *House
	folder *machine.Folder
	speak  bool // make words for troubles
}

// assign gives the spots of every leg, each in ascending t, or the troubles of the operations that find no place.
func (s *sites) assign(legs []leg) (spots [][]spot, troubles []trouble) {
	spots = make([][]spot, len(legs))
	for op := range s.job.Operations {
		u, places, t := s.find(legs, op)
		if t.bad > 0 {
			troubles = append(troubles, t)
			if !s.speak {
				return nil, troubles
			}
			continue
		}
		for _, at := range places {
			spots[u] = s.add(spots[u], op, at)
		}
	}
	return spots, troubles
}

// add puts a wheel at its place, or lets the one that stands there serve this operation too.
func (s *sites) add(spots []spot, op int, t units.Length) []spot {
	o := &s.job.Operations[op]
	parts := o.Separates() && o.Target == job.OnLine && o.Ups != 1
	i := 0
	for ; i < len(spots) && spots[i].t <= t; i++ {
		if spots[i].t == t && spots[i].Type == s.types[op] {
			spots[i].ops = append(spots[i].ops, op)
			spots[i].parts, spots[i].twoUp = spots[i].parts || parts, spots[i].twoUp || o.Ups == 2
			return spots
		}
	}
	return slices.Insert(spots, i, spot{s.types[op], t, []int{op}, s.strip[op], parts, o.Ups == 2})
}

// find tries the units that could do an operation and takes the best.
func (s *sites) find(legs []leg, op int) (unit int, places []units.Length, worst trouble) {
	first, last := s.span(legs, op)
	if last < first {
		return 0, nil, s.firstGroup(op, last+1)
	}
	found := false
	for u := last; u >= first; u-- {
		at, t := s.places(&legs[u], u, op)
		if t.bad > 0 {
			if worst.bad == 0 || t.bad < worst.bad {
				worst = t
			}
			continue
		}
		if !found || s.prefers(op, len(at), len(places)) {
			unit, places, found = u, at, true
		}
	}
	if found {
		worst = trouble{}
	}
	return unit, places, worst
}

// prefers tells whether an earlier unit that takes so many wheels is better than a later one. A fold line is prepared just
// before it is folded, in all layers at once; any other line is worked where it takes the fewest wheels, and of those
// where it goes through the fewest layers, which is earliest.
func (s *sites) prefers(op, earlier, later int) bool {
	if s.job.Operations[op].Target == job.OnFold {
		return false
	}
	return earlier <= later
}

// span is the legs at whose stations an operation may be made: pieces are parted behind the last fold; a fold line is
// worked before its fold; other lines anywhere.
func (s *sites) span(legs []leg, op int) (first, last int) {
	o, end := &s.job.Operations[op], len(legs)-1
	switch {
	case o.Separates():
		return end, end
	case o.Target == job.OnFold:
		return 0, legOf(legs, o.Fold) - 1
	}
	return 0, end
}

// legOf is the leg that makes fold k.
func legOf(legs []leg, k int) int {
	for u := range legs {
		for _, f := range legs[u].folds {
			if f.fold == k {
				return u
			}
		}
	}
	return len(legs)
}

// firstGroup is the trouble of a fold line that no station comes before.
func (s *sites) firstGroup(op, unit int) trouble {
	return s.refuse(op, func(o words.Text) words.Text {
		return words.T("%s: fold %d is made in unit %d and no station comes before it, so its line must be worked off the folder",
			o, s.job.Operations[op].Fold, unit+1)
	})
}

// refuse is the trouble of an operation that has no place; why gets the words of the operation.
func (s *sites) refuse(op int, why func(o words.Text) words.Text) trouble {
	t := trouble{bad: nothingLike}
	if s.speak {
		t.text = why(s.job.Operations[op].Words())
	}
	return t
}

// places is where the wheels of an operation stand behind the nips of a leg.
func (s *sites) places(l *leg, u, op int) ([]units.Length, trouble) {
	if len(s.folder.Units[u].Stations) == 0 {
		return nil, s.refuse(op, func(o words.Text) words.Text { return words.T("%s: unit %d has no station for tools", o, u+1) })
	}
	tracks := s.operation(op, l.out)
	if len(tracks) == 0 {
		return nil, s.refuse(op, noPages)
	}
	drawn := s.folded.States[l.out]
	places := make([]units.Length, len(tracks))
	for i, track := range tracks {
		if !l.now.along(track.Axis) {
			return nil, s.refuse(op, func(o words.Text) words.Text {
				return words.T("%s: its line runs across the travel behind unit %d", o, u+1)
			})
		}
		places[i] = l.now.t(track.At, drawn)
		if track.Foreign > 0 {
			return nil, s.refuse(op, func(o words.Text) words.Text {
				return words.T("%s: behind unit %d its line lies %s from the left edge, and %s there would be hit too, which the line does not cross",
					o, u+1, words.Fine(places[i]), layers(track.Foreign))
			})
		}
	}
	slices.Sort(places)
	return places, s.stripTrouble(l, u, op, places)
}

// stripTrouble looks at both cuts of a strip: the middle may be free while a cut is not.
func (s *sites) stripTrouble(l *leg, u, op int, places []units.Length) trouble {
	o := &s.job.Operations[op]
	if o.Kind != tooling.Strip || o.Target != job.OnLine {
		return trouble{}
	}
	half := s.strip[op] / 2
	for _, track := range s.folded.Trace(l.out, s.stripCuts(op)) {
		if track.Foreign > 0 {
			return s.refuse(op, func(o words.Text) words.Text {
				return words.T("%s: behind unit %d a cut of its strip would hit %s more", o, u+1, layers(track.Foreign))
			})
		}
	}
	wide := l.now.extent(s.folded.States[l.out]).Width
	if places[0]-half < 0 || places[len(places)-1]+half > wide {
		return s.refuse(op, func(o words.Text) words.Text {
			return words.T("%s: behind unit %d its strip reaches over the edge of the stack", o, u+1)
		})
	}
	return trouble{}
}

// stripCuts is both cuts of a strip, and those of all strips as wide: folded layers may lie in one another's place.
func (s *sites) stripCuts(op int) []fold.Segment {
	half := s.strip[op] / 2
	var cuts []fold.Segment
	for other := range s.job.Operations {
		if o := &s.job.Operations[other]; o.Target == job.OnLine && s.types[other] == s.types[op] {
			cuts = append(append(cuts, s.folded.FlatLine(o.Axis, o.At-half)...), s.folded.FlatLine(o.Axis, o.At+half)...)
		}
	}
	return cuts
}

func layers(n int) words.Text { return words.Count(n, "%d layer", "%d layers") }

func noPages(o words.Text) words.Text {
	return words.T("%s: the folded piece has no pages to tell head from foot; give the cut as a line, such as \"%s\"", o, "slit at t 3 mm one-up")
}
