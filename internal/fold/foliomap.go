package fold

import (
	"fmt"
	"slices"

	"foldwright/internal/fault"
)

// FolioMap is where the folios are wanted on a flat sheet that is divided into equal panels. Panel i along s, j along t
// is element i·AlongT + j of the lists. Folio 0 and HeadNone leave a panel open.
//
// Folios need not start at 1 nor follow on: a section of a longer book has its own, and the outer one of two nested
// sections has a gap. What counts is their order, and that each leaf carries two that follow each other in it.
type FolioMap struct {
	AlongS, AlongT int
	Top, Bottom    []int  // on the face that looks up as drawn; on the other
	Heads          []Head // nil: the heads do not matter
}

const maxMapPanels = 64

// check lists everything that makes the map none. What comes later is checked only when what it rests on is sound.
func (m FolioMap) check() fault.List {
	var faults fault.List
	add := func(wrong, right string) { faults.Add(bad(codePages, "pages", wrong, right)) }
	for _, look := range []func(add func(wrong, right string)){m.checkShape, m.checkFolios, m.checkLeaves} {
		if look(add); faults != nil {
			break
		}
	}
	return faults
}

func (m FolioMap) checkShape(add func(wrong, right string)) {
	if min(m.AlongS, m.AlongT) < 1 || max(m.AlongS, m.AlongT) > maxMapPanels || m.AlongS*m.AlongT > maxMapPanels {
		add(fmt.Sprintf("%d × %d panels", m.AlongS, m.AlongT), fmt.Sprintf("1 to %d panels", maxMapPanels))
		return
	}
	n := m.AlongS * m.AlongT
	if len(m.Top) != n || len(m.Bottom) != n || m.Heads != nil && len(m.Heads) != n {
		add("the lists do not cover the panels", fmt.Sprintf("%d entries each", n))
	}
}

func (m FolioMap) checkFolios(add func(wrong, right string)) {
	all := slices.Concat(m.Top, m.Bottom)
	open := slices.Contains(all, 0)
	seen := map[int]bool{}
	for _, folio := range all {
		switch {
		case folio < 0:
			add(fmt.Sprintf("folio %d", folio), "1 or more, or 0 for a page that may be anything")
		case folio > 0 && seen[folio]:
			add(fmt.Sprintf("folio %d stands twice", folio), "each folio once")
		case open && folio > len(all):
			add(fmt.Sprintf("folio %d on a sheet of %d pages with pages left open", folio, len(all)),
				fmt.Sprintf("at most %d, or no page left open", len(all)))
		}
		seen[folio] = true
	}
}

// checkLeaves looks whether the two folios of each leaf follow each other.
func (m FolioMap) checkLeaves(add func(wrong, right string)) {
	ranks := m.ranks()
	sorted := m.sorted()
	for i, top := range m.Top {
		bottom := m.Bottom[i]
		a, b := ranks.Top[i], ranks.Bottom[i]
		if a == 0 || b == 0 || partner(a) == b {
			continue
		}
		right := fmt.Sprintf("behind %d belongs %d", top, partner(a))
		if sorted != nil {
			right = fmt.Sprintf("behind %d belongs %d", top, sorted[partner(a)-1])
		}
		add(fmt.Sprintf("behind folio %d stands %d", top, bottom), right)
	}
}

// partner is the other page of a leaf.
func partner(folio int) int { return (folio - 1) ^ 1 + 1 }

// sorted lists all folios in order; nil when some are left open.
func (m FolioMap) sorted() []int {
	all := slices.Concat(m.Top, m.Bottom)
	slices.Sort(all)
	if all[0] == 0 {
		return nil
	}
	return all
}

// ranks is the map with every folio replaced by its place in the order, from 1.
func (m FolioMap) ranks() FolioMap {
	sorted := m.sorted()
	if sorted == nil {
		return m
	}
	rank := func(folios []int) []int {
		out := make([]int, len(folios))
		for i, folio := range folios {
			at, _ := slices.BinarySearch(sorted, folio)
			out[i] = at + 1
		}
		return out
	}
	m.Top, m.Bottom = rank(m.Top), rank(m.Bottom)
	return m
}

// fed is the map of the sheet as it lies on the feed table.
func (m FolioMap) fed(f Feed) FolioMap {
	out := FolioMap{AlongS: m.AlongS, AlongT: m.AlongT, Top: make([]int, len(m.Top)), Bottom: make([]int, len(m.Top))}
	if f.axis() == T {
		out.AlongS, out.AlongT = m.AlongT, m.AlongS
	}
	if m.Heads != nil {
		out.Heads = make([]Head, len(m.Heads))
	}
	for k := range m.Top {
		at := f.place(m, k/m.AlongT, k%m.AlongT, out.AlongT)
		out.Top[at], out.Bottom[at] = m.Top[k], m.Bottom[k]
		if f.Up == FaceDown {
			out.Top[at], out.Bottom[at] = m.Bottom[k], m.Top[k]
		}
		if m.Heads != nil {
			out.Heads[at] = f.head(m.Heads[k])
		}
	}
	return out
}

// place is where panel i, j of the map as drawn lies in the list of the fed one, which has so many panels along its t.
func (f Feed) place(m FolioMap, i, j, alongT int) int {
	along, across := f.signs()
	ni, nj := m.AlongS, m.AlongT
	if f.axis() == T {
		i, j, ni, nj = j, i, nj, ni
	}
	if along < 0 {
		i = ni - 1 - i
	}
	if across < 0 {
		j = nj - 1 - j
	}
	return i*alongT + j
}
