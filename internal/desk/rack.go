package desk

import (
	"context"
	"time"

	"foldwright/internal/plan"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// Match is which sets of the rack serve a station, and which comes nearest when none does.
type Match struct {
	Serves  []Serving
	Nearest *Near // nil when something serves or nothing is wanted
}

// Serving is a set that serves once the guide has moved by Shift.
type Serving struct {
	Set   *tooling.Set
	Shift units.Length
}

// Near is a set that would serve after some bench work.
type Near struct {
	Set  *tooling.Set
	Edit tooling.Edit
	Time time.Duration
}

// Rack lists the sets, in the order of the shop.
func (d *Desk) Rack(ctx context.Context) ([]tooling.Set, error) {
	s, err := d.Shop(ctx)
	if err != nil {
		return nil, err
	}
	return s.Sets, nil
}

// rack is the sets of a shop made ready to be searched.
type rack struct {
	shop *shop.Shop
	all  *tooling.Index
	free []tooling.Set // on no folder: what the bench can take in hand
	near *tooling.Index
}

func newRack(s *shop.Shop) *rack {
	r := &rack{shop: s, all: tooling.NewIndex(s.Sets, s.House.Tolerance)}
	for _, set := range s.Sets {
		if set.Place.Folder == "" {
			r.free = append(r.free, set)
		}
	}
	r.near = tooling.NewIndex(r.free, s.House.Tolerance)
	return r
}

// station adds to what the plan says of a station which sets would serve there, and which comes nearest.
func (r *rack) station(s *settings.Settings, p plan.Station) Station {
	out := Station{Name: p.Station, Mode: p.Mode, Set: p.Set}
	for i := range s.Units {
		for k := range s.Units[i].Stations {
			if s.Units[i].Stations[k].Name == p.Station {
				out.Unit = s.Units[i].Number
				out.Match = r.match(&s.Units[i], k)
			}
		}
	}
	return out
}

// match finds the sets that serve station k of a unit, wherever they are; failing that, the nearest one that no folder
// holds. All stations of a unit share one guide, so a set serves only when some place of the guide suits sets for the
// other stations as well, those aside for which there is none.
func (r *rack) match(u *settings.Unit, k int) Match {
	st := &u.Stations[k]
	if len(st.Tools) == 0 {
		return Match{}
	}
	var m Match
	others := r.others(u, k)
	for _, found := range r.serving(u, st) {
		if shifts, ok := together(found.Shift, others); ok {
			m.Serves = append(m.Serves, Serving{&r.shop.Sets[found.Set], shifts.Nearest(0)})
		}
	}
	if len(m.Serves) > 0 {
		return m
	}
	reach := u.Guide.Window.Moved(-u.Guide.At)
	for _, near := range r.near.NearestWithin(st.Pattern(), r.shop.Standards.AtBench.EditCost, reach, 1) {
		m.Nearest = &Near{&r.free[near.Set], near.Edit, r.shop.Standards.AtBench.Start + near.Time}
	}
	return m
}

// serving lists the sets that serve a station by itself, with the shifts that keep the guide inside its window.
func (r *rack) serving(u *settings.Unit, st *settings.Station) []tooling.Match {
	reach := u.Guide.Window.Moved(-u.Guide.At)
	var list []tooling.Match
	for _, found := range r.all.Serves(st.Pattern()) {
		if found.Shift = found.Shift.Meet(reach); !found.Shift.Empty() {
			list = append(list, found)
		}
	}
	return list
}

// others lists what serves the other stations of the unit, one list a station, empty lists left out.
func (r *rack) others(u *settings.Unit, k int) [][]tooling.Match {
	var lists [][]tooling.Match
	for i := range u.Stations {
		if i == k || len(u.Stations[i].Tools) == 0 {
			continue
		}
		if list := r.serving(u, &u.Stations[i]); len(list) > 0 {
			lists = append(lists, list)
		}
	}
	return lists
}

// together narrows the shifts to those that a choice of one match from every list allows; ok is false when no choice does.
// The first choice that works is taken, in the order of the sets.
func together(shifts tooling.Window, lists [][]tooling.Match) (both tooling.Window, ok bool) {
	if shifts.Empty() || len(lists) == 0 {
		return shifts, !shifts.Empty()
	}
	for _, m := range lists[0] {
		if both, ok = together(shifts.Meet(m.Shift), lists[1:]); ok {
			return both, true
		}
	}
	return tooling.Window{}, false
}
