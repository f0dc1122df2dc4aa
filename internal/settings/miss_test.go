package settings

import (
	"testing"

	"foldwright/internal/machine"
	"foldwright/internal/units"
	"foldwright/internal/words"

	"pgregory.net/rapid"
)

// A miss always says what is wanted and what is there. Each case is one small change to a job that willow runs.
func TestNearestMiss(t *testing.T) {
	const section = "up 1/2, left, up 1/2, left, up 1/2"
	for name, c := range map[string]struct {
		length, width units.Length
		scheme        string
		operations    []string
		change        func(f *machine.Folder)
		why           string
	}{
		"a plate too short": {
			860, 610, "up 322 mm", nil,
			func(f *machine.Folder) {
				f.Units[0].Plates = plates(span(80, 310), span(80, 310))
				f.Units = f.Units[:1]
			},
			"plate 1 of unit 1 reaches 310 mm, fold 1 needs 322 mm",
		},
		"a second fold too long": {
			860, 610, "up 538 mm, down 322 mm", nil,
			func(f *machine.Folder) {
				f.Units[0].Plates = plates(span(80, 600), span(80, 310))
				f.Units = f.Units[:1]
			},
			"plate 2 of unit 1 reaches 310 mm, fold 2 needs 322 mm",
		},
		"a panel too short": {
			860, 610, "up 60 mm", nil, nil,
			"fed with edge s0 leading, back up: plate 2 of unit 1 stops no nearer than 70 mm, fold 1 needs 60 mm",
		},
		"no plate of the right hand": {
			420, 297, "up 1/4, down 1/4, up 1/4", nil,
			func(f *machine.Folder) { f.Units[0].Plates = f.Units[0].Plates[:2]; f.Units = f.Units[:1] },
			"unit 1 has no plate for fold 3: it needs one after plate 2 above, to fold it up",
		},
		"a knife folds up": {
			860, 610, "up 1/2, left, up 1/2, left, down 1/2", nil, nil,
			"unit 3 is a knife and folds up only, fold 3 goes down there",
		},
		"a knife folds once": {
			860, 610, section + ", up 107.5 mm", nil, nil,
			"unit 3 is a knife and makes one fold, fold 4 would be its second",
		},
		"a knife too short": {
			860, 610, section, nil, func(f *machine.Folder) { f.Units[2].Stop = span(60, 200) },
			"the knife stop of unit 3 reaches 200 mm, fold 3 needs 215 mm",
		},
		"a knife too long": {
			860, 610, section, nil, func(f *machine.Folder) { f.Units[2].Stop = span(230, 330) },
			"the knife stop of unit 3 stops no nearer than 230 mm, fold 3 needs 215 mm",
		},
		"too few units": {
			860, 610, section + ", left, up 1/2", nil, nil,
			"fold 4 needs a turn into a unit after unit 3, and the folder has none",
		},
		"too few plates rather than no unit at all": {
			420, 297, "up 1/7, down 1/7, up 1/7, down 1/7, up 1/7, down 1/7", nil,
			func(f *machine.Folder) {
				f.Units[0].Passable = true
				f.Units[0].Plates = plates(span(50, 200), span(50, 200), span(50, 200), span(50, 200))
				f.Units[2].Stop = span(150, 160)
			},
			"unit 1 has no plate for fold 5: it needs one after plate 4 above, to fold it up; unit 1 has no plate for fold 6: it needs one after plate 4 below, to fold it down",
		},
		"too thick": {
			860, 610, section, nil,
			func(f *machine.Folder) { f.Units[2].ThicknessMax = 700 * units.Micrometre },
			"the nips of unit 3 pass 0.7 mm, 8 layers are 0.8 mm",
		},
		"too thick already on entering": {
			860, 610, "up 1/2, left, up 1/2", nil,
			func(f *machine.Folder) { f.Units[1].ThicknessMax = 150 * units.Micrometre; f.Units[1].Passable = false },
			"the nips of unit 2 pass 0.15 mm, 4 layers are 0.4 mm",
		},
		"wider than the feeder after a turn": {
			1000, 610, "up 250 mm, left, up 1/2", nil,
			func(f *machine.Folder) { f.Units = f.Units[:2]; f.Units[1].WidthMax = 0; f.Units[1].Passable = false },
			"unit 2 takes a stack up to 720 mm wide, this one is 750 mm",
		},
		"too wide for the feeder": {
			1000, 730, "up 1/2", nil, nil,
			"the feeder takes sheets up to 720 mm across the travel, this one is 730 mm",
		},
		"too long for the feeder": {
			1030, 600, "up 1/2", nil, nil,
			"the feeder takes sheets up to 1020 mm along the travel, this one is 1030 mm",
		},
		"too small for the feeder": {
			190, 140, "up 95 mm", nil, nil,
			"the feeder takes sheets from 150 mm across the travel, this one is 140 mm",
		},
		"too wide for a unit": {
			1000, 640, "up 1/2, left, up 1/2", nil,
			func(f *machine.Folder) { f.Units[1].WidthMax = 480 * mm; f.Units[1].Passable = false },
			"unit 2 takes a stack up to 480 mm wide, this one is 500 mm",
		},
		"stock too heavy": {
			860, 610, section, nil,
			func(f *machine.Folder) { f.Feeder.MaxGrammage = 70 * units.GramPerM2 },
			"the feeder takes stock up to 70 g/m², this is 80 g/m²",
		},
		"stock too light": {
			860, 610, section, nil,
			func(f *machine.Folder) { f.Feeder.MinGrammage = 90 * units.GramPerM2 },
			"the feeder takes stock from 90 g/m², this is 80 g/m²",
		},
		"the first fold scored": {
			860, 610, section,
			[]string{"score fold 1"},
			nil,
			"score fold 1: fold 1 is made in unit 1 and no station comes before it, so its line must be worked off the folder",
		},
		"no station": {
			860, 610, section,
			[]string{"perforate fold 2"},
			func(f *machine.Folder) { f.Units[0].Stations = nil },
			"perforate fold 2: unit 1 has no station for tools",
		},
		"a slit across": {
			860, 610, "up 1/2",
			[]string{"slit at s 100 mm"},
			func(f *machine.Folder) { f.Units = f.Units[:1] },
			"slit at s 100 mm: its line runs across the travel behind unit 1",
		},
		"a slit under layers": {
			860, 610, "up 1/2, left, up 1/2",
			[]string{"slit at s 100 mm"},
			nil,
			"slit at s 100 mm: behind unit 2 its line lies 100 mm from the left edge, and 2 layers there would be hit too, which the line does not cross",
		},
		"a strip into a flap": {
			640, 450, "up 157 mm, up 326 mm, left, up 1/2",
			[]string{"slit at s 320 mm strip 14 mm"},
			func(f *machine.Folder) { f.Units[1].Passable = false },
			"slit at s 320 mm strip 14 mm: behind unit 2 a cut of its strip would hit 2 layers more",
		},
		"the front trimmed": {
			860, 610, "up 1/2, left, up 1/2",
			[]string{"trim 3 mm at the front"},
			nil,
			"trim 3 mm at the front: its line runs across the travel behind unit 2",
		},
		"no head": {
			300, 210, "up 100 mm, down 90 mm",
			[]string{"trim 3 mm at the head"},
			nil,
			`trim 3 mm at the head: the folded piece has no pages to tell head from foot; give the cut as a line, such as "slit at t 3 mm one-up"`,
		},
		"wheels too near": {
			860, 610, "up 1/2",
			[]string{"perforate at t 100 mm", "score at t 112 mm with 0.7 mm"},
			nil,
			"station 1A of unit 1: score 0.7 mm at t 112 mm and perforate at t 100 mm are 12 mm apart and need 20 mm",
		},
		"a wheel off the shaft": {
			860, 610, "up 1/2",
			[]string{"perforate at t 8 mm", "perforate at t 600 mm"},
			func(f *machine.Folder) { f.Units[0].Stations[0].To = 590 * mm },
			"station 1A of unit 1: perforate at t 8 mm would stand 43 mm off the usable part of the shaft, 0 mm to 590 mm",
		},
		"no room for rings": {
			400, 100, "up 1/2",
			[]string{"perforate at t 20 mm", "perforate at t 50 mm", "perforate at t 80 mm"},
			func(f *machine.Folder) { f.Feeder.Width.Min = 50 * mm },
			"station 1A of unit 1 has no room for two drive rings at least 25 mm apart, on the paper and off tools, cuts and fold lines: only at 335 mm",
		},
		"no folds": {860, 610, "", nil, nil, "the scheme has no folds, so there is nothing for a folder to do"},
	} {
		t.Run(name, func(t *testing.T) {
			f := combination()
			if c.change != nil {
				c.change(f)
			}
			j, folded := docket(t, c.length*mm, c.width*mm, c.scheme, c.operations...)
			ways, miss := Ways(j, folded, f, house())
			if miss == nil {
				t.Fatalf("%d ways, first %v", len(ways), ways[0])
			}
			if miss.Why().String() != c.why || miss.Folder != "willow" || miss.Job != "docket" {
				t.Errorf("%s\n got %s\nwant %s", name, miss.Why(), c.why)
			}
			if best, again := Best(j, folded, f, house()); best != nil || again.Why().String() != c.why {
				t.Errorf("Best says otherwise: %v", again)
			}
		})
	}
}

// Two stations carry what one cannot, in a fixed way: as much as fits on the first.
func TestTwoStationsShareTools(t *testing.T) {
	j, folded := docket(t, 860*mm, 610*mm, "up 1/2", "perforate at t 100 mm", "score at t 112 mm with 0.7 mm", "slit at t 300 mm")
	f := combination()
	f.Units[0].Stations = append(f.Units[0].Stations, machine.Station{Name: "1B", Class: "wide 35", To: 760 * mm})
	ways, miss := Ways(j, folded, f, house())
	if miss != nil {
		t.Fatal(miss.Why())
	}
	stations := ways[0].Units[0].Stations
	if got := kinds(stations[0]) + " | " + kinds(stations[1]); got != "slit score | perforate" {
		t.Errorf("got %s", got)
	}
}

func kinds(s Station) string {
	text := ""
	for i, t := range s.Tools {
		if i > 0 {
			text += " "
		}
		text += string(t.Kind)
	}
	return text
}

// What a miss of one trouble asks for is enough: give the folder that, and the job runs.
func TestWhatTheMissAsksForIsEnough(t *testing.T) {
	mended := 0
	rapid.Check(t, func(t *rapid.T) {
		j, folded := randomJob(t, 3)
		f := randomFolder(t)
		tighten(t, f)
		e := &engine{walk: newWalk(j, folded, f), house: DefaultHouse()}
		e.sites = sites{lines: newLines(j, folded, e.house), house: e.house, folder: f}
		if _, miss := Ways(j, folded, f, e.house); miss == nil {
			return
		}
		told := e.miss().Why()
		if len(e.told) != 1 || !mend(f, e.told[0]) {
			return
		}
		mended++
		if _, miss := Ways(j, folded, f, e.house); miss != nil {
			t.Fatalf("%v: %s\nwas told %q, mended it, and is told %q", folded.Sheet, folded.Scheme, told, miss.Why())
		}
	})
	if mended == 0 {
		t.Error("no miss was mended: the folders of this test are too good")
	}
}

// tighten sets limits that many jobs miss.
func tighten(t *rapid.T, f *machine.Folder) {
	limit := func(what string) units.Length { return units.Length(rapid.IntRange(100, 900).Draw(t, what)) * mm }
	f.Feeder.Length.Max, f.Feeder.Width.Max = limit("feeder length")+300*mm, limit("feeder width")+300*mm
	for u := range f.Units {
		f.Units[u].WidthMax = limit("width") + 300*mm
		f.Units[u].ThicknessMax = units.Length(rapid.IntRange(2, 20).Draw(t, "layers")) * 100 * units.Micrometre
		f.Units[u].Stop.Max = limit("knife")
		for p := range f.Units[u].Plates {
			f.Units[u].Plates[p].Stop.Max = limit("plate")
		}
	}
}

// mend gives the folder what one trouble asks for; false when it asks for something that no figure mends.
func mend(f *machine.Folder, t trouble) bool {
	switch t.kind {
	case sheetLong:
		f.Feeder.Length.Max = t.need
	case sheetWide:
		f.Feeder.Width.Max = t.need
	case sheetShort:
		f.Feeder.Length.Min = t.need
	case sheetNarrow:
		f.Feeder.Width.Min = t.need
	case stackWide:
		f.Units[t.unit-1].WidthMax = t.need
	case stackThick:
		f.Units[t.unit-1].ThicknessMax = t.need
	case plateFar:
		f.Units[t.unit-1].Plates[t.plate-1].Stop.Max = t.need
	case plateNear:
		f.Units[t.unit-1].Plates[t.plate-1].Stop.Min = t.need
	case knifeFar:
		f.Units[t.unit-1].Stop.Max = t.need
	case knifeNear:
		f.Units[t.unit-1].Stop.Min = t.need
	case noPass:
		f.Units[t.unit-1].Passable = true
	default:
		return false
	}
	return true
}

// A shop that works in inches is answered in inches.
func TestMissInInches(t *testing.T) {
	f := combination()
	f.Units = f.Units[:1]
	f.Units[0].Plates = []machine.Plate{{Stop: machine.Range{Min: 3 * units.Inch, Max: 12 * units.Inch}}}
	j, folded := docket(t, 25*units.Inch, 20*units.Inch, "up 12 3/4 in")
	h := house()
	_, miss := Ways(j, folded, f, h)
	say := words.NewSpeaker(words.English, true)
	if want := "fed with edge s1 leading, front up: plate 1 of unit 1 reaches 12 in, fold 1 needs 12 1/4 in"; miss == nil || say.Text(miss.Why()) != want {
		t.Errorf("got %v, want %s", miss, want)
	}
}
