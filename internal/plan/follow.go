package plan

import "slices"

// Follow is the same shop with another order given: that of a plan in force, brought up to date. Jobs that are done or can
// no longer run where they stood are taken out, what has started or is pinned goes where it belongs, and new jobs come
// behind the others, where their docket says or where they would end first. Names that nobody knows any more do not
// matter here: an order of yesterday has some.
//
// A search then starts there, tells what it moves against that order and, with [Options.Stable], keeps what is near in it.
func (p *Prepared) Follow(o Order) *Prepared {
	return withGiven(&Prepared{translation: p.translation, base: p.base}, p.complete(p.update(o)), p.wishes(o))
}

// update turns what can still be followed of an order into numbers, with the fixed jobs in front.
func (p *Prepared) update(o Order) [][]int {
	number := p.numbers()
	order := make([][]int, len(p.shop.Folders))
	placed := make([]bool, len(p.jobs))
	for m := range order {
		for _, j := range p.problem.Machines[m].Fixed {
			order[m], placed[j] = append(order[m], j), true
		}
	}
	for _, lane := range o {
		m := slices.Index(p.shop.FolderNames(), lane.Folder)
		if m < 0 {
			continue
		}
		for _, name := range lane.Jobs {
			if j, known := number[name]; known && !placed[j] && p.ways[j][m] != nil {
				order[m], placed[j] = append(order[m], j), true
			}
		}
	}
	return order
}
