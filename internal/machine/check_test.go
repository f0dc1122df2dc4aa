package machine

import (
	"math"
	"strings"
	"testing"

	"foldwright/internal/units"
)

// goodFolder is an invented folder of two buckle units and a knife.
func goodFolder() *Folder {
	mm := units.Millimetre
	plates := func(n int) []Plate {
		list := make([]Plate, n)
		for i := range list {
			list[i].Stop = Range{70 * mm, 520 * mm}
		}
		return list
	}
	unit := Unit{
		Kind: Buckle, Plates: plates(4), Speed: 150 * units.MetrePerMin, Gap: 60 * mm, Operator: RightSide,
		Guide: Guide{RightSide, Range{20 * mm, 740 * mm}},
		Stations: []Station{
			{Name: "1A", Class: "wide 35", To: 760 * mm, AccessMin: 3, ExitShaft: true},
			{Name: "1B", Class: "wide 35", To: 760 * mm, AccessMin: 2},
		},
	}
	second := unit
	second.Enters, second.Plates = []Entry{TurnLeft}, plates(2)
	second.Stations = []Station{{Name: "2A", Class: "short 35", To: 520 * mm, AccessMin: 2}}
	knife := unit
	knife.Kind, knife.Plates, knife.Stations = Knife, nil, nil
	knife.Enters, knife.Stop, knife.StrokesMax = []Entry{TurnLeft, TurnRight}, Range{60 * mm, 330 * mm}, 9000
	return &Folder{
		Name: "rowan",
		Feeder: Feeder{
			Length: Range{180 * mm, 1020 * mm}, Width: Range{150 * mm, 720 * mm},
			MinGrammage: 40 * units.GramPerM2, MaxGrammage: 250 * units.GramPerM2, SheetsPerHourMax: 16_000,
		},
		Units: []Unit{unit, second, knife},
	}
}

func TestGoodFolderHasNoFaults(t *testing.T) {
	if list := goodFolder().Check(); len(list) > 0 {
		t.Fatal(list)
	}
	first := goodFolder()
	first.Units[0].Enters = []Entry{Straight}
	if list := first.Check(); len(list) > 0 {
		t.Fatal(list)
	}
}

func TestCheck(t *testing.T) {
	mm := units.Millimetre
	for _, c := range []struct {
		name  string
		spoil func(*Folder)
		want  string
	}{
		{"no name", func(f *Folder) { f.Name = "" }, "name: a folder without a name; write a short name [folder]"},
		{"no units", func(f *Folder) { f.Units = nil }, "units: a folder without units; list at least one buckle or knife unit [folder]"},
		{
			"feeder length", func(f *Folder) { f.Feeder.Length.Min = 0 },
			"feeder.length: the feeder's sheet length goes from 0 to 1020 mm; start above 0 [range]",
		},
		{
			"feeder width", func(f *Folder) { f.Feeder.Width = Range{720 * mm, 150 * mm} },
			"feeder.width: the feeder's sheet width goes from 720 to 150 mm: the least is greater than the greatest; write 150 to 720 mm, if that is meant [range]",
		},
		{
			"feeder too long", func(f *Folder) { f.Feeder.Length.Max = 20 * units.Metre },
			"feeder.length: the feeder's sheet length goes from 180 to 20000 mm; at most 10000 mm [range]",
		},
		{
			"grammage", func(f *Folder) { f.Feeder.MinGrammage = 300 * units.GramPerM2 },
			"feeder.grammage: the feeder's grammage goes from 300 g/m² to 250 g/m²; more than 0, the lesser first, at most 2000 g/m² [range]",
		},
		{"feeder rate", func(f *Folder) { f.Feeder.SheetsPerHourMax = 0 }, "feeder.rate: 0 sheets an hour; 1 to 200000 [range]"},
		{
			"plate", func(f *Folder) { f.Units[1].Plates[0].Stop = Range{400 * mm, 70 * mm} },
			"units[1].plates[0]: the stop of plate 1 of unit 2 goes from 400 to 70 mm: the least is greater than the greatest; write 70 to 400 mm, if that is meant [range]",
		},
		{
			"no plates", func(f *Folder) { f.Units[0].Plates = nil },
			"units[0].plates: unit 1 is a buckle unit without plates; list the range of each plate's stop [unit]",
		},
		{
			"buckle with strokes", func(f *Folder) { f.Units[0].StrokesMax = 9 },
			"units[0]: unit 1 is a buckle unit with a knife's stop or strokes; leave them out, or write kind: knife [unit]",
		},
		{
			"knife with plates", func(f *Folder) { f.Units[2].Plates = f.Units[1].Plates },
			"units[2].plates: unit 3 is a knife unit with 2 plates; leave them out, or write kind: buckle [unit]",
		},
		{
			"knife stop", func(f *Folder) { f.Units[2].Stop = Range{} },
			"units[2].stop: the stop of unit 3 goes from 0 to 0 mm; start above 0 [range]",
		},
		{"knife strokes", func(f *Folder) { f.Units[2].StrokesMax = -1 }, "units[2].strokes: -1 strokes an hour; 1 to 200000 [range]"},
		{"kind", func(f *Folder) { f.Units[0].Kind = "drum" }, `units[0].kind: unit 1 is of kind "drum"; write buckle or knife [unit]`},
		{
			"first unit turned", func(f *Folder) { f.Units[0].Enters = []Entry{TurnLeft} },
			"units[0].enters: unit 1 is entered by a turn; the sheet enters the first unit straight: leave it out [unit]",
		},
		{
			"no entry", func(f *Folder) { f.Units[1].Enters = nil },
			"units[1].enters: unit 2 does not say how the stack comes in; list one or more of straight, left, right [unit]",
		},
		{
			"odd entry", func(f *Folder) { f.Units[1].Enters = []Entry{"back"} },
			`units[1].enters[0]: unit 2 is entered "back"; write straight, left or right [unit]`,
		},
		{
			"entry twice", func(f *Folder) { f.Units[1].Enters = []Entry{TurnLeft, TurnLeft} },
			"units[1].enters[1]: unit 2 lists left twice; write each way once [unit]",
		},
		{"speed", func(f *Folder) { f.Units[0].Speed = 0 }, "units[0].speed: unit 1 runs at 0 m/min; more than 0, at most 1000 m/min [range]"},
		{"gap", func(f *Folder) { f.Units[0].Gap = -mm }, "units[0].gap: the gap between sheets of unit 1 is -1 mm; 0 to 10000 mm [range]"},
		{
			"operator", func(f *Folder) { f.Units[0].Operator = "" },
			`units[0].operator: the operator of unit 1 is on side ""; write left or right, looking with the travel [unit]`,
		},
		{
			"guide side", func(f *Folder) { f.Units[0].Guide.Side = "middle" },
			`units[0].guide.side: the side guide of unit 1 is on side "middle"; write left or right, looking with the travel [unit]`,
		},
		{
			"guide range", func(f *Folder) { f.Units[0].Guide.Range.Min = -5 * mm },
			"units[0].guide.range: the side guide of unit 1 goes from -5 to 740 mm; places are measured from the datum shoulder, 0 or more [range]",
		},
		{
			"station without name", func(f *Folder) { f.Units[0].Stations[0].Name = "" },
			"units[0].stations[0].name: a station without a name; write a short name, unique on the folder, such as 1A [station]",
		},
		{
			"two stations of a name", func(f *Folder) { f.Units[1].Stations[0].Name = "1A" },
			"units[1].stations[0].name: a second station 1A on this folder; give each station its own name [station]",
		},
		{
			"station without class", func(f *Folder) { f.Units[0].Stations[0].Class = "" },
			"units[0].stations[0].class: station 1A does not say which sets it takes; name a shaft class [station]",
		},
		{
			"no shaft", func(f *Folder) { f.Units[0].Stations[0].To = 0 },
			"units[0].stations[0].shaft: station 1A has no usable shaft; write from where to where tools can stand, such as 0 to 760 [station]",
		},
		{
			"access", func(f *Folder) { f.Units[0].Stations[0].AccessMin = math.NaN() },
			"units[0].stations[0].access: the way to the shafts of station 1A takes NaN minutes; 0 to 240 minutes [station]",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := goodFolder()
			c.spoil(f)
			if got := f.Check().Error(); got != c.want {
				t.Fatalf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}

// Checking goes on after the first fault and keeps to the order of the folder.
func TestCheckListsEveryFault(t *testing.T) {
	f := goodFolder()
	f.Name, f.Feeder.SheetsPerHourMax, f.Units[0].Speed, f.Units[2].StrokesMax = "", 0, 0, 0
	list := f.Check()
	var fields []string
	for _, x := range list {
		fields = append(fields, x.Field)
	}
	if got := strings.Join(fields, " "); got != "name feeder.rate units[0].speed units[2].strokes" {
		t.Fatal(got)
	}
}
