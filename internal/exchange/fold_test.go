package exchange

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/fold"
	"foldwright/internal/units"
)

// The shape that is relied on from outside, word for word but for the spaces. The figures are those of the worked example
// in the description of the interface.
func TestFoldShape(t *testing.T) {
	s, err := fold.Parse("up 1/2, left, up 1/2, left, up 1/2")
	if err != nil {
		t.Fatal(err)
	}
	f, err := s.Apply(fold.Sheet{Length: 860 * units.Millimetre, Width: 610 * units.Millimetre})
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(Fold(f))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`{"sheet":{"length_mm":860,"width_mm":610},`,
		`"finished":{"length_mm":215,"width_mm":305,"layers":8},`,
		`"steps":[{"op":"fold","side":"up","depth_mm":430,"length_mm":430,"width_mm":610,"layers":2},{"op":"turn","side":"left","length_mm":610,"width_mm":430,"layers":2},`,
		`{"s_mm":[645,860],"t_mm":[305,610],"layer":8,"top_face_up":false,"top_folio":2,"bottom_folio":1,"head":"t-"}],`,
		`"creases":[{"step":1,"axis":"s","at_mm":430,"from_mm":0,"to_mm":610,"kind":"valley"},`,
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("%s\nis not in\n%s", want, text)
		}
	}
}

func TestFoldLeavesOutWhatThereIsNot(t *testing.T) {
	s, err := fold.Parse("gate gap 3 mm")
	if err != nil {
		t.Fatal(err)
	}
	f, err := s.Apply(fold.Sheet{Length: 297 * units.Millimetre, Width: 210 * units.Millimetre})
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(Fold(f))
	if err != nil {
		t.Fatal(err)
	}
	for _, absent := range []string{"folio", "head", "lap", "trimmed", "name"} {
		if strings.Contains(string(text), absent) {
			t.Errorf("%q in %s", absent, text)
		}
	}
}

const sixteen = `{
 "sheet": {"length_mm": 860, "width_mm": 610},
 "front": [[5, 12, 9, 8], [4, 13, 16, 1]],
 "back":  [[7, 10, 11, 6], [2, 15, 14, 3]],
 "heads": [["down", "down", "down", "down"], ["up", "up", "", "up"]]
}`

func TestReadPages(t *testing.T) {
	p, err := ReadPages("sheet.json", []byte(sixteen))
	if err != nil {
		t.Fatal(err)
	}
	want := fold.FolioMap{
		AlongS: 4, AlongT: 2,
		Top:    []int{4, 5, 13, 12, 16, 9, 1, 8},
		Bottom: []int{3, 6, 14, 11, 15, 10, 2, 7},
		Heads: []fold.Head{
			fold.HeadTPlus, fold.HeadTMinus, fold.HeadTPlus, fold.HeadTMinus,
			fold.HeadNone, fold.HeadTMinus, fold.HeadTPlus, fold.HeadTMinus,
		},
	}
	if diff := cmp.Diff(want, p.Map); diff != "" {
		t.Error(diff)
	}
	if p.Sheet == nil || p.Sheet.Length != 860*units.Millimetre || p.Sheet.Width != 610*units.Millimetre {
		t.Errorf("sheet %v", p.Sheet)
	}
	without, err := ReadPages("sheet.json", []byte(`{"front": [[5, 12, 9, 8], [4, 13, 16, 1]]}`))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want.Bottom, without.Map.Bottom); diff != "" {
		t.Errorf("without a back, the leaf tells it: %s", diff)
	}
}

func TestReadPagesFaults(t *testing.T) {
	for text, want := range map[string]string{
		``:                         `sheet.json:1: the file ends too early; an object with front and back [fold-pages]`,
		"{\n \"front\": [[4, 1]":   `sheet.json:2: the file ends too early; an object with front and back [fold-pages]`,
		"{\n \"front\": [[4, 1],]": `sheet.json:2: no JSON: invalid character ']' looking for beginning of value [fold-pages]`,
		`{"front": [[4, 1]]} 7`:    `sheet.json:1: something follows the closing brace; one object a file [fold-pages]`,
		`{"pages": [[4, 1]]}`:      `sheet.json: unknown field "pages"; the fields sheet, front, back and heads [fold-pages]`,
		`{"front": [["4r", 1]]}`:   `sheet.json:1: front: a string where none fits; folios are whole numbers, heads are words, sizes are numbers [fold-pages]`,
		`{}`:                       `sheet.json: front: no folios; rows of folios from the top: [[8, 1], [5, 4]] [fold-pages]`,
		`{"front": [[8, 1], [5]]}`: `sheet.json: front[1]: 1 entries; 2, as in the first row of the front [fold-pages]`,
		`{"front": [[4, 1]], "back": [[2, 3], [1, 1]], "heads": [["sideways", "up"]], "sheet": {"length_mm": -1, "width_mm": 610}}`: `sheet.json: back: 2 rows; 1, as on the front [fold-pages]
sheet.json: heads[0][0]: "sideways" is no direction; up, down, left, right, or empty where it does not matter [fold-pages]
sheet.json: sheet: no sheet has this size; length_mm and width_mm, each 1 to 10000 [fold-pages]`,
	} {
		if _, err := ReadPages("sheet.json", []byte(text)); err == nil || err.Error() != want {
			t.Errorf("%s\n got %v\nwant %s", text, err, want)
		}
	}
}

func TestFindShape(t *testing.T) {
	p, err := ReadPages("sheet.json", []byte(`{"sheet": {"length_mm": 440, "width_mm": 312}, "front": [[4, 1]]}`))
	if err != nil {
		t.Fatal(err)
	}
	found, err := fold.Find(p.Map)
	if err != nil {
		t.Fatal(err)
	}
	answer, err := Find(found, p.Sheet)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(answer)
	if err != nil {
		t.Fatal(err)
	}
	want := `{"schemes":[{"do":"down 1/2","name":"F4-2","first":"up","folds":1,"feeds":[{"leading_edge":"s0","face_up":"front","stops_mm":[220]}]},` +
		`{"do":"down 1/2","first":"down","folds":1,"feeds":[{"leading_edge":"s1","face_up":"front","stops_mm":[220]}]},` +
		`{"do":"up 1/2","first":"down","folds":1,"feeds":[{"leading_edge":"s0","face_up":"back","stops_mm":[220]}]},` +
		`{"do":"up 1/2","name":"F4-1","first":"up","folds":1,"feeds":[{"leading_edge":"s1","face_up":"back","stops_mm":[220]}]}]}`
	if string(text) != want {
		t.Errorf(" got %s\nwant %s", text, want)
	}
}

// Seeds in testdata/fuzz/FuzzReadPages.
func FuzzReadPages(f *testing.F) {
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := ReadPages("sheet.json", data)
		if err != nil {
			return
		}
		if found, err := fold.Find(p.Map); err == nil {
			if _, err := Find(found, p.Sheet); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// The whole answer for one section with lap and trims, to be read in the diff when it changes.
func TestFoldGolden(t *testing.T) {
	s, err := fold.Catalogue("F16-7")
	if err != nil {
		t.Fatal(err)
	}
	s.Lap = 8 * units.Millimetre
	s.Trims = fold.Trims{Head: 3 * units.Millimetre, Foot: 3 * units.Millimetre, Front: 5 * units.Millimetre}
	f, err := s.Apply(fold.Sheet{Length: 860 * units.Millimetre, Width: 610 * units.Millimetre})
	if err != nil {
		t.Fatal(err)
	}
	got, err := json.MarshalIndent(Fold(f), "", " ")
	if err != nil {
		t.Fatal(err)
	}
	const file = "testdata/fold.golden.json"
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Error(diff)
	}
}
