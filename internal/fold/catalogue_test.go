package fold

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/big"
	"os"
	"strings"
	"testing"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// published is one entry of testdata/fold-catalog.json; see testdata/SOURCE.md.
type published struct {
	Name  string
	Pages int
	Lay   string
	Steps []struct {
		Axis        string
		Position    string
		To          *string
		SizeAfter   [2]string `json:"size_after"`
		LayersAfter int       `json:"layers_after"`
	}
	FrontPages [][]int    `json:"front_pages"`
	Heads      [][]string `json:"heads"`
	Page1      string
	Spine      *string
}

func readCatalogue(t testing.TB) []published {
	t.Helper()
	data, err := os.ReadFile("testdata/fold-catalog.json")
	if err != nil {
		t.Fatal(err)
	}
	var all []published
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	return all
}

// The sheet is made so that every seventh, ninth and sixteenth is a whole number of nanometres.
var testSheet = Sheet{Length: 1008 * units.Millimetre, Width: 504 * units.Millimetre}

func TestCatalogueAgainstPublishedTables(t *testing.T) {
	tables := 0
	for _, want := range readCatalogue(t) {
		t.Run(want.Name, func(t *testing.T) {
			s, err := Catalogue(want.Name)
			if want.FrontPages == nil {
				var f fault.Fault
				if !errors.As(err, &f) || f.Code != codeDirection {
					t.Fatalf("directions are not known, yet the answer is %v", err)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			tables++
			compareSteps(t, want, s)
			f, err := s.Apply(testSheet)
			if err != nil {
				t.Fatal(err)
			}
			compareStates(t, want, f)
			comparePages(t, want, f)
			if got := f.Finished(); got.Layers*2 != want.Pages || len(f.Panels)*2 != want.Pages {
				t.Errorf("%d layers and %d panels for %d pages", got.Layers, len(f.Panels), want.Pages)
			}
		})
	}
	if tables != 78 { // 77 as published and F16-8 with its misprint mended
		t.Errorf("%d page tables were compared, the catalogue has 78", tables)
	}
}

func compareSteps(t *testing.T, want published, s Scheme) {
	t.Helper()
	axis, i := "x", 0
	for _, st := range s.Steps {
		if !st.Op.IsFold() {
			axis = map[string]string{"x": "y", "y": "x"}[axis]
			continue
		}
		w := want.Steps[i]
		got := fmt.Sprintf("%s %s %s", axis, st.Op, st.Depth)
		if exp := fmt.Sprintf("%s %s %s", w.Axis, strings.ToLower(*w.To), w.Position); got != exp {
			t.Errorf("fold %d is %q, published %q", i+1, got, exp)
		}
		i++
	}
	if i != len(want.Steps) {
		t.Errorf("%d folds, published %d", i, len(want.Steps))
	}
	if first := map[string]Face{"top": FaceUp, "bottom": FaceDown}[want.Page1]; s.First != first {
		t.Errorf("folio 1 is %v, published %v", s.First, first)
	}
}

func compareStates(t *testing.T, want published, f *Folded) {
	t.Helper()
	i, along := 0, S
	for n, st := range f.Scheme.Steps {
		if !st.Op.IsFold() {
			along = other(along)
			continue
		}
		got, w := f.States[n+1], want.Steps[i]
		x, y := got.Length, got.Width
		if along == T {
			x, y = y, x
		}
		if x != part(testSheet.Length, w.SizeAfter[0]) || y != part(testSheet.Width, w.SizeAfter[1]) || got.Layers != w.LayersAfter {
			t.Errorf("after fold %d: %v, published %v of the sheet and %d layers", i+1, got, w.SizeAfter, w.LayersAfter)
		}
		i++
	}
}

func part(l units.Length, share string) units.Length {
	r, _ := new(big.Rat).SetString(share)
	r.Mul(r, big.NewRat(int64(l), 1))
	return units.Length(r.Num().Int64())
}

func comparePages(t *testing.T, want published, f *Folded) {
	t.Helper()
	if !f.Folios {
		t.Fatal("no folios")
	}
	rows, columns := len(want.FrontPages), len(want.FrontPages[0])
	if fmt.Sprintf("%dx%d", columns, rows) != want.Lay {
		t.Fatalf("the table is no %s", want.Lay)
	}
	heads := map[string]Head{"up": HeadTPlus, "down": HeadTMinus, "left": HeadSMinus, "right": HeadSPlus}
	for i, p := range f.Panels { // by s, then t: columns from the left, each from the bottom
		column, row := i/rows, i%rows
		page := want.FrontPages[row][column]
		if p.TopFolio != page || p.BottomFolio != back(page) || p.Head != heads[want.Heads[row][column]] {
			t.Errorf("column %d, row %d from the bottom: %d/%d head %v; published %d/%d head %s",
				column+1, row+1, p.TopFolio, p.BottomFolio, p.Head, page, back(page), want.Heads[row][column])
		}
	}
	if want.Spine != nil {
		along := map[string]Axis{"left": S, "bottom": T}[*want.Spine]
		if f.exact.final.along != along || f.SpineEdge() != Leading {
			t.Errorf("the spine is not at the %s", *want.Spine)
		}
	}
}

// back is the page behind a page.
func back(page int) int {
	if page%2 == 1 {
		return page + 1
	}
	return page - 1
}

func TestCatalogueRefusesWithReasons(t *testing.T) {
	for name, want := range map[string]string{
		"F16-99": `scheme: there is no "F16-99" in the fold catalogue; one of F16-1, F16-2, F16-3, F16-4, F16-5, F16-6, F16-7, F16-8, F16-9, F16-10, F16-11, F16-12, F16-13, F16-14 [fold-name]`,
		"F17-1":  `scheme: there is no "F17-1" in the fold catalogue; F, the number of pages and a running number; pages: 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 24, 28, 32, 36, 40, 48, 64 [fold-name]`,
		"F36-1":  `scheme: F36-1 cannot be folded as the catalogue prints it: fold 1/3, fold 1/3, fold 1/9, fold 1/3, left, fold 1/2; its fourth fold is longer than the piece is then; the steps written out as you fold them [fold-direction]`,
		"F6-3":   `scheme: F6-3 is in the catalogue without a page table, so which of its folds go up and which down is not known: fold 1/4, fold 1/2; the steps written out with up or down in place of each "fold" [fold-direction]`,
	} {
		if _, err := Catalogue(name); err == nil || err.Error() != want {
			t.Errorf("%s:\n got %v\nwant %s", name, err, want)
		}
	}
}

func TestCatalogueNames(t *testing.T) {
	names := CatalogueNames()
	if len(names) != 78 || names[0] != "F2-1" || names[77] != "F32-9" {
		t.Errorf("%d names: %v", len(names), names)
	}
	for _, name := range names {
		if _, err := Parse(strings.ToLower(name)); err != nil {
			t.Error(err)
		}
	}
}
