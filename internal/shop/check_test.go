package shop

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"foldwright/internal/calendar"
	"foldwright/internal/changeover"
	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

const mm = units.Millimetre

// well is a small shop without faults.
func well(t testing.TB) *Shop {
	t.Helper()
	scheme, err := fold.Parse("up 1/2, left, up 1/2")
	if err != nil {
		t.Fatal(err)
	}
	day := []calendar.Span{{From: 360, To: 840}}
	slit := tooling.Type{Kind: tooling.Slit}
	folder := machine.Folder{
		Name: "alder", Calendar: "day",
		Feeder: machine.Feeder{
			Length: machine.Range{Min: 200 * mm, Max: 1000 * mm}, Width: machine.Range{Min: 150 * mm, Max: 700 * mm},
			MinGrammage: 40 * units.GramPerM2, MaxGrammage: 250 * units.GramPerM2, SheetsPerHourMax: 15000,
		},
	}
	for i, enters := range []machine.Entry{machine.Straight, machine.TurnLeft} {
		folder.Units = append(folder.Units, machine.Unit{
			Kind: machine.Buckle, Enters: []machine.Entry{enters}, Plates: []machine.Plate{{Stop: machine.Range{Min: 60 * mm, Max: 500 * mm}}},
			Speed: 150 * units.MetrePerMin, Gap: 60 * mm, Operator: machine.LeftSide,
			Guide:    machine.Guide{Side: machine.LeftSide, Range: machine.Range{Min: 20 * mm, Max: 600 * mm}},
			Stations: []machine.Station{{Name: fmt.Sprintf("%dA", i+1), Class: "wide", To: 700 * mm, AccessMin: 2}},
		})
	}
	stock := paper.Stock{Name: "offset", Grammage: 80 * units.GramPerM2}
	one := job.Job{Name: "a", Sheet: fold.Sheet{Length: 860 * mm, Width: 610 * mm}, Stock: stock, Scheme: scheme, Sheets: 1000, Weight: 1}
	two := one
	two.Name, two.After = "b", []string{"a"}
	return &Shop{
		Name: "Well", Zone: time.UTC,
		Calendars: []calendar.Calendar{{Name: "day", Zone: time.UTC, Week: [7][]calendar.Span{1: day, 2: day, 3: day}}},
		Classes:   []tooling.Class{{Name: "wide", Diameter: 35 * mm, Length: 700 * mm}},
		Tools:     []ToolStock{{Type: slit, Class: "wide", Body: tooling.Body{Left: 8 * mm, Right: 12 * mm}, Loose: 4}},
		Sets: []tooling.Set{
			{Label: "W1", Class: "wide", Place: tooling.Place{Folder: "alder", Station: "1A"}},
			{Label: "W2", Class: "wide", Tools: []tooling.Tool{{Type: slit, At: 300 * mm}}, Place: tooling.Place{Slot: "A1"}},
		},
		Folders:   []machine.Folder{folder},
		States:    []State{{Folder: "alder", Job: "a", Guides: []Guide{{Unit: 1, At: 300 * mm}}}},
		Bench:     []Person{{Name: "bench", Calendar: "day"}},
		Stocks:    []paper.Stock{stock},
		Jobs:      []job.Job{one, two},
		Standards: changeover.Default(), Weights: DefaultWeights(), House: DefaultHouse(),
	}
}

func TestAWellShopHasNoFaults(t *testing.T) {
	s := well(t)
	if found := s.Check(); len(found) > 0 {
		t.Error(found.Error())
	}
	if found := s.Unfoldable(); len(found) > 0 {
		t.Error(found.Error())
	}
}

// Each change of a well shop gives just the fault it must. What a shop file can say wrongly is tested with the reader;
// here stands what only a program can.
func TestChangesThatAreFaults(t *testing.T) {
	for _, c := range []struct {
		change func(*Shop)
		want   string
	}{
		{func(s *Shop) { s.Zone = nil }, "zone: the shop has no time zone; name one such as Europe/Berlin [shop-zone]"},
		{func(s *Shop) { s.Weights.Late = math.NaN() }, "weights.late: a minute that costs NaN; 0 to 1000 [weight]"},
		{func(s *Shop) { s.Sets[0].MetresK = math.NaN() }, "sets[0].run_km: the set ran NaN thousand metres; 0 or more [tool-stock]"},
		{func(s *Shop) { s.Stocks[0].Volume = math.Inf(1) }, "stocks[0].volume: a specific volume of +Inf cm³/g; most papers have 0.7 to 2.2; at most 10, or leave it out [stock]"},
		{func(s *Shop) { s.Stocks[0].Grain = paper.GrainAlongS }, "stocks[0]: a stock in the list with a grain; the grain is told by each job, for its sheet as drawn [stock]"},
		{func(s *Shop) { s.House.Rings.Width = -1 }, "house.rings: rings of 0 mm with 1 mm beside them; 0 to 500 mm each [house]"},
		{func(s *Shop) { s.House.Advice.Creep = -1 }, "house.advice.creep: a creep of 0 mm; 0 or more [house]"},
		{func(s *Shop) { s.Jobs[0].Name = "a\x00" }, `jobs[0].name: the name "a\x00" holds signs that cannot be printed; write letters, digits and blanks [name]` + "\n" +
			`jobs[1].after[0]: there is no job "a"` + "\n" + `present[0].job`},
		{func(s *Shop) { s.Name = ".." }, `shop: the name ".." has no letter; write letters, digits and blanks [name]`},
		{func(s *Shop) { s.Name = "\xff" }, `shop: the name "\xff" holds signs that cannot be printed`},
		{func(s *Shop) { s.Sets[1].Place = tooling.Place{} }, `sets[1]: set "W2" stands nowhere; give slot, or folder and station, or bench: yes [set-place]`},
		{func(s *Shop) { s.Sets[1].Place = tooling.Place{Folder: "alder"} }, `sets[1].station: no station is named; name one: 1A, 2A [unknown-name]`},
		{func(s *Shop) { s.Bench[0].Calendar = "" }, `bench[0].calendar: no calendar is named; name one: day [unknown-name]`},
		{func(s *Shop) { s.Jobs[0].After = []string{"b"} }, `jobs[0].after: these jobs wait for one another, by after or by their pins: a, b, a; one of them must not wait [after-cycle]`},
		{func(s *Shop) {
			s.Jobs[0].Pin = job.Pin{Folder: "alder", Position: 2}
			s.Jobs[1].Pin = job.Pin{Folder: "alder", Position: 1}
		}, `jobs[0].after: these jobs wait for one another, by after or by their pins: a, b, a; one of them must not wait [after-cycle]`},
	} {
		s := well(t)
		c.change(s)
		found := s.Check()
		for _, line := range strings.Split(c.want, "\n") {
			if !strings.Contains(found.Error(), line) {
				t.Errorf("got\n%s\nwant\n%s", found.Error(), line)
			}
		}
		if n := strings.Count(c.want, "\n") + 1; len(found) < n {
			t.Errorf("got %d faults, want at least %d:\n%s", len(found), n, found.Error())
		}
	}
}

// An empty shop has faults, and asking it anything does not panic.
func TestEmptyShop(t *testing.T) {
	s := new(Shop)
	if len(s.Check()) == 0 {
		t.Error("an empty shop has no faults")
	}
	if len(s.Unfoldable()) != 0 {
		t.Error("a job that is not there cannot be folded")
	}
	s.Jobs = make([]job.Job, 1)
	s.Folders = make([]machine.Folder, 1)
	s.Sets = make([]tooling.Set, 1)
	s.Check()
}

// A cycle is told exactly when there is one: jobs that wait for one another at random, against following every chain.
func TestCyclesAreFound(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		n := rapid.IntRange(1, 7).Draw(r, "jobs")
		jobs := make([]job.Job, n)
		for i := range jobs {
			jobs[i].Name = string(rune('a' + i))
			for range rapid.IntRange(0, 2).Draw(r, "waits") {
				if k := rapid.IntRange(0, n-1).Draw(r, "for"); k != i {
					jobs[i].After = append(jobs[i].After, string(rune('a'+k)))
				}
			}
		}
		c := &checker{shop: &Shop{Jobs: jobs}}
		c.cycles()
		if got, want := len(c.faults) > 0, anyRoundTrip(jobs); got != want {
			r.Fatalf("%v: cycle told %v, is %v", jobs, got, want)
		}
		if len(c.faults) > 0 {
			holdsChain(r, jobs, c.faults[0])
		}
	})
}

// anyRoundTrip follows every chain of waiting for as many steps as there are jobs.
func anyRoundTrip(jobs []job.Job) bool {
	waits := map[string][]string{}
	for _, j := range jobs {
		waits[j.Name] = j.After
	}
	var comesBack func(from, at string, steps int) bool
	comesBack = func(from, at string, steps int) bool {
		return steps > 0 && slices.ContainsFunc(waits[at], func(next string) bool { return next == from || comesBack(from, next, steps-1) })
	}
	return slices.ContainsFunc(jobs, func(j job.Job) bool { return comesBack(j.Name, j.Name, len(jobs)) })
}

// holdsChain proves the chain that is told: each job waits for the one before it.
func holdsChain(t *rapid.T, jobs []job.Job, f fault.Fault) {
	_, chain, _ := strings.Cut(f.Wrong, "pins: ")
	if strings.Contains(chain, "…") {
		return
	}
	names := strings.Split(chain, ", ")
	for i := 1; i < len(names); i++ {
		k := slices.IndexFunc(jobs, func(j job.Job) bool { return j.Name == names[i] })
		if !slices.Contains(jobs[k].After, names[i-1]) {
			t.Fatalf("%s does not wait for %s, as %q says", names[i], names[i-1], f.Wrong)
		}
	}
}

func TestLookups(t *testing.T) {
	s := well(t)
	s.Done = []job.Job{{Name: "old"}}
	found := func(what string, ok bool) {
		if !ok {
			t.Error(what + " is not found")
		}
	}
	_, ok := s.Folder("alder")
	found("folder", ok)
	_, ok = s.Calendar("day")
	found("calendar", ok)
	_, ok = s.Class("wide")
	found("class", ok)
	_, ok = s.Tool("wide", tooling.Type{Kind: tooling.Slit})
	found("tool", ok)
	set, ok := s.Set("W2")
	found("set", ok && set.Place.Slot == "A1")
	set, ok = s.Mounted("alder", "1A")
	found("mounted set", ok && set.Label == "W1")
	_, ok = s.Stock("offset")
	found("stock", ok)
	_, ok = s.Job("old")
	found("finished job", ok)
	_, ok = s.State("alder")
	found("state", ok)
	if _, ok := s.Mounted("alder", "2A"); ok {
		t.Error("a set is found in an empty station")
	}
	if j, _ := s.Job("a"); j != &s.Jobs[0] {
		t.Error("the job that is found is a copy")
	}
	if got := s.JobNames(); !slices.Equal(got, []string{"a", "b"}) {
		t.Errorf("jobs to plan: %v", got)
	}
}

// The settings room is told the bodies of the listed tools and the shifts at which sets serve.
func TestSettingsHouse(t *testing.T) {
	h := well(t).SettingsHouse()
	slit := tooling.Type{Kind: tooling.Slit}
	if got := h.Body("wide", slit); got != (tooling.Body{Left: 8 * mm, Right: 12 * mm}) {
		t.Errorf("body %v", got)
	}
	if got := h.Body("other", slit); got != (tooling.Body{}) {
		t.Errorf("a body on shafts for which none is listed: %v", got)
	}
	want := tooling.Pattern{Class: "wide", Tools: []tooling.Tool{{Type: slit, At: 250 * mm}}}
	got := h.Rack("wide", want)
	// W2 has its slit 50 mm further on; the tolerance of 0.3 mm leaves 0.15 mm to either side.
	if len(got) != 1 || got[0] != (tooling.Window{Lo: 50*mm - 150*units.Micrometre, Hi: 50*mm + 150*units.Micrometre}) {
		t.Errorf("windows %v", got)
	}
}

func TestUnfoldableNamesEveryMiss(t *testing.T) {
	s := well(t)
	s.Folders[0].Units[1].Plates[0].Stop.Max = 300 * mm
	second := s.Folders[0]
	second.Name = "birch"
	second.Units = second.Units[:1]
	s.Folders = append(s.Folders, second)
	found := s.Unfoldable()
	if len(found) != 3 || found[0].Kind != fault.No || found[0].Field != "jobs[0]" {
		t.Fatalf("%v", found)
	}
	for _, part := range []string{"alder: plate 1 of unit 2 reaches 300 mm, fold 2 needs 305 mm", "birch: "} {
		if !strings.Contains(found[0].Wrong, part) {
			t.Errorf("%q does not say %q", found[0].Wrong, part)
		}
	}
	s.Jobs[0].Pin.Folder = "birch"
	if found := s.Unfoldable(); strings.Contains(found[0].Wrong, "alder") {
		t.Errorf("a job pinned to birch is told of alder: %s", found[0].Wrong)
	}
}
