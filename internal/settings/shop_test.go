package settings

import (
	"testing"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

const mm = units.Millimetre

func span(lo, hi units.Length) machine.Range { return machine.Range{Min: lo * mm, Max: hi * mm} }

func plates(ranges ...machine.Range) []machine.Plate {
	var list []machine.Plate
	for _, r := range ranges {
		list = append(list, machine.Plate{Stop: r})
	}
	return list
}

// combination is an invented folder: two buckle units and a knife, the second unit entered by a left turn, the knife by
// either.
func combination() *machine.Folder {
	return &machine.Folder{
		Name:   "willow",
		Feeder: machine.Feeder{Length: span(180, 1020), Width: span(150, 720), MinGrammage: 40 * units.GramPerM2, MaxGrammage: 250 * units.GramPerM2, SheetsPerHourMax: 16000},
		Units: []machine.Unit{
			{
				Kind: machine.Buckle, Enters: []machine.Entry{machine.Straight},
				Plates: plates(span(80, 520), span(70, 430), span(80, 520), span(70, 430)),
				Speed:  150 * units.MetrePerMin, Gap: 60 * mm, ThicknessMax: 2 * mm,
				Operator: machine.RightSide, Guide: machine.Guide{Side: machine.RightSide, Range: span(20, 740)},
				Stations: []machine.Station{{Name: "1A", Class: "wide 35", To: 760 * mm, AccessMin: 3, ExitShaft: true}},
			},
			{
				Kind: machine.Buckle, Enters: []machine.Entry{machine.TurnLeft},
				Plates: plates(span(70, 400), span(70, 330)),
				Speed:  130 * units.MetrePerMin, Gap: 80 * mm, WidthMax: 520 * mm, ThicknessMax: 2 * mm, Passable: true,
				Operator: machine.RightSide, Guide: machine.Guide{Side: machine.RightSide, Range: span(20, 500)},
				Stations: []machine.Station{{Name: "2A", Class: "short 35", To: 520 * mm, AccessMin: 2}},
			},
			{
				Kind: machine.Knife, Enters: []machine.Entry{machine.TurnLeft, machine.TurnRight}, Stop: span(60, 330), StrokesMax: 9000,
				Speed: 110 * units.MetrePerMin, Gap: 100 * mm, WidthMax: 400 * mm, ThicknessMax: 3 * mm,
				Operator: machine.RightSide, Guide: machine.Guide{Side: machine.RightSide, Range: span(20, 400)},
			},
		},
	}
}

// hubs gives every tool the same modest body.
func hubs(string, tooling.Type) tooling.Body { return tooling.Body{Left: 9 * mm, Right: 11 * mm} }

func house() *House {
	h := DefaultHouse()
	h.Body = hubs
	return h
}

// docket makes a job; the stock is 80 g/m² at 100 µm.
func docket(tb testing.TB, length, width units.Length, scheme string, operations ...string) (*job.Job, *fold.Folded) {
	tb.Helper()
	s, err := fold.Parse(scheme)
	if err != nil {
		s, err = fold.Catalogue(scheme)
	}
	if err != nil {
		tb.Fatal(err)
	}
	j := &job.Job{
		Name: "docket", Sheet: fold.Sheet{Length: length, Width: width}, Scheme: s, Sheets: 1000,
		Stock: paper.Stock{Grammage: 80 * units.GramPerM2, Measured: 100 * units.Micrometre},
	}
	for _, text := range operations {
		op, err := job.ParseOperation(text, mm)
		if err != nil {
			tb.Fatal(err)
		}
		j.Operations = append(j.Operations, op)
	}
	if list := j.Check(); len(list) > 0 {
		tb.Fatal(list)
	}
	folded, err := s.Apply(j.Sheet)
	if err != nil {
		tb.Fatal(err)
	}
	return j, folded
}
