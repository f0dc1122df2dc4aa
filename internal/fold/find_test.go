package fold

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"foldwright/internal/fault"
	"foldwright/internal/units"
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

// drawn gives where a cell of a fed sheet of n × m cells is on the sheet as drawn, written out case by case from the
// frame: s from the leading edge, t from the left looking with the travel; a sheet face down is seen in the mirror.
func drawn(feed Feed, i, j, n, m int) (int, int) {
	switch feed {
	case Feed{S0, FaceUp}:
		return i, j
	case Feed{S1, FaceUp}:
		return n - 1 - i, m - 1 - j
	case Feed{T0, FaceUp}: // t0 leads, so s0 is on the right
		return m - 1 - j, i
	case Feed{T1, FaceUp}: // s0 is on the left
		return j, n - 1 - i
	case Feed{S0, FaceDown}:
		return i, m - 1 - j
	case Feed{S1, FaceDown}:
		return n - 1 - i, j
	case Feed{T0, FaceDown}:
		return j, i
	default:
		return m - 1 - j, n - 1 - i
	}
}

// answers lists every scheme and feed for every folio map of a grid, by folding all of them.
func answers(alongS, alongT int) map[string][]string {
	out := map[string][]string{}
	for _, feed := range Feeds() {
		n, m := alongS, alongT
		if feed.Leading == T0 || feed.Leading == T1 {
			n, m = m, n
		}
		sheet := Sheet{units.Length(n), units.Length(m)}
		everyScheme(sheet, n+m-2, func(s Scheme) {
			if len(s.Steps) > 0 && !s.Steps[0].Op.IsFold() {
				return
			}
			for _, s.First = range []Face{FaceUp, FaceDown} {
				f, err := s.Apply(sheet)
				if err != nil || !f.Folios || len(f.Panels) != n*m {
					continue
				}
				want := FolioMap{AlongS: alongS, AlongT: alongT, Top: make([]int, n*m), Bottom: make([]int, n*m)}
				for k, p := range f.Panels {
					i, j := drawn(feed, k/m, k%m, n, m)
					want.Top[i*alongT+j], want.Bottom[i*alongT+j] = p.TopFolio, p.BottomFolio
					if feed.Up == FaceDown {
						want.Top[i*alongT+j], want.Bottom[i*alongT+j] = p.BottomFolio, p.TopFolio
					}
				}
				key := fmt.Sprint(want.Top, want.Bottom)
				out[key] = append(out[key], inShares(s, n, m)+" "+s.First.String()+" "+feed.Leading.String()+" "+feed.Up.String())
			}
		})
	}
	return out
}

// inShares rewrites depths in nanometres of a tiny sheet as shares of it.
func inShares(s Scheme, n, m int) string {
	shares := Scheme{Steps: slices.Clone(s.Steps)}
	extent, across := int64(n), int64(m)
	for i, st := range shares.Steps {
		if st.Op.IsFold() {
			shares.Steps[i].Depth = Depth{Share: ratio(st.Depth.Plus.Num, extent)}
		} else {
			extent, across = across, extent
		}
	}
	return shares.String()
}

// On small grids, Find gives for every map exactly what folding every scheme under every feed gives.
func TestFindAgainstFoldingEverything(t *testing.T) {
	for _, grid := range [][2]int{{1, 1}, {2, 1}, {1, 3}, {4, 1}, {2, 2}, {3, 2}, {2, 3}, {4, 2}, {3, 3}, {5, 1}} {
		all := answers(grid[0], grid[1])
		for key, want := range all {
			m := FolioMap{AlongS: grid[0], AlongT: grid[1]}
			m.Top, m.Bottom = folios(key)
			found, err := Find(m)
			if err != nil {
				t.Fatalf("%v %s: %v", grid, key, err)
			}
			var got []string
			for _, f := range found {
				for _, feed := range f.Feeds {
					got = append(got, f.Scheme.String()+" "+f.Scheme.First.String()+" "+feed.Leading.String()+" "+feed.Up.String())
				}
			}
			slices.Sort(got)
			slices.Sort(want)
			if !slices.Equal(got, want) {
				t.Fatalf("%v %s:\nfound %s\nby folding %s", grid, key, strings.Join(got, "; "), strings.Join(want, "; "))
			}
		}
	}
}

func folios(key string) (top, bottom []int) {
	a, b, _ := strings.Cut(key, "] [")
	read := func(text string) (out []int) {
		for _, word := range strings.Fields(strings.Trim(text, "[]")) {
			var n int
			fmt.Sscan(word, &n)
			out = append(out, n)
		}
		return out
	}
	return read(a), read(b)
}

// A map that no scheme gives is told so, and quickly: two pages of a section exchanged.
func TestFindSaysNo(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for _, p := range readCatalogue(t) {
		if len(p.FrontPages) == 0 || p.Pages < 8 {
			continue
		}
		m := mapOf(p)
		m.Heads = nil
		n := len(m.Top)
		i := random.IntN(n)
		j := (i + 1 + random.IntN(n-1)) % n
		m.Top[i], m.Top[j], m.Bottom[i], m.Bottom[j] = m.Top[j], m.Top[i], m.Bottom[j], m.Bottom[i]
		found, err := Find(m)
		var f fault.Fault
		if err != nil && (!errors.As(err, &f) || f.Kind != fault.No || f.Code != codeNoScheme) {
			t.Errorf("%s: %v", p.Name, err)
		}
		for _, x := range found { // exchanging may give another foldable map, which must then come out
			s, feed := x.Scheme, x.Feeds[0]
			sheet := feed.Fed(Sheet{units.Length(m.AlongS), units.Length(m.AlongT)})
			g, err := s.Apply(sheet)
			if err != nil {
				t.Fatal(err)
			}
			for k, q := range g.Panels {
				a, b := drawn(feed, k/int(sheet.Width), k%int(sheet.Width), int(sheet.Length), int(sheet.Width))
				if top := m.Top[a*m.AlongT+b]; top != q.TopFolio && top != q.BottomFolio {
					t.Errorf("%s: %s gives %d where %d is wanted", p.Name, s, q.TopFolio, top)
				}
			}
		}
	}
}

func TestFindWithHeads(t *testing.T) {
	m := FolioMap{AlongS: 2, AlongT: 1, Top: []int{4, 1}, Bottom: []int{3, 2}, Heads: []Head{HeadTPlus, HeadNone}}
	for want, heads := range map[string][]Head{
		"down 1/2 up s0 up; down 1/2 down s1 up; up 1/2 down s0 down; up 1/2 up s1 down": {HeadTPlus, HeadNone},
		"no scheme of folds right across the stack gives this folio map":                 {HeadTMinus, HeadNone},
	} {
		m.Heads = heads
		found, err := Find(m)
		var got []string
		for _, f := range found {
			got = append(got, fmt.Sprintf("%s %s %s %s", f.Scheme, f.Scheme.First, f.Feeds[0].Leading, f.Feeds[0].Up))
		}
		if err == nil && strings.Join(got, "; ") != want || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("heads %v: %v %v, want %s", heads, got, err, want)
		}
	}
}

// Sections of a longer work: folios that start anywhere, and the outer one of two nested sections.
func TestFindOtherSections(t *testing.T) {
	plain, err := Find(FolioMap{AlongS: 2, AlongT: 2, Top: []int{8, 5, 1, 4}, Bottom: []int{7, 6, 2, 3}})
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range []FolioMap{
		{AlongS: 2, AlongT: 2, Top: []int{24, 21, 17, 20}, Bottom: []int{23, 22, 18, 19}},
		{AlongS: 2, AlongT: 2, Top: []int{32, 29, 1, 4}, Bottom: []int{31, 30, 2, 3}},
		{AlongS: 2, AlongT: 2, Top: []int{8, 0, 1, 4}, Bottom: []int{0, 6, 0, 3}},
	} {
		found, err := Find(m)
		if err != nil || len(found) != len(plain) || found[0].Scheme.String() != plain[0].Scheme.String() {
			t.Errorf("%v: %d schemes, %v; with folios from 1 %d", m.Top, len(found), err, len(plain))
		}
	}
}

func TestFindFaults(t *testing.T) {
	for _, c := range []struct {
		m    FolioMap
		want string
	}{
		{FolioMap{}, "pages: 0 × 0 panels; 1 to 64 panels [fold-pages]"},
		{FolioMap{AlongS: 100, AlongT: 1}, "pages: 100 × 1 panels; 1 to 64 panels [fold-pages]"},
		{FolioMap{AlongS: 1 << 40, AlongT: 1 << 40}, "pages: 1099511627776 × 1099511627776 panels; 1 to 64 panels [fold-pages]"},
		{FolioMap{AlongS: 2, AlongT: 1, Top: []int{4, 1}}, "pages: the lists do not cover the panels; 2 entries each [fold-pages]"},
		{
			FolioMap{AlongS: 2, AlongT: 1, Top: []int{4, 1}, Bottom: []int{-3, 1}},
			"pages: folio -3; 1 or more, or 0 for a page that may be anything [fold-pages]\npages: folio 1 stands twice; each folio once [fold-pages]",
		},
		{
			FolioMap{AlongS: 2, AlongT: 1, Top: []int{4, 2}, Bottom: []int{1, 3}},
			"pages: behind folio 4 stands 1; behind 4 belongs 3 [fold-pages]\npages: behind folio 2 stands 3; behind 2 belongs 1 [fold-pages]",
		},
		{
			FolioMap{AlongS: 2, AlongT: 1, Top: []int{9, 0}, Bottom: []int{0, 0}},
			"pages: folio 9 on a sheet of 4 pages with pages left open; at most 4, or no page left open [fold-pages]",
		},
		{
			FolioMap{AlongS: 8, AlongT: 4, Top: make([]int, 32), Bottom: make([]int, 32)},
			"pages: too many pages are left open to name every scheme; more of the folios filled in [fold-pages-vague]",
		},
	} {
		found, err := Find(c.m)
		if err == nil {
			t.Errorf("%v: %d schemes", c.m, len(found))
		} else if err.Error() != c.want {
			t.Errorf("%v:\n got %v\nwant %s", c.m, err, c.want)
		}
	}
}
