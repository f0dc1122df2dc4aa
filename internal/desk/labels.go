package desk

import (
	"context"
	"slices"

	"foldwright/internal/fault"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
)

// Labelled is a set with the jobs that its label names: first those waiting that it serves, in the order of the shop, then
// those it served before.
type Labelled struct {
	Set  *tooling.Set
	Jobs []string
}

// Labels returns the sets that are named, or all of them, with the jobs they serve.
func (d *Desk) Labels(ctx context.Context, wanted []string) ([]Labelled, error) {
	s, err := d.Shop(ctx)
	if err != nil {
		return nil, err
	}
	if len(wanted) == 0 {
		wanted = s.SetLabels()
	}
	var faults fault.List
	list := make([]Labelled, 0, len(wanted))
	for _, label := range wanted {
		set, ok := s.Set(label)
		if !ok {
			faults.Add(unknown("set", label, s.SetLabels()))
			continue
		}
		list = append(list, Labelled{Set: set})
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	waiting := jobsServed(s)
	for i := range list {
		list[i].Jobs = union(waiting[list[i].Set.Label], list[i].Set.Served)
	}
	return list, nil
}

// jobsServed lists for each set, by its label, the waiting jobs that it serves somewhere: on any folder that can run the
// job, set the best way.
func jobsServed(s *shop.Shop) map[string][]string {
	served := map[string][]string{}
	r, house := newRack(s), s.SettingsHouse()
	for i := range s.Jobs {
		j := &s.Jobs[i]
		folded, err := j.Scheme.Apply(j.Sheet)
		if err != nil {
			continue // a job that does not fold is served by none; the check of the shop tells of it
		}
		for k := range s.Folders {
			if ways, _ := settings.Ways(j, folded, &s.Folders[k], house); len(ways) > 0 {
				for _, label := range r.servingAnywhere(&ways[0]) {
					served[label] = union(served[label], []string{j.Name})
				}
			}
		}
	}
	return served
}

// servingAnywhere lists the labels of the sets that serve some station.
func (r *rack) servingAnywhere(way *settings.Settings) []string {
	var labels []string
	for i := range way.Units {
		for k := range way.Units[i].Stations {
			for _, serving := range r.match(&way.Units[i], k).Serves {
				labels = append(labels, serving.Set.Label)
			}
		}
	}
	return labels
}

// union is a followed by what of b is not in it.
func union(a, b []string) []string {
	all := slices.Clone(a)
	for _, x := range b {
		if !slices.Contains(all, x) {
			all = append(all, x)
		}
	}
	return all
}
