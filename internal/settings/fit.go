package settings

import (
	"cmp"
	"slices"

	"foldwright/internal/machine"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// fitting places the wanted wheels of one unit on its shafts: which station takes which wheel, where the guide stands,
// where drive rings go.
type fitting struct {
	house  *House
	shaft  shaft
	number int     // of the unit, from 1
	wheels []wheel // in ascending place on the shaft
	// folds is the places, with the guide at 0, of fold lines still to come that run along the travel: no ring rolls there.
	folds []units.Length
	short words.Joined // of each operation
	speak bool

	on     []int            // station of each wheel
	reach  [][]units.Length // of each station, the far end of each body mounted so far
	tries  int              // that are left
	result fitted
	placed bool    // there is a result
	best   trouble // the conflict that came nearest to fitting
}

// wheel is a spot on the shaft.
type wheel struct {
	*spot
	at     units.Length // with the guide at 0
	bodies []tooling.Body
}

// fitted is how a unit is tooled.
type fitted struct {
	guide    Guide
	stations []Station
	served   int // stations with tools for which the rack has a set
	tooled   int // stations with tools
}

// newFitting prepares the wheels; spots are in machine t.
func newFitting(h *House, number int, sh shaft, spots []spot) *fitting {
	f := &fitting{house: h, shaft: sh, number: number, tries: triesMost, reach: make([][]units.Length, len(sh.unit.Stations))}
	if len(spots) == 0 {
		return f
	}
	f.wheels = make([]wheel, len(spots))
	f.on = make([]int, len(spots))
	for i := range spots {
		f.wheels[i] = wheel{spot: &spots[i], at: sh.offset(spots[i].t), bodies: make([]tooling.Body, len(sh.unit.Stations))}
		for k := range sh.unit.Stations {
			f.wheels[i].bodies[k] = h.body(sh.unit.Stations[k].Class, spots[i].Type)
		}
	}
	slices.SortStableFunc(f.wheels, func(a, b wheel) int { return cmp.Compare(a.at, b.at) })
	return f
}

// fit places all wheels: with the whole stack on the shafts where that can be, otherwise anywhere in the guide's range.
func (f *fitting) fit() (fitted, bool) {
	if window := f.shaft.onShafts(); !window.Empty() {
		if f.place(0, window); f.placed {
			return f.result, true
		}
	}
	f.tries = triesMost
	f.place(0, f.shaft.guideRange())
	return f.result, f.placed
}

// triesMost bounds the search for an arrangement, and sharesMost what is tried beyond the first one. A handful of wheels on
// two stations comes nowhere near the first and through all its arrangements within the second.
const (
	triesMost  = 20_000
	sharesMost = 100
)

// place tries to put the wheels from number i on, keeping to the guide positions of the window, and tells whether to stop.
// The first station is tried first, so that a unit is tooled on one pair of shafts when one is enough.
func (f *fitting) place(i int, window tooling.Window) (stop bool) {
	if i == len(f.wheels) {
		return f.offer(window)
	}
	w := &f.wheels[i]
	for k := range f.shaft.unit.Stations {
		if f.tries--; f.tries < 0 {
			return true
		}
		station, body := &f.shaft.unit.Stations[k], w.bodies[k]
		if !f.beside(i, k) {
			continue
		}
		now := window.Meet(tooling.Window{Lo: station.From + body.Left - w.at, Hi: station.To - body.Right - w.at})
		if now.Empty() {
			f.offShaft(w, station, body, window)
			continue
		}
		f.on[i] = k
		f.reach[k] = append(f.reach[k], w.at+body.Right)
		stop = f.place(i+1, now)
		f.reach[k] = f.reach[k][:len(f.reach[k])-1]
		if stop {
			return true
		}
	}
	return false
}

// offer takes an arrangement that leaves room for the rings when it is the first, or leaves fewer stations without a set
// on the rack, or as few on fewer stations. It tells whether none can be better.
func (f *fitting) offer(window tooling.Window) (stop bool) {
	result, ok := f.arrange(window)
	if !ok {
		return false
	}
	before, now := f.result.tooled-f.result.served, result.tooled-result.served
	if !f.placed {
		f.tries = min(f.tries, sharesMost)
	}
	if !f.placed || now < before || (now == before && result.tooled < f.result.tooled) {
		f.result, f.placed = result, true
	}
	return f.house.Rack == nil || f.result.served == f.result.tooled
}

// beside tells whether wheel i fits on station k beside those that stand there.
func (f *fitting) beside(i, k int) bool {
	w := &f.wheels[i]
	n := 0
	for j := range f.wheels[:i] {
		if f.on[j] != k {
			continue
		}
		if f.reach[k][n] > w.at-w.bodies[k].Left {
			f.clash(&f.wheels[j], w, k)
			return false
		}
		n++
	}
	return true
}

// note keeps the conflict that came nearest to fitting.
func (f *fitting) note(bad float64, text func() words.Text) {
	if f.best.bad > 0 && f.best.bad <= bad {
		return
	}
	f.best = trouble{bad: bad}
	if f.speak {
		f.best.text = text()
	}
}

func (f *fitting) clash(a, b *wheel, k int) {
	distance, least := b.at-a.at, a.bodies[k].Right+b.bodies[k].Left
	f.note(0.3+short(distance, least)/2, func() words.Text {
		return words.T("station %s of unit %d: %s and %s are %s apart and need %s", f.shaft.unit.Stations[k].Name, f.number,
			f.name(a), f.name(b), words.Fine(distance), words.Fine(least))
	})
}

func (f *fitting) name(w *wheel) words.Text { return words.T("%s at t %s", w.Type, words.Fine(w.t)) }

// offShaft is the conflict of a wheel whose body leaves the usable part of the shaft wherever the guide may stand.
func (f *fitting) offShaft(w *wheel, station *machine.Station, body tooling.Body, guide tooling.Window) {
	lo, hi := station.From+body.Left-w.at, station.To-body.Right-w.at
	out := max(lo-guide.Hi, guide.Lo-hi)
	f.note(0.3+short(0, out)/2, func() words.Text {
		return words.T("station %s of unit %d: %s would stand %s off the usable part of the shaft, %s to %s", station.Name, f.number,
			f.name(w), words.Fine(out), station.From, station.To)
	})
}

// arrange sets the guide and the rings for the stations chosen.
func (f *fitting) arrange(window tooling.Window) (fitted, bool) {
	want := window.Nearest(f.shaft.centred())
	stations := f.mount(want)
	at, served := f.guide(stations, window, want)
	result := fitted{guide: Guide{Side: f.shaft.unit.Guide.Side, At: at, Window: window}, stations: stations, served: served}
	for k := range stations {
		s := &stations[k]
		for i := range s.Tools {
			s.Tools[i].At += at - want
		}
		if len(s.Tools) > 0 {
			result.tooled++
		}
		var ok bool
		if s.DriveRings, ok = f.rings(k, at); !ok {
			return fitted{}, false
		}
		s.Paper = f.shaft.paper().Moved(at)
	}
	return result, true
}

// mount puts the wheels on their stations, in ascending place, for a position of the guide.
func (f *fitting) mount(guide units.Length) []Station {
	stations := make([]Station, len(f.shaft.unit.Stations))
	for k := range stations {
		stations[k].Name, stations[k].Class = f.shaft.unit.Stations[k].Name, f.shaft.unit.Stations[k].Class
	}
	for i := range f.wheels {
		s := &stations[f.on[i]]
		s.Tools = append(s.Tools, f.tool(&f.wheels[i], guide))
	}
	return stations
}

// tool writes a wheel out for a position of the guide.
func (f *fitting) tool(w *wheel, guide units.Length) Tool {
	why := f.short[w.ops[0] : w.ops[0]+1 : w.ops[0]+1]
	for _, op := range w.ops[1:] {
		why = append(why, f.short[op])
	}
	return Tool{Tool: tooling.Tool{Type: w.Type, At: w.at + guide}, T: w.t, For: why}
}
