package settings_test

import (
	"fmt"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/settings"
	"foldwright/internal/units"
)

// A leaflet folded once and again across, on a folder of one buckle unit and a knife.
func Example() {
	const mm = units.Millimetre
	scheme, _ := fold.Parse("up 1/2, left, up 1/2")
	leaflet := &job.Job{
		Name: "leaflet", Sheet: fold.Sheet{Length: 420 * mm, Width: 297 * mm}, Scheme: scheme, Sheets: 5000,
		Stock: paper.Stock{Grammage: 90 * units.GramPerM2, Measured: 110 * units.Micrometre},
	}
	aspen := &machine.Folder{
		Name:   "aspen",
		Feeder: machine.Feeder{Length: machine.Range{Min: 150 * mm, Max: 760 * mm}, Width: machine.Range{Min: 100 * mm, Max: 520 * mm}, SheetsPerHourMax: 20000},
		Units: []machine.Unit{
			{Kind: machine.Buckle, Plates: []machine.Plate{{Stop: machine.Range{Min: 60 * mm, Max: 200 * mm}}}, Speed: 120 * units.MetrePerMin, Gap: 60 * mm},
			{Kind: machine.Knife, Enters: []machine.Entry{machine.TurnLeft}, Stop: machine.Range{Min: 50 * mm, Max: 300 * mm}, Speed: 90 * units.MetrePerMin, Gap: 90 * mm, StrokesMax: 8000},
		},
	}
	folded, err := scheme.Apply(leaflet.Sheet)
	if err != nil {
		fmt.Println(err)
		return
	}
	if _, miss := settings.Ways(leaflet, folded, aspen, settings.DefaultHouse()); miss != nil {
		fmt.Println("no:", miss.Why())
	}
	aspen.Units[0].Plates[0].Stop.Max = 300 * mm
	ways, _ := settings.Ways(leaflet, folded, aspen, settings.DefaultHouse())
	best := ways[0]
	fmt.Printf("edge %s leads, %s up; plate 1 at %s, knife at %s; %d sheets an hour, by the %s\n", best.Feed.Leading, best.Feed.FaceUp,
		best.Units[0].Plates[0].Stop.Format(false), best.Units[1].Knife.Stop.Format(false), best.SheetsPerHour, best.RateLimit)
	// Output:
	// no: plate 1 of unit 1 reaches 200 mm, fold 1 needs 210 mm
	// edge s0 leads, front up; plate 1 at 210 mm, knife at 148.5 mm; 8000 sheets an hour, by the knife of unit 2
}
