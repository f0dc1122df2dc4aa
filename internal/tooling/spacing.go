package tooling

import (
	"cmp"
	"slices"
	"sort"

	"foldwright/internal/units"
)

// typePair is the types of two tools of a set, the one nearer to the datum shoulder first.
type typePair [2]typeNumber

// spacing is how far two tools of a set stand apart; first is the one nearer to the shoulder.
type spacing struct {
	apart         units.Length
	set           int32
	first, second uint16
}

// fillSpacings lists every two tools of every set by their types, ascending by how far they stand apart.
func (r *rack) fillSpacings() {
	for set := range int32(len(r.sets)) {
		types, at := r.kinds(set), r.places(set)
		for j := range at {
			for i := range j {
				p := typePair{types[i], types[j]}
				r.spacings[p] = append(r.spacings[p], spacing{at[j] - at[i], set, uint16(i), uint16(j)})
			}
		}
	}
	for _, list := range r.spacings {
		slices.SortFunc(list, func(a, b spacing) int {
			return cmp.Or(cmp.Compare(a.apart, b.apart), cmp.Compare(a.set, b.set), cmp.Compare(a.first, b.first), cmp.Compare(a.second, b.second))
		})
	}
}

// apart lists the spacings of two types that are the wanted one within the tolerance.
func (r *rack) apart(p typePair, wanted, tolerance units.Length) []spacing {
	list := r.spacings[p]
	from := sort.Search(len(list), func(i int) bool { return list[i].apart >= wanted-tolerance })
	list = list[from:]
	return list[:sort.Search(len(list), func(i int) bool { return list[i].apart > wanted+tolerance })]
}

// standing is where a tool of a set stands.
type standing struct {
	at   units.Length
	set  int32
	tool uint16
}

// fillStandings lists for every type where its tools stand, ascending.
func (r *rack) fillStandings() {
	r.standings = make([][]standing, len(r.numbered))
	for set := range int32(len(r.sets)) {
		types, at := r.kinds(set), r.places(set)
		for i := range at {
			r.standings[types[i]] = append(r.standings[types[i]], standing{at[i], set, uint16(i)})
		}
	}
	for _, list := range r.standings {
		slices.SortFunc(list, func(a, b standing) int {
			return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.set, b.set), cmp.Compare(a.tool, b.tool))
		})
	}
}

// standing lists the tools of a type that stand in a window.
func (r *rack) standing(t typeNumber, w Window) []standing {
	if t == noType {
		return nil
	}
	list := r.standings[t]
	from := sort.Search(len(list), func(i int) bool { return list[i].at >= w.Lo })
	list = list[from:]
	return list[:sort.Search(len(list), func(i int) bool { return list[i].at > w.Hi })]
}
