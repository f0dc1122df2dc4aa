package settings

import (
	"cmp"
	"slices"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
)

// Ways gives every way to run a job on a folder, best first, or the nearest miss when there is none. The folding must be
// the job's scheme applied to the job's sheet.
//
// Best first: the fewest stations with tools for which the rack has no set; then the most sheets an hour; then the fewest
// wheels; then the fewest units; then what is tried first, which is: fed as drawn, folded in the earlier unit, a unit's usual
// entry, the earliest plates.
func Ways(j *job.Job, folded *fold.Folded, f *machine.Folder, h *House) ([]Settings, *Miss) {
	e, list, miss := survey(j, folded, f, h)
	if miss != nil {
		return nil, miss
	}
	var ways []Settings
	for i := range list {
		e.each(&list[i], func(plates [][]int) bool {
			ways = append(ways, e.settings(&list[i], plates))
			return true
		})
	}
	return ways, nil
}

// Best gives the first of [Ways] at a fraction of the cost.
func Best(j *job.Job, folded *fold.Folded, f *machine.Folder, h *House) (*Settings, *Miss) {
	e, list, miss := survey(j, folded, f, h)
	if miss != nil {
		return nil, miss
	}
	var best Settings
	e.each(&list[0], func(plates [][]int) bool {
		best = e.settings(&list[0], plates)
		return false
	})
	return &best, nil
}

// survey finds the paths that a job can take through a folder, best first.
func survey(j *job.Job, folded *fold.Folded, f *machine.Folder, h *House) (*engine, []laid, *Miss) {
	e := &engine{walk: newWalk(j, folded, f), house: h}
	e.sites = sites{lines: newLines(j, folded, h), house: h, folder: f}
	var list []laid
	e.found = func(p path, _ []trouble) {
		if l, _, ok := e.lay(p); ok {
			list = append(list, l)
		}
	}
	e.run()
	if len(list) == 0 {
		return nil, nil, e.miss()
	}
	slices.SortStableFunc(list, before)
	return e, list, nil
}

// engine holds what all ways of one job on one folder share.
type engine struct {
	*walk
	sites sites
	house *House
	notes []Note
	told  []trouble // of the nearest miss
}

// laid is a path with its tools.
type laid struct {
	path
	units   []fitted
	rate    limit
	tooled  int
	served  int
	wheels  int
	streams int
}

func before(a, b laid) int {
	return cmp.Or(
		cmp.Compare(a.tooled-a.served, b.tooled-b.served),
		cmp.Compare(b.rate.perHour, a.rate.perHour),
		cmp.Compare(a.wheels, b.wheels),
		cmp.Compare(len(a.legs), len(b.legs)),
		cmp.Compare(a.number, b.number),
	)
}

// lay puts the tools on the shafts of a path.
func (e *engine) lay(p path) (laid, []trouble, bool) {
	spots, troubles := e.sites.assign(p.legs)
	if len(troubles) > 0 && !e.sites.speak {
		return laid{}, troubles, false
	}
	l := laid{path: p, units: make([]fitted, len(p.legs)), streams: 1}
	for u := range p.legs {
		f := e.fitting(&p, u, spots[u])
		unit, ok := f.fit()
		if !ok {
			troubles = append(troubles, f.best)
			if !e.sites.speak {
				return laid{}, troubles, false
			}
			continue
		}
		l.units[u] = unit
		l.tooled += unit.tooled
		l.served += unit.served
		l.wheels += len(spots[u])
		l.streams += partings(spots[u], f.shaft.width, e.house.Rings.Width)
	}
	l.rate = e.rate(&p)
	return l, troubles, len(troubles) == 0
}

// fitting prepares the shafts of leg u.
func (e *engine) fitting(p *path, u int, spots []spot) *fitting {
	leg := &p.legs[u]
	drawn := e.folded.States[leg.out]
	sh := shaft{&e.folder.Units[u], leg.now.extent(drawn).Width}
	f := newFitting(e.house, u+1, sh, spots)
	f.speak, f.short = e.sites.speak, e.sites.short
	if len(sh.unit.Stations) == 0 {
		return f
	}
	for _, later := range p.legs[u+1:] {
		for _, fold := range later.folds {
			for _, track := range e.sites.fold(fold.fold, leg.out) {
				if leg.now.along(track.Axis) {
					f.folds = append(f.folds, sh.offset(leg.now.t(track.At, drawn)))
				}
			}
		}
	}
	return f
}

// each goes through the choices of plates of a path, those of the earliest plates first: for every leg the plate of each
// of its folds. It stops when visit returns false.
func (e *engine) each(l *laid, visit func(plates [][]int) bool) {
	choices := make([][][]int, len(l.legs))
	for u := range l.legs {
		choices[u] = [][]int{nil}
		if unit := &e.folder.Units[u]; l.legs[u].engaged && unit.Kind == machine.Buckle {
			choices[u] = assignments(unit, l.legs[u].folds)
		}
	}
	plates := make([][]int, len(l.legs))
	var choose func(u int) bool
	choose = func(u int) bool {
		if u == len(plates) {
			return visit(plates)
		}
		for _, choice := range choices[u] {
			plates[u] = choice
			if !choose(u + 1) {
				return false
			}
		}
		return true
	}
	choose(0)
}

// settings writes a way out.
func (e *engine) settings(l *laid, plates [][]int) Settings {
	if e.notes == nil {
		e.notes = notes(e.job, e.folded, e.house)
	}
	s := Settings{
		Job: e.job.Name, Folder: e.folder.Name, Feed: l.feed,
		SheetsPerHour: l.rate.perHour, RateLimit: l.rate.by(), Streams: l.streams,
		Units: make([]Unit, len(e.folder.Units)),
		Notes: e.notes,
	}
	for u := range s.Units {
		unit := &e.folder.Units[u]
		s.Units[u] = Unit{Number: u + 1, Kind: unit.Kind, Plates: closed(unit)}
		if u < len(l.legs) {
			e.unit(&s.Units[u], &l.legs[u], &l.units[u], plates[u])
		}
	}
	return s
}

// closed is the plates of a unit, all closed.
func closed(unit *machine.Unit) []Plate {
	if unit.Kind != machine.Buckle {
		return nil
	}
	list := make([]Plate, len(unit.Plates))
	for i := range list {
		list[i] = Plate{Number: i + 1, Closed: true}
	}
	return list
}

// unit writes one unit out.
func (e *engine) unit(u *Unit, l *leg, f *fitted, plates []int) {
	u.Engaged, u.Passes, u.Enters = l.engaged, !l.engaged, l.enters
	u.In = l.came.extent(e.folded.States[l.in])
	u.Out = l.now.extent(e.folded.States[l.out])
	u.Guide, u.Stations = f.guide, f.stations
	u.Nips = e.nips(u.Number-1, l, plates)
	for i, p := range plates {
		u.Plates[p-1] = Plate{Number: p, Stop: l.folds[i].stop, Fold: l.folds[i].fold}
	}
	if u.Kind == machine.Knife && l.engaged {
		u.Knife = &Knife{Stop: l.folds[0].stop, Fold: l.folds[0].fold}
	}
}
