package settings

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/tooling"
	"foldwright/internal/units"

	"github.com/google/go-cmp/cmp"
)

// rowan is the folder of docs/worked-job.md. Its shafts are whole inches long, so that both halves of the page come out
// in round figures.
func rowan() *machine.Folder {
	buckle := func(operator, guide machine.Side, shaft units.Length, plates ...machine.Plate) machine.Unit {
		return machine.Unit{
			Kind: machine.Buckle, Plates: plates, ThicknessMax: 2 * mm,
			Operator: operator, Guide: machine.Guide{Side: guide, Range: span(20, 740)},
			Stations: []machine.Station{{Class: "35", To: shaft}},
		}
	}
	one := buckle(machine.RightSide, machine.RightSide, 30*units.Inch, plates(span(80, 520), span(70, 430), span(80, 520), span(70, 430))...)
	one.Enters = []machine.Entry{machine.Straight}
	one.Speed, one.Gap, one.Stations[0].Name = 150*units.MetrePerMin, 60*mm, "1A"
	two := buckle(machine.RightSide, machine.LeftSide, 20*units.Inch, plates(span(70, 400), span(70, 330), span(70, 400), span(70, 330))...)
	two.Enters = []machine.Entry{machine.TurnLeft}
	two.Speed, two.Gap, two.Stations[0].Name = 130*units.MetrePerMin, 80*mm, "2A"
	three := machine.Unit{
		Kind: machine.Knife, Enters: []machine.Entry{machine.TurnLeft, machine.TurnRight}, Stop: span(60, 330), StrokesMax: 9000, ThicknessMax: 3 * mm,
		Operator: machine.LeftSide, Guide: machine.Guide{Side: machine.RightSide, Range: span(20, 400)},
		Speed: 110 * units.MetrePerMin, Gap: 100 * mm,
		Stations: []machine.Station{{Name: "3A", Class: "35", To: 16 * units.Inch}},
	}
	return &machine.Folder{
		Name:   "rowan",
		Feeder: machine.Feeder{Length: span(180, 1020), Width: span(150, 720), MinGrammage: 40 * units.GramPerM2, MaxGrammage: 250 * units.GramPerM2, SheetsPerHourMax: 16000},
		Units:  []machine.Unit{one, two, three},
	}
}

// workedHouse has the tools of the page: a strip takes 14 mm to either side, every other wheel 9 and 11.
func workedHouse() *House {
	h := DefaultHouse()
	h.Body = func(_ string, t tooling.Type) tooling.Body {
		if t.Kind == tooling.Strip {
			return tooling.Body{Left: 14 * mm, Right: 14 * mm}
		}
		return tooling.Body{Left: 9 * mm, Right: 11 * mm}
	}
	return h
}

func workedJob(t *testing.T, bare units.Length, sheet fold.Sheet, scheme string, operations ...string) *Settings {
	t.Helper()
	s, err := fold.ParseIn(scheme, bare)
	if err != nil {
		t.Fatal(err)
	}
	j := &job.Job{
		Name: "worked", Sheet: sheet, Scheme: s, Sheets: 9000,
		Stock: paper.Stock{Grammage: 80 * units.GramPerM2, Measured: 100 * units.Micrometre},
	}
	for _, text := range operations {
		op, err := job.ParseOperation(text, bare)
		if err != nil {
			t.Fatal(err)
		}
		j.Operations = append(j.Operations, op)
	}
	if list := j.Check(); list != nil {
		t.Fatal(list)
	}
	folded, err := s.Apply(sheet)
	if err != nil {
		t.Fatal(err)
	}
	best, miss := Best(j, folded, rowan(), workedHouse())
	if miss != nil {
		t.Fatal(miss.Why())
	}
	return best
}

// asOnThePage lists a setting as the page does, one line for everything that an operator sets.
func asOnThePage(s *Settings, inch bool) []string {
	lines := []string{fmt.Sprintf("feed: edge %s leads, %s up", s.Feed.Leading, s.Feed.FaceUp)}
	add := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	for _, u := range s.Units {
		add("unit %d: enters %s, %s × %s", u.Number, u.Enters, u.In.Length.Format(inch), u.In.Width.Format(inch))
		for _, p := range u.Plates {
			if p.Closed {
				add("unit %d: plate %d closed", u.Number, p.Number)
				continue
			}
			add("unit %d: plate %d stop %s, fold %d", u.Number, p.Number, p.Stop.Format(inch), p.Fold)
		}
		if u.Knife != nil {
			add("unit %d: knife stop %s, fold %d", u.Number, u.Knife.Stop.Format(inch), u.Knife.Fold)
		}
		for _, n := range u.Nips {
			add("unit %d: nip %d takes %d × 100 µm = %s", u.Number, n.Number, n.Layers, units.FormatMicrons(n.Thickness, false))
		}
		add("unit %d: guide on the %s at %s", u.Number, u.Guide.Side, u.Guide.At.Format(inch))
		for _, st := range u.Stations {
			for _, tool := range st.Tools {
				add("station %s: %s at %s, t %s, for %s", st.Name, tool.Type, tool.At.Format(inch), tool.T.Format(inch), tool.For)
			}
			rings := make([]string, len(st.DriveRings))
			for i, at := range st.DriveRings {
				rings[i] = at.Format(inch)
			}
			add("station %s: drive rings at %s", st.Name, strings.Join(rings, ", "))
		}
	}
	add("rate: %d sheets/h, %d streams, set by the %s", s.SheetsPerHour, s.Streams, s.RateLimit)
	return lines
}

// The worked job of docs/worked-job.md, whose arithmetic was done by hand. Every figure below stands on that page.
func TestWorkedJob(t *testing.T) {
	millimetres := workedJob(t, units.Millimetre, fold.Sheet{Length: 900 * mm, Width: 640 * mm},
		"up 1/2, left, up 157 mm, up 326 mm, left, up 1/2",
		"perforate fold 2 with 12 tpi", "perforate fold 3 with 12 tpi", "score fold 4 with 0.7 mm", "slit at t 320 mm strip 6 mm two-up")
	inches := workedJob(t, units.Inch, fold.Sheet{Length: 36 * units.Inch, Width: 25 * units.Inch},
		"up 1/2, left, up 6 1/8 in, up 12 3/4 in, left, up 1/2",
		"perforate fold 2 with 12 tpi", "perforate fold 3 with 12 tpi", "score fold 4 with 0.7 mm", "slit at t 12 1/2 in strip 1/4 in two-up")
	page, err := os.ReadFile("../../docs/worked-job.md")
	if err != nil {
		t.Fatal(err)
	}
	for heading, got := range map[string][]string{"## In millimetres": asOnThePage(millimetres, false), "## The same in inches": asOnThePage(inches, true)} {
		if diff := cmp.Diff(figures(t, string(page), heading), got); diff != "" {
			t.Errorf("%s: page and engine differ:\n%s", heading, diff)
		}
	}
}

// figures reads the block of plain lines below a heading of the page.
func figures(t *testing.T, page, heading string) []string {
	t.Helper()
	_, section, ok := strings.Cut(page, heading+"\n")
	if !ok {
		t.Fatalf("the page has no heading %q", heading)
	}
	_, block, _ := strings.Cut(section, "```text\n")
	block, _, ok = strings.Cut(block, "```")
	if !ok {
		t.Fatalf("no block of figures below %q", heading)
	}
	return strings.Split(strings.TrimSpace(block), "\n")
}
