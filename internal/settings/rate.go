package settings

import (
	"foldwright/internal/machine"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// limit is the sheets an hour and what sets them.
type limit struct {
	perHour int
	what    limiter
	unit    int // from 1, where a unit sets them
}

type limiter uint8

const (
	nothing limiter = iota
	theFeeder
	aUnit
	aKnife
	theJob
)

// lower takes a limit over when it is the first or a smaller one; zero limits nothing.
func (l *limit) lower(perHour int, what limiter, unit int) {
	if perHour > 0 && (l.what == nothing || perHour < l.perHour) {
		*l = limit{perHour, what, unit}
	}
}

// by is the name of what sets the rate.
func (l limit) by() words.Text {
	switch l.what {
	case theFeeder:
		return words.T("feeder")
	case aUnit:
		return words.T("unit %d", l.unit)
	case aKnife:
		return words.T("knife of unit %d", l.unit)
	case theJob:
		return words.T("job")
	}
	return words.Text{}
}

// rate is the least over feeder, units, knife strokes and the job's own limit; of equals the first in that order.
func (w *walk) rate(p *path) limit {
	var least limit
	least.lower(w.folder.Feeder.SheetsPerHourMax, theFeeder, 0)
	for u := range p.legs {
		unit, l := &w.folder.Units[u], &p.legs[u]
		length := l.came.extent(w.folded.States[l.in]).Length
		least.lower(machine.Rate(unit.Speed, length, unit.Gap), aUnit, u+1)
		if l.engaged && unit.Kind == machine.Knife {
			least.lower(unit.StrokesMax, aKnife, u+1)
		}
	}
	least.lower(w.job.RateMax, theJob, 0)
	return least
}

// nips lists the roller pairs of a leg: nip 1 takes the stack as it enters, nip p + 1 as plate p leaves it. A knife has
// one pair, which takes the stack as folded; where a stack passes under a lifted knife there is none.
func (w *walk) nips(u int, l *leg, plates []int) []Nip {
	unit := &w.folder.Units[u]
	nip := func(number, state int) Nip {
		n := w.folded.States[state].Layers
		return Nip{number, n, units.Length(n) * w.caliper}
	}
	if unit.Kind == machine.Knife {
		if !l.engaged {
			return nil
		}
		return []Nip{nip(1, l.out)}
	}
	list := make([]Nip, len(unit.Plates)+1)
	state, done := l.in, 0
	list[0] = nip(1, state)
	for p := 1; p <= len(unit.Plates); p++ {
		if done < len(plates) && plates[done] == p {
			state = l.folds[done].state
			done++
		}
		list[p] = nip(p+1, state)
	}
	return list
}
