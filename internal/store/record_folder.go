package store

import (
	"foldwright/internal/machine"
	"foldwright/internal/units"
)

type folderRecord struct {
	Name     string       `json:"name"`
	Model    string       `json:"model"`
	Serial   string       `json:"serial"`
	Calendar string       `json:"calendar"`
	Feeder   feederRecord `json:"feeder"`
	Units    []unitRecord `json:"units,omitempty"`
}

type rangeRecord struct {
	Min units.Length `json:"min_nm"`
	Max units.Length `json:"max_nm"`
}

type feederRecord struct {
	Length   rangeRecord    `json:"length"`
	Width    rangeRecord    `json:"width"`
	Lightest units.Grammage `json:"min_mg_m2"`
	Heaviest units.Grammage `json:"max_mg_m2"`
	Rate     int            `json:"sheets_h"`
}

func folderOf(f machine.Folder) folderRecord {
	return folderRecord{f.Name, f.Model, f.Serial, f.Calendar, feederOf(f.Feeder), each(f.Units, unitOf)}
}

func (r folderRecord) value() machine.Folder {
	return machine.Folder{Name: r.Name, Model: r.Model, Serial: r.Serial, Calendar: r.Calendar, Feeder: r.Feeder.value(), Units: each(r.Units, unitRecord.value)}
}

func feederOf(f machine.Feeder) feederRecord {
	return feederRecord{rangeRecord(f.Length), rangeRecord(f.Width), f.MinGrammage, f.MaxGrammage, f.SheetsPerHourMax}
}

func (r feederRecord) value() machine.Feeder {
	return machine.Feeder{
		Length: machine.Range(r.Length), Width: machine.Range(r.Width),
		MinGrammage: r.Lightest, MaxGrammage: r.Heaviest, SheetsPerHourMax: r.Rate,
	}
}

type unitRecord struct {
	Kind         machine.UnitKind `json:"kind"`
	Enters       []machine.Entry  `json:"enters,omitempty"`
	Plates       []plateRecord    `json:"plates,omitempty"`
	FirstBelow   bool             `json:"first_below"`
	Stop         rangeRecord      `json:"stop"`
	StrokesMax   int              `json:"strokes_h"`
	Speed        units.Speed      `json:"speed_nm_min"`
	Gap          units.Length     `json:"gap_nm"`
	WidthMax     units.Length     `json:"width_max_nm"`
	ThicknessMax units.Length     `json:"thickness_max_nm"`
	Passable     bool             `json:"passable"`
	Operator     machine.Side     `json:"operator"`
	GuideSide    machine.Side     `json:"guide_side"`
	GuideRange   rangeRecord      `json:"guide"`
	Stations     []stationRecord  `json:"stations,omitempty"`
}

type plateRecord struct {
	Stop rangeRecord `json:"stop"`
}

type stationRecord struct {
	Name      string       `json:"name"`
	Class     string       `json:"class"`
	From      units.Length `json:"from_nm"`
	To        units.Length `json:"to_nm"`
	AccessMin float64      `json:"access_min"`
	ExitShaft bool         `json:"exit_shaft"`
}

func unitOf(u machine.Unit) unitRecord {
	return unitRecord{
		u.Kind, u.Enters, each(u.Plates, func(p machine.Plate) plateRecord { return plateRecord{rangeRecord(p.Stop)} }),
		u.FirstBelow, rangeRecord(u.Stop), u.StrokesMax, u.Speed, u.Gap, u.WidthMax, u.ThicknessMax, u.Passable, u.Operator,
		u.Guide.Side, rangeRecord(u.Guide.Range), each(u.Stations, func(s machine.Station) stationRecord { return stationRecord(s) }),
	}
}

func (r unitRecord) value() machine.Unit {
	return machine.Unit{
		Kind: r.Kind, Enters: r.Enters,
		Plates:     each(r.Plates, func(p plateRecord) machine.Plate { return machine.Plate{Stop: machine.Range(p.Stop)} }),
		FirstBelow: r.FirstBelow, Stop: machine.Range(r.Stop), StrokesMax: r.StrokesMax,
		Speed: r.Speed, Gap: r.Gap, WidthMax: r.WidthMax, ThicknessMax: r.ThicknessMax, Passable: r.Passable, Operator: r.Operator,
		Guide:    machine.Guide{Side: r.GuideSide, Range: machine.Range(r.GuideRange)},
		Stations: each(r.Stations, func(s stationRecord) machine.Station { return machine.Station(s) }),
	}
}
