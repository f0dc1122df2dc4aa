package settings

import (
	"slices"

	"foldwright/internal/machine"
)

// knife holds a group of folds to a knife unit: one fold, up, its stop in range.
func (w *walk) knife(u int, folds []made) bool {
	unit, first := &w.folder.Units[u], folds[0]
	for _, second := range folds[1:] {
		if !w.misfit(trouble{kind: knifeTwice, unit: u + 1, fold: second.fold, bad: nothingLike}) {
			return false
		}
	}
	if !first.up && !w.misfit(trouble{kind: knifeDown, unit: u + 1, fold: first.fold, bad: nothingLike}) {
		return false
	}
	if t := stopTrouble(unit.Stop, first, knifeFar, knifeNear); t.bad > 0 {
		t.unit = u + 1
		return w.misfit(t)
	}
	return true
}

// stopTrouble compares a stop with a range; no trouble has badness 0.
func stopTrouble(limit machine.Range, f made, far, near troubleKind) trouble {
	switch {
	case f.stop > limit.Max:
		return trouble{kind: far, fold: f.fold, have: limit.Max, need: f.stop, bad: short(limit.Max, f.stop)}
	case f.stop < limit.Min:
		return trouble{kind: near, fold: f.fold, have: limit.Min, need: f.stop, bad: short(limit.Min, f.stop)}
	}
	return trouble{}
}

// plates tells whether the folds can be given strictly ascending plates of buckle unit u; in the search for the nearest
// miss it adds what is least bad.
func (w *walk) plates(u int, folds []made) bool {
	unit := &w.folder.Units[u]
	if earliest(unit, folds) {
		return true
	}
	if !w.nearest {
		return false
	}
	for _, t := range leastBad(unit, folds) {
		t.unit = u + 1
		if !w.misfit(t) {
			return false
		}
	}
	return true
}

// fits tells whether plate p (from 1) can make the fold.
func fits(unit *machine.Unit, p int, f made) bool {
	stop := unit.Plates[p-1].Stop
	return unit.FoldsUp(p) == f.up && stop.Min <= f.stop && f.stop <= stop.Max
}

// earliest gives every fold the first plate that can make it. When that runs out of plates, so does every other choice: a
// fold made by an earlier plate leaves all the more of them.
func earliest(unit *machine.Unit, folds []made) bool {
	p := 0
	for _, f := range folds {
		for p++; p <= len(unit.Plates) && !fits(unit, p, f); p++ {
		}
		if p > len(unit.Plates) {
			return false
		}
	}
	return true
}

// assignmentsMost bounds the choices of plates that are listed for one unit; a real unit has a handful.
const assignmentsMost = 64

// assignments lists the choices of plates, that of the earliest plates first: one plate number a fold.
func assignments(unit *machine.Unit, folds []made) [][]int {
	var list [][]int
	chosen := make([]int, 0, len(folds))
	var try func(from int)
	try = func(from int) {
		if len(chosen) == len(folds) {
			list = append(list, slices.Clone(chosen))
			return
		}
		for p := from; p <= len(unit.Plates) && len(list) < assignmentsMost; p++ {
			if fits(unit, p, folds[len(chosen)]) {
				chosen = append(chosen, p)
				try(p + 1)
				chosen = chosen[:len(chosen)-1]
			}
		}
	}
	try(1)
	return list
}

// leastBad finds the ascending plates that come nearest to making the folds, and the troubles they have: by reckoning
// backwards what is least bad for the last folds with the plates after each. Costs folds × plates².
func leastBad(unit *machine.Unit, folds []made) []trouble {
	type answer struct {
		bad   float64
		here  trouble // of this fold; none has badness 0
		plate int     // that makes it; that of the fold before when there is none
	}
	n := len(unit.Plates)
	best := make([][]answer, len(folds)+1) // [fold][plate of the fold before]
	best[len(folds)] = make([]answer, n+1)
	for i := len(folds) - 1; i >= 0; i-- {
		f := folds[i]
		best[i] = make([]answer, n+1)
		for last := 0; last <= n; last++ {
			none := trouble{kind: plateNone, plate: last, fold: f.fold, up: f.up, bad: nothingLike}
			least := answer{none.bad + best[i+1][last].bad, none, last}
			for p := last + 1; p <= n; p++ {
				t := stopTrouble(unit.Plates[p-1].Stop, f, plateFar, plateNear)
				t.plate = p
				sum := t.bad + best[i+1][p].bad
				// Of equals, folding until the plates run out is what an operator would try.
				better := sum < least.bad || (sum == least.bad && least.here.kind == plateNone)
				if unit.FoldsUp(p) == f.up && better {
					least = answer{sum, t, p}
				}
			}
			best[i][last] = least
		}
	}
	var list []trouble
	for i, last := 0, 0; i < len(folds); i++ {
		a := best[i][last]
		if a.here.bad > 0 {
			list = append(list, a.here)
		}
		last = a.plate
	}
	return list
}
