package draw

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/fold"
	"foldwright/internal/plan"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

var update = flag.Bool("update", false, "rewrite the expected pictures in testdata")

// Pictures are kept as text, so that a change of them is read like a change of code; they open in any browser.
func TestGoldenPictures(t *testing.T) {
	d := theDay(t)
	mm, inch := words.NewSpeaker(words.English, false), words.NewSpeaker(words.English, true)
	section, two, build := d.next(t, "2101", "birch"), d.next(t, twoTools(t, d), ""), d.build(t, "W-06", "2101", "birch")
	for name, p := range map[string]*Picture{
		"dummy-f16-7":    Dummy(folded(t, "F16-7", 860, 610), nil, mm),
		"dummy-map":      Dummy(folded(t, "up 100 mm, up 200 mm, left, up 110 mm, down 80 mm", 400, 300), nil, words.NewSpeaker(words.German, false)),
		"dummy-tools":    Dummy(two.Folded, two.Job.Operations, mm),
		"sequence-f16-7": Sequence(folded(t, "F16-7", 860, 610), words.NewSpeaker(words.French, false)),
		"shafts-mm":      Shafts(d.shop, two.Task.Settings, mm),
		"shafts-inch":    Shafts(d.shop, two.Task.Settings, inch),
		"day":            Timeline(tinyDay(d.plan), d.shop, mm)[0],
		"label":          label(t, d.labels[3], mm),
		"card":           pagesOf(t, section, A4, mm)[0],
		"card-es":        pagesOf(t, section, Letter, words.NewSpeaker(words.Spanish, true))[0],
		"bench":          pagesOf(t, build, A4, mm)[0],
		"strip":          pagesOf(t, build, A4, mm)[2],
	} {
		t.Run(name, func(t *testing.T) { golden(t, name+".svg", p.SVG()) })
	}
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(string(got), "\n")); diff != "" {
		t.Errorf("%s (-want +got; -update rewrites it):\n%s", file, diff)
	}
}

// folded folds a sheet by a name of the catalogue or by steps.
func folded(t *testing.T, how string, length, width float64) *fold.Folded {
	t.Helper()
	scheme, err := fold.Catalogue(how)
	if err != nil {
		if scheme, err = fold.Parse(how); err != nil {
			t.Fatal(err)
		}
	}
	f, err := scheme.Apply(fold.Sheet{Length: units.MM(length), Width: units.MM(width)})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// twoTools is a job with two tools on one shaft.
func twoTools(t *testing.T, d *day) string {
	t.Helper()
	for _, c := range d.cards {
		for _, u := range c.Task.Settings.Units {
			for _, st := range u.Stations {
				if len(st.Tools) >= 2 {
					return c.Job.Name
				}
			}
		}
	}
	t.Fatal("no job of the demo wants two tools on one shaft")
	return ""
}

// tinyDay is the first four jobs of two folders in the order given: no search, so that a better search changes no picture.
func tinyDay(p *plan.Plan) *plan.Plan {
	small := *p
	small.Day = p.Given
	small.Folders = nil
	for _, f := range p.Given.Folders[:2] {
		f.Tasks = f.Tasks[:4]
		small.Folders = append(small.Folders, f)
		small.Figures.End = f.Tasks[3].RunEnd
	}
	small.Bench = p.Given.Bench[:min(1, len(p.Given.Bench))]
	return &small
}

func label(t *testing.T, l Label, say *words.Speaker) *Picture {
	t.Helper()
	stock, err := StockNamed("roll 100 x 60")
	if err != nil {
		t.Fatal(err)
	}
	pages, err := Labels([]Label{l}, stock, 0, say)
	if err != nil {
		t.Fatal(err)
	}
	return pages[0]
}

// The picture of an F16-7 against the published folding catalogue: see fold's own tests for all 95; here, that what is drawn
// is what was folded. Counted by hand: three folds of a 16-page section make five crease lines, broken where the other
// direction crosses; every folio from 1 to 16 stands on it once.
func TestDummyShowsEveryFolioOnce(t *testing.T) {
	p := Dummy(folded(t, "F16-7", 860, 610), nil, words.NewSpeaker(words.English, false))
	count := map[string]int{}
	for _, m := range p.Marks {
		if text, ok := m.(Text); ok && text.Ink == Black && text.Anchor == Middle && !text.Bold {
			count[text.String]++
		}
	}
	for folio := 1; folio <= 16; folio++ {
		if n := count[num(float64(folio))]; n != 1 {
			t.Errorf("folio %d stands on the dummy %d times", folio, n)
		}
	}
	if len(count) != 16 {
		t.Errorf("the dummy carries %d folios, want 16: %v", len(count), count)
	}
}
