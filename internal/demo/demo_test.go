package demo

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

func open(t *testing.T) *shop.Shop {
	t.Helper()
	s, err := Shop()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The only finding is the job that nobody can fold, and it comes as a no, not as a wrong input.
func TestChecksWithOneFinding(t *testing.T) {
	found := exchange.CheckShop(Name, File())
	if len(found) != 1 {
		t.Fatalf("%d findings, want the one job that cannot be folded:\n%v", len(found), found)
	}
	if f := found[0]; f.Kind != fault.No || !strings.Contains(f.Wrong, `"2124"`) || !strings.Contains(f.Wrong, "plate") {
		t.Errorf("the finding should be a no about the plates that job 2124 lacks: %+v", f)
	}
}

func TestCounts(t *testing.T) {
	s := open(t)
	for _, c := range []struct {
		what      string
		got, want int
	}{
		{"folders", len(s.Folders), 4},
		{"sets", len(s.Sets), 25},
		{"people on the bench", len(s.Bench), 1},
		{"jobs", len(s.Jobs), 60},
		{"shaft diameters", len(distinct(s.Classes, func(c tooling.Class) string { return c.Diameter.Format(false) })), 2},
		{"days with due times", len(distinct(s.Jobs, func(j job.Job) string { return j.Due.Format(time.DateOnly) })), 2},
	} {
		if c.got != c.want {
			t.Errorf("%d %s, want %d", c.got, c.what, c.want)
		}
	}
	for _, c := range s.Classes {
		if c.Diameter != 30*units.Millimetre && c.Diameter != 35*units.Millimetre {
			t.Errorf("class %s has shafts of %s, want 30 or 35 mm", c.Name, c.Diameter.Format(false))
		}
	}
}

func distinct[T any](list []T, key func(T) string) []string {
	keys := make([]string, len(list))
	for i, v := range list {
		keys[i] = key(v)
	}
	slices.Sort(keys)
	return slices.Compact(keys)
}

// The jobs show what a folding department meets.
func TestSpanOfWork(t *testing.T) {
	s := open(t)
	light, heavy := s.Jobs[0].Stock.Grammage, s.Jobs[0].Stock.Grammage
	pages := map[int]int{}
	for i := range s.Jobs {
		light, heavy = min(light, s.Jobs[i].Stock.Grammage), max(heavy, s.Jobs[i].Stock.Grammage)
		pages[pagesOf(t, &s.Jobs[i])]++
	}
	if light != 60*units.GramPerM2 || heavy != 250*units.GramPerM2 {
		t.Errorf("stocks from %s to %s, want 60 to 250 g/m²", light.Format(), heavy.Format())
	}
	if pages[16] < 10 || pages[32] < 4 {
		t.Errorf("%d sections of 16 pages and %d of 32, want at least 10 and 4", pages[16], pages[32])
	}
	text := string(File())
	for what, least := range map[string]int{
		"fold: letter inner": 6, "fold: gate gap": 4, "fold: zigzag 6, left, zigzag 3": 3, "fold: roll 4": 2, // map folds are zigzags both ways
		"scheme: F16-7": 4, "\n    lap: ": 8, "strip 6 mm two-up": 6, "score fold": 6, "perforate fold": 20, "trim 3 mm at the foot": 3,
		"\n    release: ": 10, "\n    after: ": 1, "\n    pin: ": 1, "\n    weight: 2": 3, "\n    rate: ": 5,
	} {
		if n := strings.Count(text, what); n < least {
			t.Errorf("%q stands %d times in the file, want at least %d", what, n, least)
		}
	}
}

// pagesOf counts the pages of the finished piece; 0 when its panels do not cover one rectangle.
func pagesOf(t *testing.T, j *job.Job) int {
	t.Helper()
	f := folded(t, j)
	if !f.Folios {
		return 0
	}
	return 2 * len(f.Panels)
}

func folded(t *testing.T, j *job.Job) *fold.Folded {
	t.Helper()
	f, err := j.Scheme.Apply(j.Sheet)
	if err != nil {
		t.Fatalf("job %s: %v", j.Name, err)
	}
	return f
}

// Repeats: many jobs are set exactly as another one, so an order that brings them together pays.
func TestRepeats(t *testing.T) {
	s := open(t)
	kinds := distinct(s.Jobs, func(j job.Job) string { return fmt.Sprint(j.Sheet, j.Stock.Name, j.Scheme.String(), j.Operations) })
	if len(kinds) < 15 || len(kinds) > 30 {
		t.Errorf("%d different settings among %d jobs, want 15 to 30", len(kinds), len(s.Jobs))
	}
}

// Who can fold what, asked of the settings room: covers and small gate folds only on hazel, 32 pages and maps only on birch, and so on.
func TestWhoCanFoldWhat(t *testing.T) {
	s := open(t)
	only := map[string][]string{}
	for i := range s.Jobs {
		able := able(t, s, &s.Jobs[i])
		switch len(able) {
		case 0:
			only["nobody"] = append(only["nobody"], s.Jobs[i].Name)
		case 1:
			only[able[0]] = append(only[able[0]], s.Jobs[i].Name)
		}
		if given := s.Jobs[i].Given; len(able) > 0 && !slices.Contains(able, given) {
			t.Errorf("job %s stands on %s in the order given, which cannot fold it", s.Jobs[i].Name, given)
		}
	}
	for who, want := range map[string]string{
		"nobody": "2124",
		"birch":  "2102 2107 2112 2115 2120 2127 2132 2136 2140 2145 2150 2155 2157",
		"hazel":  "2103 2118 2125 2133 2147 2154 2159",
		"alder":  "",
		"rowan":  "",
	} {
		if got := strings.Join(only[who], " "); got != want {
			t.Errorf("only %s can fold: %q, want %q", who, got, want)
		}
	}
}

func able(t *testing.T, s *shop.Shop, j *job.Job) []string {
	t.Helper()
	var names []string
	for i := range s.Folders {
		if ways, _ := settings.Ways(j, folded(t, j), &s.Folders[i], s.SettingsHouse()); len(ways) > 0 {
			names = append(names, s.Folders[i].Name)
		}
	}
	return names
}

// On the folder of the order given every run takes between 20 minutes and three hours, and the runs alone fill half to two
// thirds of the hours: with the make-readies the two days are full.
func TestLoadIsBelievable(t *testing.T) {
	s := open(t)
	house := s.SettingsHouse()
	var load, hours time.Duration
	for i := range s.Jobs {
		j := &s.Jobs[i]
		f, _ := s.Folder(j.Given)
		ways, _ := settings.Ways(j, folded(t, j), f, house)
		if len(ways) == 0 {
			continue
		}
		run := time.Duration(j.Sheets) * time.Hour / time.Duration(ways[0].SheetsPerHour)
		if run < 20*time.Minute || run > 3*time.Hour {
			t.Errorf("job %s runs %v on %s, want 20 min to 3 h", j.Name, run.Round(time.Minute), f.Name)
		}
		load += run
	}
	for i := range s.Folders {
		hours += hoursOf(s, &s.Folders[i])
	}
	if share := float64(load) / float64(hours); share < 0.5 || share > 0.67 {
		t.Errorf("the runs fill %.0f %% of %v, want 50 to 67 %%", 100*share, hours)
	}
}

// hoursOf is the working time of a folder on the two days.
func hoursOf(s *shop.Shop, f *machine.Folder) time.Duration {
	c, _ := s.Calendar(f.Calendar)
	return c.Between(s.Now, s.Now.AddDate(0, 0, 2))
}

// Every station has a set in it, so nothing is left to guess about the state in the morning.
func TestEveryStationIsFilled(t *testing.T) {
	s := open(t)
	for i := range s.Folders {
		for _, u := range s.Folders[i].Units {
			for _, st := range u.Stations {
				if _, ok := s.Mounted(s.Folders[i].Name, st.Name); !ok {
					t.Errorf("nothing stands in %s %s", s.Folders[i].Name, st.Name)
				}
			}
		}
	}
}
