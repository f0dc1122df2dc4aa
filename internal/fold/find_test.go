package fold

import (
	"slices"
	"testing"
)

// mapOf is the folio map of a catalogue entry.
func mapOf(p published) FolioMap {
	rows, columns := len(p.FrontPages), len(p.FrontPages[0])
	heads := map[string]Head{"up": HeadTPlus, "down": HeadTMinus, "left": HeadSMinus, "right": HeadSPlus}
	m := FolioMap{AlongS: columns, AlongT: rows}
	for i := range columns {
		for j := range rows {
			page := p.FrontPages[j][i]
			m.Top, m.Bottom = append(m.Top, page), append(m.Bottom, back(page))
			m.Heads = append(m.Heads, heads[p.Heads[j][i]])
		}
	}
	return m
}

func TestFindFindsEveryCatalogueEntry(t *testing.T) {
	for _, p := range readCatalogue(t) {
		if p.FrontPages == nil {
			continue
		}
		t.Run(p.Name, func(t *testing.T) {
			found, err := Find(mapOf(p))
			if err != nil {
				t.Fatal(err)
			}
			i := slices.IndexFunc(found, func(f Found) bool { return f.Scheme.Name == p.Name })
			if i < 0 || !slices.Contains(found[i].Feeds, Feed{}) {
				t.Errorf("not among the %d schemes for its own pages, fed as drawn", len(found))
			}
		})
	}
}
