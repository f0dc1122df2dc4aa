package desk_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/access"
	"foldwright/internal/changeover"
	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/plan"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// held is a store that holds one shop.
type held struct {
	shop *shop.Shop
	err  error
}

// signed is the context of somebody who may everything.
func signed(t testing.TB) context.Context {
	return access.With(t.Context(), access.Who{Name: "ada", Role: access.Admin})
}

func (h held) Shop(context.Context) (*shop.Shop, error) { return h.shop, h.err }

func demoDesk(t *testing.T) (*desk.Desk, *shop.Shop) {
	t.Helper()
	s, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	return &desk.Desk{Store: held{shop: s}, Now: func() time.Time { t.Error("the shop says what time it is; nobody should ask the clock"); return s.Now }}, s
}

func ask(t *testing.T, d *desk.Desk, job, folder string) []desk.Answer {
	t.Helper()
	answers, err := d.Settings(signed(t), job, folder)
	if err != nil {
		t.Fatal(err)
	}
	return answers
}

// Goal: whatever the job, the answers hang together. Method: every job of the demo on every folder.
func TestAnswersHangTogether(t *testing.T) {
	d, s := demoDesk(t)
	for _, name := range s.JobNames() {
		answers, err := d.Settings(signed(t), name, "")
		if len(answers) != len(s.Folders) {
			t.Fatalf("job %s: %d answers (%v), want one a folder", name, len(answers), err)
		}
		if (err != nil) != (answers[0].Miss != nil) {
			t.Errorf("job %s: the fault is %v and the best answer has miss %v", name, err, answers[0].Miss)
		}
		for i, a := range answers {
			if (a.Miss == nil) == (a.Settings == nil) {
				t.Fatalf("job %s on %s: settings %v and miss %v, want just one", name, a.Folder.Name, a.Settings, a.Miss)
			}
			if i > 0 && answers[i-1].Miss != nil && a.Miss == nil {
				t.Errorf("job %s: %s can and comes after %s, which cannot", name, a.Folder.Name, answers[i-1].Folder.Name)
			}
			if a.Miss == nil {
				holdAnswer(t, s, a)
			}
		}
	}
}

// holdAnswer checks one answer against what can be counted by hand.
func holdAnswer(t *testing.T, s *shop.Shop, a desk.Answer) {
	t.Helper()
	if got := changeover.Sum(a.Lines); got != a.Makeready {
		t.Errorf("job %s on %s: the lines sum to %v, make-ready is %v", a.Job.Name, a.Folder.Name, got, a.Makeready)
	}
	run := time.Duration(float64(a.Job.Sheets) / float64(a.Settings.SheetsPerHour) * float64(time.Hour))
	if diff := a.Run - run; diff < -time.Second || diff > time.Second {
		t.Errorf("job %s on %s: runs %v, %d sheets at %d/h take %v", a.Job.Name, a.Folder.Name, a.Run, a.Job.Sheets, a.Settings.SheetsPerHour, run)
	}
	stations := 0
	for i := range a.Settings.Units {
		u := &a.Settings.Units[i]
		for k := range u.Stations {
			stations++
			holdStation(t, s, a, u, &u.Stations[k])
		}
	}
	if len(a.Stations) < stations {
		t.Errorf("job %s on %s: %d stations answered of %d", a.Job.Name, a.Folder.Name, len(a.Stations), stations)
	}
}

// holdStation compares the sets that are said to serve with the definition (patterns are alike when kinds and specs
// agree in order and all spacings within the tolerance, and the one shift needed lies within the guide's reach). That the
// stations of a unit agree with one another is together_test.go's; in the demo they always do.
func holdStation(t *testing.T, s *shop.Shop, a desk.Answer, u *settings.Unit, st *settings.Station) {
	t.Helper()
	said := map[string]units.Length{}
	for _, got := range a.Stations {
		if got.Name == st.Name {
			for _, serving := range got.Serves {
				said[serving.Set.Label] = serving.Shift
			}
		}
	}
	for _, set := range s.Sets {
		lo, hi, ok := shifts(st, set, s.House.Tolerance)
		lo, hi = max(lo, u.Guide.Window.Lo-u.Guide.At), min(hi, u.Guide.Window.Hi-u.Guide.At)
		want := ok && lo <= hi
		shift, got := said[set.Label]
		if got != want || got && (shift < lo || shift > hi) {
			t.Errorf("job %s, %s %s: %s said to serve: %v with shift %v; want %v, between %v and %v",
				a.Job.Name, a.Folder.Name, st.Name, set.Label, got, shift, want, lo, hi)
		}
	}
}

// shifts gives the moves of the guide that bring every tool within half the tolerance of its place on the set.
func shifts(st *settings.Station, set tooling.Set, tolerance units.Length) (lo, hi units.Length, ok bool) {
	lo, hi = -units.Metre, units.Metre
	if len(st.Tools) == 0 || set.Class != st.Class || !spacingsAgree(st.Pattern().Tools, set.Tools, tolerance) {
		return lo, hi, false
	}
	for i, tool := range st.Tools {
		lo, hi = max(lo, set.Tools[i].At-tool.At-tolerance/2), min(hi, set.Tools[i].At-tool.At+tolerance/2)
	}
	return lo, hi, true
}

func spacingsAgree(want, have []tooling.Tool, tolerance units.Length) bool {
	if len(want) != len(have) {
		return false
	}
	for i := range want {
		if want[i].Type != have[i].Type {
			return false
		}
		for j := range i {
			if off := (want[i].At - want[j].At) - (have[i].At - have[j].At); max(off, -off) > tolerance {
				return false
			}
		}
	}
	return true
}

// The desk says of a job what the plan does with it first thing in the morning.
func TestMinutesAgreeWithThePlan(t *testing.T) {
	d, s := demoDesk(t)
	p, err := d.Plan(signed(t), plan.Options{Iterations: 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, lane := range p.Given.Folders {
		first := lane.Tasks[0]
		a := ask(t, d, first.Job, lane.Name)[0]
		if diff := cmp.Diff(first.Lines, a.Lines); diff != "" {
			t.Errorf("%s on %s (plan -, desk +):\n%s", first.Job, lane.Name, diff)
		}
	}
	if len(p.Given.Folders) != len(s.Folders) {
		t.Errorf("%d lanes for %d folders", len(p.Given.Folders), len(s.Folders))
	}
}

// A question changes nothing: the shop is the same before and after, and so is the answer.
func TestAskingChangesNothing(t *testing.T) {
	d, s := demoDesk(t)
	before, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	first := ask(t, d, "2101", "alder")
	if diff := cmp.Diff(lean(before), lean(s)); diff != "" {
		t.Errorf("the question changed the shop:\n%s", diff)
	}
	if diff := cmp.Diff(first[0].Lines, ask(t, d, "2101", "alder")[0].Lines); diff != "" {
		t.Errorf("asked twice, answered differently:\n%s", diff)
	}
}

// lean is what of a shop a question could change.
func lean(s *shop.Shop) any {
	type part struct {
		Jobs, Done []string
		Sets       []tooling.Set
		After      [][]string
		Pins       []string
	}
	p := part{Jobs: s.JobNames(), Sets: s.Sets}
	for _, j := range s.Done {
		p.Done = append(p.Done, j.Name)
	}
	for _, j := range s.Jobs {
		p.After = append(p.After, j.After)
		p.Pins = append(p.Pins, j.Pin.Folder)
	}
	return p
}

func TestFaults(t *testing.T) {
	d, _ := demoDesk(t)
	torn := fault.List{{Kind: fault.Input, Code: "field", Wrong: "torn"}}
	broken := &desk.Desk{Store: held{err: torn}}
	for _, c := range []struct {
		name        string
		desk        *desk.Desk
		job, folder string
		kind        fault.Kind
		want        string
	}{
		{"slip in a job", d, "21o1", "", fault.Missing, `job: there is no job "21o1"; did you mean "2101"? [unknown-name]`},
		{"slip in a folder", d, "2101", "birhc", fault.Missing, `folder: there is no folder "birhc"; known: alder, birch, hazel, rowan [unknown-name]`},
		{"nobody can", d, "2124", "", fault.No, `job 2124: no folder can fold it; nearest is birch: unit 1 has no plate for fold 7`},
		{"this one cannot", d, "2103", "rowan", fault.No, `job 2103: rowan cannot fold it; the feeder takes stock up to 150 g/m², this is 250 g/m²`}, // and whatever else misses
		{"no shop", broken, "2101", "", fault.Input, `torn [field]`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := c.desk.Settings(signed(t), c.job, c.folder)
			list := fault.All(err)
			if len(list) != 1 || !strings.HasPrefix(list[0].Error(), c.want) || list[0].Kind != c.kind {
				t.Errorf("got %v (kind %v), want %s", err, list, c.want)
			}
		})
	}
	if _, err := broken.Rack(signed(t)); !errors.As(err, new(fault.List)) {
		t.Errorf("the rack of a torn shop: %v", err)
	}
}

// Without a moment of its own the shop stands at the desk's clock, in the shop's zone.
func TestClock(t *testing.T) {
	_, s := demoDesk(t)
	moment := s.Now.Add(time.Hour)
	s.Now = time.Time{}
	d := &desk.Desk{Store: held{shop: s}, Now: moment.UTC}
	p, err := d.Plan(signed(t), plan.Options{Iterations: 1})
	if err != nil {
		t.Fatal(err)
	}
	if !p.From.Equal(moment) || !strings.HasPrefix(p.From.Format(time.RFC3339), "2026-03-02T07:00:00+01:00") {
		t.Errorf("the plan begins at %v, want %v on the shop's clock", p.From, moment)
	}
}

func TestRackIsTheShops(t *testing.T) {
	d, s := demoDesk(t)
	sets, err := d.Rack(signed(t))
	if err != nil || len(sets) != len(s.Sets) || sets[0].Label != s.Sets[0].Label {
		t.Errorf("%d sets, %v; want the %d of the shop in their order", len(sets), err, len(s.Sets))
	}
}
