package changeover

import (
	"fmt"
	"testing"
	"time"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"foldwright/internal/fold"
	"foldwright/internal/machine"
	"foldwright/internal/settings"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

const minute = time.Minute

func mm(x float64) units.Length { return units.MM(x) }

// buckle makes a buckle unit; a stop of 0 closes the plate.
func buckle(number int, enters machine.Entry, length, width float64, caliper units.Length, layers []int, stops ...float64) settings.Unit {
	u := settings.Unit{Number: number, Kind: machine.Buckle, Engaged: true, Enters: enters, In: fold.State{Length: mm(length), Width: mm(width), Layers: layers[0]}}
	for i, stop := range stops {
		u.Plates = append(u.Plates, settings.Plate{Number: i + 1, Closed: stop == 0, Stop: mm(stop)})
	}
	for i, n := range layers {
		u.Nips = append(u.Nips, settings.Nip{Number: i + 1, Layers: n, Thickness: units.Length(n) * caliper})
	}
	return u
}

func unused(number int, kind machine.UnitKind) settings.Unit {
	return settings.Unit{Number: number, Kind: kind}
}

// A sheet of 860 × 610 mm, 100 µm: 430 by plate 1 of unit 1, turned left, 305 by plate 1 of unit 2, turned left, the knife
// at 215. And 640 × 900 mm, 130 µm: 320 by plate 1 and 160 by plate 3 of unit 1; nothing else.
func section() *settings.Settings {
	knife := settings.Unit{
		Number: 3, Kind: machine.Knife, Engaged: true, Enters: machine.TurnLeft, Knife: &settings.Knife{Stop: mm(215)},
		Nips: []settings.Nip{{Number: 1, Layers: 8, Thickness: 800 * units.Micrometre}},
	}
	return &settings.Settings{Units: []settings.Unit{
		buckle(1, machine.Straight, 860, 610, 100*units.Micrometre, []int{1, 2, 2, 2, 2}, 430, 0, 0, 0),
		buckle(2, machine.TurnLeft, 610, 430, 100*units.Micrometre, []int{2, 4, 4}, 305, 0),
		knife,
	}}
}

func leaflet() *settings.Settings {
	return &settings.Settings{Units: []settings.Unit{
		buckle(1, machine.Straight, 640, 900, 130*units.Micrometre, []int{1, 2, 2, 4, 4}, 320, 0, 160, 0),
		unused(2, machine.Buckle), unused(3, machine.Knife),
	}}
}

// A changeover worked by hand with the default minutes (all common practice, no source).
func TestHandWorkedChangeover(t *testing.T) {
	std := Default()
	for _, c := range []struct {
		name     string
		from, to *settings.Settings
		want     []told
		sum      time.Duration
	}{
		{"section to leaflet", section(), leaflet(), []told{
			{"docket", "docket change", 4 * minute},
			{"sheet", "860 × 610 mm before, 640 × 900 mm now", 4 * minute},
			{"stock", "100 µm thick before, 130 µm now", 3 * minute},
			// Units 2 and 3 fall out: 2 × 3 min.
			{"units", "units 2 and 3 uncoupled", 6 * minute},
			// Plate 1 from 430 to 320: a stop, 45 s. Plate 3 from closed to 160: deflector 30 s and stop 45 s. Together 2 min.
			{"plates", "2 stops set, 1 plate opened", 2 * minute},
			// Nips of unit 1: 100 200 200 200 200 µm before, 130 260 260 520 520 µm now: all five, 5 × 30 s.
			{"gaps", "5 nips set", 2*minute + 30*time.Second},
			// Two folds: 4 min + 2 × 1 min.
			{"trial", "trial sheets, 2 folds to check", 6 * minute},
		}, 27*minute + 30*time.Second},
		{"leaflet to section", leaflet(), section(), []told{
			{"docket", "docket change", 4 * minute},
			{"sheet", "640 × 900 mm before, 860 × 610 mm now", 4 * minute},
			{"stock", "130 µm thick before, 100 µm now", 3 * minute},
			// Units 2 and 3 come in: 2 × 6 min.
			{"units", "units 2 and 3 coupled", 12 * minute},
			// Unit 1: plate 1 from 320 to 430, plate 3 closed: 45 + 30 s. Unit 2, of which nothing is known: plate 1 opened and
			// set, plate 2 closed: 30 + 45 + 30 s. Knife stop: 45 s. Stops 3 × 45 s, deflectors 3 × 30 s: 225 s.
			{"plates", "3 stops set, 1 plate opened, 2 plates closed", 225 * time.Second},
			// Five nips of unit 1, three of unit 2, one of the knife.
			{"gaps", "9 nips set", 270 * time.Second},
			{"trial", "trial sheets, 3 folds to check", 7 * minute},
		}, 38*minute + 15*time.Second},
		{"the same again", section(), section(), []told{
			{"docket", "docket change; nothing else differs", 4 * minute},
		}, 4 * minute},
		{"from the unknown", nil, leaflet(), []told{
			{"docket", "docket change; how the folder is set is not known, so all is set anew", 4 * minute},
			{"sheet", "640 × 900 mm", 4 * minute},
			{"stock", "130 µm thick", 3 * minute},
			{"units", "units 2 and 3 uncoupled", 6 * minute},
			// Two plates opened and set, two closed: 2 × 45 s + 4 × 30 s = 210 s.
			{"plates", "2 stops set, 2 plates opened, 2 plates closed", 210 * time.Second},
			{"gaps", "5 nips set", 150 * time.Second},
			{"trial", "trial sheets, 2 folds to check", 6 * minute},
		}, 29 * minute},
	} {
		t.Run(c.name, func(t *testing.T) {
			lines := Base(&std, c.from, c.to)
			if d := gocmp.Diff(c.want, tell(lines)); d != "" {
				t.Fatal(d)
			}
			if Sum(lines) != c.sum {
				t.Fatalf("sum is %v, want %v", Sum(lines), c.sum)
			}
		})
	}
}

// One thing changed at a time: what is near enough to stay, and what is not.
func TestWhatCounts(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(*settings.Settings)
		want  string // the lines but docket and trial
	}{
		{"stop moved by 0.05 mm", func(s *settings.Settings) { s.Units[0].Plates[0].Stop += 50 * units.Micrometre }, ""},
		{"stop moved by more", func(s *settings.Settings) { s.Units[0].Plates[0].Stop += 51 * units.Micrometre }, "[plates: 1 stop set]"},
		{"plate closed", func(s *settings.Settings) { s.Units[0].Plates[0].Closed = true }, "[plates: 1 plate closed]"},
		{"knife moved", func(s *settings.Settings) { s.Units[2].Knife.Stop += mm(1) }, "[plates: 1 stop set]"},
		{"sheet longer by 1 mm", func(s *settings.Settings) { s.Units[0].In.Length += mm(1) }, ""},
		{"sheet longer by 2 mm", func(s *settings.Settings) { s.Units[0].In.Length += mm(2) }, "[sheet: 860 × 610 mm before, 862 × 610 mm now]"},
		{"nip thicker by 10 µm", func(s *settings.Settings) { s.Units[1].Nips[2].Thickness += 10 * units.Micrometre }, ""},
		{"nip thicker by 11 µm", func(s *settings.Settings) { s.Units[1].Nips[2].Thickness += 11 * units.Micrometre }, "[gaps: 1 nip set]"},
		{"stock 5 % thicker", func(s *settings.Settings) { s.Units[0].Nips[0].Thickness += 5 * units.Micrometre }, ""},
		{"stock 6 % thicker", func(s *settings.Settings) { s.Units[0].Nips[0].Thickness += 6 * units.Micrometre }, "[stock: 100 µm thick before, 106 µm now]"},
		{"knife entered the other way", func(s *settings.Settings) { s.Units[2].Enters = machine.TurnRight }, "[units: unit 3 entered another way]"},
		{"knife not used", func(s *settings.Settings) { s.Units[2] = unused(3, machine.Knife) }, "[units: unit 3 uncoupled]"},
		{"unit 2 lets the stack pass", func(s *settings.Settings) {
			s.Units[1].Engaged, s.Units[1].Passes = false, true
			s.Units[1].Plates[0] = settings.Plate{Number: 1, Closed: true}
		}, "[plates: 1 plate closed]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			std, to := Default(), section()
			c.spoil(to)
			var got []string
			for _, l := range tell(Base(&std, section(), to)) {
				if l.What != "docket" && l.What != "trial" {
					got = append(got, l.What+": "+l.Why)
				}
			}
			text := ""
			if got != nil {
				text = fmt.Sprint(got)
			}
			if text != c.want {
				t.Fatalf("got %s, want %s", text, c.want)
			}
		})
	}
}

// settingsOf draws settings of one invented folder: two buckle units and a knife. Figures lie on coarse steps, so that
// what differs at all differs by more than what may stay.
func settingsOf() *rapid.Generator[*settings.Settings] {
	return rapid.Custom(func(t *rapid.T) *settings.Settings {
		step := func(name string, most int) int { return rapid.IntRange(0, most).Draw(t, name) }
		caliper := units.Length(1+step("caliper", 2)) * 60 * units.Micrometre
		turns := []machine.Entry{machine.TurnLeft, machine.TurnRight}
		stops := func(n int) []float64 {
			list := make([]float64, n)
			for i := range list {
				list[i] = float64(100 * step("stop", 2))
			}
			return list
		}
		layers := func(n int) []int {
			list := []int{1}
			for len(list) < n {
				list = append(list, 1+step("layers", 3))
			}
			return list
		}
		s := &settings.Settings{Units: []settings.Unit{
			buckle(1, machine.Straight, float64(400+100*step("length", 1)), float64(300+100*step("width", 1)), caliper, layers(5), stops(4)...),
			unused(2, machine.Buckle), unused(3, machine.Knife),
		}}
		if step("second", 2) > 0 {
			s.Units[1] = buckle(2, turns[step("turn", 1)], 300, 200, caliper, layers(3), stops(2)...)
		}
		if step("knife", 1) > 0 {
			n := 1 + step("layers", 3)
			s.Units[2] = settings.Unit{
				Number: 3, Kind: machine.Knife, Engaged: true, Enters: turns[step("turn", 1)],
				Knife: &settings.Knife{Stop: mm(float64(100 + 100*step("stop", 1)))},
				Nips:  []settings.Nip{{Number: 1, Layers: n, Thickness: units.Length(n) * caliper}},
			}
		}
		return s
	})
}

// told is a line in English and millimetres.
type told struct {
	What, Why string
	Time      time.Duration
}

func tell(lines []Line) []told {
	list := make([]told, len(lines))
	for i, l := range lines {
		list[i] = told{l.What.String(), l.Why.String(), l.Time}
	}
	return list
}

func standards() *rapid.Generator[Standards] {
	return rapid.Custom(func(t *rapid.T) Standards {
		var s Standards
		for _, f := range s.Fields() {
			*f.Value = time.Duration(rapid.IntRange(0, 600).Draw(t, f.Name)) * time.Second
		}
		s.Turn = min(s.Turn, s.Couple) // as Check wants
		return s
	})
}

func total(std *Standards, from, to *settings.Settings) time.Duration {
	return Compare(from, to).Time(std)
}

func TestBaseProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		std := standards().Draw(t, "standards")
		a, b, c := settingsOf().Draw(t, "a"), settingsOf().Draw(t, "b"), settingsOf().Draw(t, "c")
		for _, from := range []*settings.Settings{nil, a} {
			lines := Base(&std, from, b)
			if Sum(lines) != total(&std, from, b) {
				t.Fatalf("lines sum to %v, want %v", Sum(lines), total(&std, from, b))
			}
			for _, l := range tell(lines) {
				if l.Time <= 0 || l.Time%time.Second != 0 || l.What == "" || l.Why == "" {
					t.Fatalf("line %+v", l)
				}
			}
		}
		if same := total(&std, a, a); same != std.Docket {
			t.Fatalf("a repeat takes %v, want the docket's %v", same, std.Docket)
		}
		if unknown, known := total(&std, nil, b), total(&std, a, b); unknown < known {
			t.Fatalf("not knowing takes %v, knowing %v", unknown, known)
		}
		// A detour over b saves nothing, its docket aside.
		if direct, over := total(&std, a, c), total(&std, a, b)+total(&std, b, c)-std.Docket; direct > over {
			t.Fatalf("direct %v, over b %v", direct, over)
		}
	})
}

func BenchmarkCompare(b *testing.B) {
	std, from, to := Default(), section(), leaflet()
	b.ReportAllocs()
	for range b.N {
		total(&std, from, to)
	}
}

func BenchmarkBase(b *testing.B) {
	std, from, to := Default(), section(), leaflet()
	b.ReportAllocs()
	for range b.N {
		Base(&std, from, to)
	}
}

// A shop that thinks in inches reads inches: 25 × 38 in, 10 pt = 0.010 in = 254 µm.
func TestLinesInInches(t *testing.T) {
	std, to := Default(), leaflet()
	to.Units[0].In.Length, to.Units[0].In.Width = 25*units.Inch, 38*units.Inch
	to.Units[0].Nips[0].Thickness = 254 * units.Micrometre
	lines, say := Base(&std, nil, to), words.NewSpeaker(words.English, true)
	if sheet, stock := say.Text(lines[1].Why), say.Text(lines[2].Why); sheet != "25 × 38 in" || stock != "10 pt thick" {
		t.Fatalf("sheet %s, stock %s", sheet, stock)
	}
}
