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
	shop  *shop.Shop
	index *tooling.Index
}

func newRack(s *shop.Shop) *rack {
	return &rack{shop: s, index: tooling.NewIndex(s.Sets, s.House.Tolerance)}
}

// station adds to what the plan says of a station which sets would serve there, and which comes nearest.
func (r *rack) station(s *settings.Settings, p plan.Station) Station {
	out := Station{Name: p.Station, Mode: p.Mode, Set: p.Set}
	for i := range s.Units {
		for k := range s.Units[i].Stations {
			if s.Units[i].Stations[k].Name == p.Station {
				out.Unit = s.Units[i].Number
				out.Match = r.match(&s.Units[i], &s.Units[i].Stations[k])
			}
		}
	}
	return out
}

// match finds the sets that serve a station with the guide inside its window; failing that, the nearest one.
func (r *rack) match(u *settings.Unit, st *settings.Station) Match {
	if len(st.Tools) == 0 {
		return Match{}
	}
	var m Match
	reach := u.Guide.Window.Moved(-u.Guide.At)
	for _, found := range r.index.Serves(st.Pattern()) {
		if shifts := found.Shift.Meet(reach); !shifts.Empty() {
			m.Serves = append(m.Serves, Serving{&r.shop.Sets[found.Set], shifts.Nearest(0)})
		}
	}
	if len(m.Serves) > 0 {
		return m
	}
	for _, near := range r.index.Nearest(st.Pattern(), r.shop.Standards.AtBench.EditCost, 1) {
		m.Nearest = &Near{&r.shop.Sets[near.Set], near.Edit, r.shop.Standards.AtBench.Start + near.Time}
	}
	return m
}
