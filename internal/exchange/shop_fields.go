package exchange

import (
	"math"
	"slices"
	"time"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/calendar"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// The records of the shop file, from the smallest to the whole. The order of the fields is the order in which they are
// written, and read.

var classFields = record[tooling.Class]{what: "a class", oneLine: true, fields: []field[tooling.Class]{
	need("name", "the name of the class", words, in(func(c *tooling.Class) *string { return &c.Name })),
	need("diameter", "the diameter of the shafts", length, in(func(c *tooling.Class) *units.Length { return &c.Diameter })),
	need("length", "the usable length of the shafts from the datum shoulder", length, in(func(c *tooling.Class) *units.Length { return &c.Length })),
}}

var toolFields = record[shop.ToolStock]{what: "a tool", oneLine: true, fields: []field[shop.ToolStock]{
	need("tool", "the tool, such as perforate 12 tpi", toolType, in(func(t *shop.ToolStock) *tooling.Type { return &t.Type })),
	need("class", "the class of shafts that it fits", naming(ledger.OfClass), in(func(t *shop.ToolStock) *string { return &t.Class })),
	need("left", "the room it takes from its line towards the datum shoulder", length, in(func(t *shop.ToolStock) *units.Length { return &t.Body.Left })),
	need("right", "the room it takes from its line away from the datum shoulder", length, in(func(t *shop.ToolStock) *units.Length { return &t.Body.Right })),
	may("loose", "how many lie loose, not on a set", count, 0, in(func(t *shop.ToolStock) *int { return &t.Loose })),
}}

var setFields = record[tooling.Set]{what: "a set", oneLine: true, fields: []field[tooling.Set]{
	need("label", "the label of the set", words, in(func(s *tooling.Set) *string { return &s.Label })),
	need("class", "the class of its shafts", naming(ledger.OfClass), in(func(s *tooling.Set) *string { return &s.Class })),
	many("tools", "the tools on it, in order from the datum shoulder; none: plain shafts", list(toolAt, true), func(s *tooling.Set) *[]tooling.Tool { return &s.Tools }),
	may("slot", "the slot of the rack where it stands", words, "", in(func(s *tooling.Set) *string { return &s.Place.Slot })),
	may("folder", "the folder in which it is mounted", naming(ledger.OfFolder), "", in(func(s *tooling.Set) *string { return &s.Place.Folder })),
	may("station", "the station in which it is mounted", words, "", in(func(s *tooling.Set) *string { return &s.Place.Station })),
	may("bench", "whether it lies on the bench", yes, false, in(func(s *tooling.Set) *bool { return &s.Place.Bench })),
	many("served", "the jobs that it served", oneOrMore(words), func(s *tooling.Set) *[]string { return &s.Served }),
	may("run_km", "the thousand metres that it ran", number, 0, in(func(s *tooling.Set) *float64 { return &s.MetresK })),
}}

var feederFields = record[machine.Feeder]{what: "a feeder", oneLine: true, fields: []field[machine.Feeder]{
	need("length", "the shortest and the longest sheet along the travel", reach, in(func(f *machine.Feeder) *machine.Range { return &f.Length })),
	need("width", "the narrowest and the widest sheet", reach, in(func(f *machine.Feeder) *machine.Range { return &f.Width })),
	need("grammage", "the least and the greatest grammage", grammages, access[machine.Feeder, [2]units.Grammage]{
		func(f *machine.Feeder) [2]units.Grammage { return [2]units.Grammage{f.MinGrammage, f.MaxGrammage} },
		func(f *machine.Feeder, v [2]units.Grammage) { f.MinGrammage, f.MaxGrammage = v[0], v[1] },
	}),
	need("rate", "the most sheets an hour that the feeder separates", count, in(func(f *machine.Feeder) *int { return &f.SheetsPerHourMax })),
}}

var guideFields = record[machine.Guide]{what: "a side guide", oneLine: true, fields: []field[machine.Guide]{
	need("side", "the side on which the guide stands, looking with the travel", side, in(func(g *machine.Guide) *machine.Side { return &g.Side })),
	need("range", "how far the guide goes, measured on the shaft from the datum shoulder", reach, in(func(g *machine.Guide) *machine.Range { return &g.Range })),
}}

var stationFields = record[machine.Station]{what: "a station", oneLine: true, fields: []field[machine.Station]{
	need("name", "the name of the station, such as 1A; once on a folder", words, in(func(s *machine.Station) *string { return &s.Name })),
	need("class", "the class of the sets that it takes", naming(ledger.OfClass), in(func(s *machine.Station) *string { return &s.Class })),
	need("shaft", "the usable part of the shaft from the datum shoulder", reach, access[machine.Station, machine.Range]{
		func(s *machine.Station) machine.Range { return machine.Range{Min: s.From, Max: s.To} },
		func(s *machine.Station, v machine.Range) { s.From, s.To = v.Min, v.Max },
	}),
	may("access", "the minutes to open and close the way to the shafts", minutes, 0, accessTime),
	may("exit_shaft", "whether the exit shaft must come out and go back in", yes, false, in(func(s *machine.Station) *bool { return &s.ExitShaft })),
}}

var accessTime = access[machine.Station, time.Duration]{
	func(s *machine.Station) time.Duration {
		return time.Duration(math.Round(s.AccessMin * float64(time.Minute)))
	},
	func(s *machine.Station, v time.Duration) { s.AccessMin = v.Minutes() },
}

var plate = shape[machine.Plate]{
	Value: reach.Value, told: reach.told,
	read: func(s spot) (machine.Plate, bool) {
		r, ok := reach.read(s)
		return machine.Plate{Stop: r}, ok
	},
	write: func(w *writing, p machine.Plate) *yaml.Node { return reach.write(w, p.Stop) },
}

var unitFields = record[machine.Unit]{what: "a unit", fields: []field[machine.Unit]{
	need("kind", "buckle or knife", unitKind, in(func(u *machine.Unit) *machine.UnitKind { return &u.Kind })),
	entries(),
	many("plates", "the plates from the infeed, each with its shortest and longest stop", list(plate, true), func(u *machine.Unit) *[]machine.Plate { return &u.Plates }),
	may("first_plate", "where plate 1 lies; above: odd plates fold up", firstPlate, false, in(func(u *machine.Unit) *bool { return &u.FirstBelow })),
	may("stop", "the shortest and the longest stop of the knife", reach, machine.Range{}, in(func(u *machine.Unit) *machine.Range { return &u.Stop })),
	may("strokes", "the most strokes of the knife an hour", count, 0, in(func(u *machine.Unit) *int { return &u.StrokesMax })),
	need("speed", "the speed of the rollers", speed, in(func(u *machine.Unit) *units.Speed { return &u.Speed })),
	need("gap", "the gap between the tail of one stack and the head of the next", length, in(func(u *machine.Unit) *units.Length { return &u.Gap })),
	may("width", "the widest stack that enters; without it the feeder's limit", length, 0, in(func(u *machine.Unit) *units.Length { return &u.WidthMax })),
	may("thickness", "the thickest stack at any nip", thickness, 0, in(func(u *machine.Unit) *units.Length { return &u.ThicknessMax })),
	may("passable", "whether a stack can pass unfolded to a later unit", yes, false, in(func(u *machine.Unit) *bool { return &u.Passable })),
	need("operator", "the side on which the operator stands, hence the datum shoulder", side, in(func(u *machine.Unit) *machine.Side { return &u.Operator })),
	neededGroup("guide", "the side guide", guideFields, func(u *machine.Unit) *machine.Guide { return &u.Guide }),
	many("stations", "the shaft stations behind the last nip, in order of travel", list(stationFields.shape(), false), func(u *machine.Unit) *[]machine.Station { return &u.Stations }),
}}

// entries is how a stack comes into a unit; straight unless the file says otherwise.
func entries() field[machine.Unit] {
	place := func(u *machine.Unit) *[]machine.Entry { return &u.Enters }
	f := many("enters", "how the stack can come in: straight, or with its left or right edge leading; the usual way first", oneOrMore(entry), place)
	f.usual = "straight"
	f.absent = func(u *machine.Unit) { u.Enters = []machine.Entry{machine.Straight} }
	f.write = func(w *writing, u *machine.Unit) *yaml.Node {
		if len(u.Enters) == 1 && u.Enters[0] == machine.Straight {
			return nil
		}
		return oneOrMore(entry).write(w, u.Enters)
	}
	return f
}

var folderFields = record[machine.Folder]{what: "a folder", fields: []field[machine.Folder]{
	need("name", "the name of the folder", words, in(func(f *machine.Folder) *string { return &f.Name })),
	may("model", "the model, as on its plate", words, "", in(func(f *machine.Folder) *string { return &f.Model })),
	may("serial", "the serial number, as on its plate", words, "", in(func(f *machine.Folder) *string { return &f.Serial })),
	need("calendar", "the calendar by which it works", naming(ledger.OfCalendar), in(func(f *machine.Folder) *string { return &f.Calendar })),
	neededGroup("feeder", "what the feeder takes", feederFields, func(f *machine.Folder) *machine.Feeder { return &f.Feeder }),
	many("units", "the folding units in order of travel", list(unitFields.shape(), false), func(f *machine.Folder) *[]machine.Unit { return &f.Units }),
}}

var stateFields = record[shop.State]{what: "a present state", fields: []field[shop.State]{
	need("folder", "the folder", naming(ledger.OfFolder), in(func(s *shop.State) *string { return &s.Folder })),
	may("job", "the job for which it is set now; without it everything is set anew", naming(ledger.OfJob), "", in(func(s *shop.State) *string { return &s.Job })),
	many("guides", "where the side guide of each unit stands, from the datum shoulder", guidePlaces, func(s *shop.State) *[]shop.Guide { return &s.Guides }),
	many("down", "when it cannot work, whatever its calendar says: a repair, a service", oneOrMore(absence), func(s *shop.State) *[]calendar.Window { return &s.Down }),
}}

var personFields = record[shop.Person]{what: "a person at the bench", oneLine: true, fields: []field[shop.Person]{
	need("name", "a name or a role", words, in(func(p *shop.Person) *string { return &p.Name })),
	need("calendar", "the calendar of the bench work", naming(ledger.OfCalendar), in(func(p *shop.Person) *string { return &p.Calendar })),
	many("away", "when the person is not there, whatever the calendar says", oneOrMore(absence), func(p *shop.Person) *[]calendar.Window { return &p.Away }),
}}

var stockFields = record[paper.Stock]{what: "a stock", oneLine: true, fields: []field[paper.Stock]{
	need("name", "the name of the stock", words, in(func(s *paper.Stock) *string { return &s.Name })),
	need("grammage", "the grammage", grammage, in(func(s *paper.Stock) *units.Grammage { return &s.Grammage })),
	may("finish", "how the surface was made", finish, paper.Uncoated, in(func(s *paper.Stock) *paper.Finish { return &s.Finish })),
	may("caliper", "the measured thickness of one sheet", thickness, 0, in(func(s *paper.Stock) *units.Length { return &s.Measured })),
	may("volume", "the specific volume in cm³/g, when no caliper was measured", number, 0, in(func(s *paper.Stock) *float64 { return &s.Volume })),
}}

var calendarFields = record[calendar.Calendar]{what: "a calendar", fields: []field[calendar.Calendar]{
	need("name", "the name of the calendar", words, in(func(c *calendar.Calendar) *string { return &c.Name })),
	mayZone(),
	week(),
	exceptions(),
}}

var trimFields = record[fold.Trims]{what: "trims", oneLine: true, fields: []field[fold.Trims]{
	may("head", "what is trimmed off the head", length, 0, in(func(t *fold.Trims) *units.Length { return &t.Head })),
	may("foot", "what is trimmed off the foot", length, 0, in(func(t *fold.Trims) *units.Length { return &t.Foot })),
	may("front", "what is trimmed off the front edge", length, 0, in(func(t *fold.Trims) *units.Length { return &t.Front })),
}}

var weightFields = record[shop.Weights]{what: "weights", oneLine: true, fields: []field[shop.Weights]{
	always("late", "what a minute of lateness costs, times the weight of the job", number, shop.DefaultWeights().Late, in(func(w *shop.Weights) *float64 { return &w.Late })),
	always("makeready", "what a minute of make-ready costs", number, shop.DefaultWeights().Makeready, in(func(w *shop.Weights) *float64 { return &w.Makeready })),
	always("waiting", "what a minute costs in which a folder waits", number, shop.DefaultWeights().Waiting, in(func(w *shop.Weights) *float64 { return &w.Waiting })),
	always("bench", "what a minute of bench work costs", number, shop.DefaultWeights().Bench, in(func(w *shop.Weights) *float64 { return &w.Bench })),
}}

var shopFields = record[shop.Shop]{what: "a shop file", fields: slices.Concat(headFields.fields, []field[shop.Shop]{
	many("calendars", "the working times", list(calendarFields.shape(), false), func(s *shop.Shop) *[]calendar.Calendar { return &s.Calendars }),
	many("classes", "the shaft classes", list(classFields.shape(), false), func(s *shop.Shop) *[]tooling.Class { return &s.Classes }),
	many("tools", "the tools with the room they take, and the loose ones", list(toolFields.shape(), false), func(s *shop.Shop) *[]shop.ToolStock { return &s.Tools }),
	many("sets", "the shaft sets", list(setFields.shape(), false), func(s *shop.Shop) *[]tooling.Set { return &s.Sets }),
	many("folders", "the folders", list(folderFields.shape(), false), func(s *shop.Shop) *[]machine.Folder { return &s.Folders }),
	many("present", "what each folder is set for now", list(stateFields.shape(), false), func(s *shop.Shop) *[]shop.State { return &s.States }),
	many("bench", "the people at the bench", list(personFields.shape(), false), func(s *shop.Shop) *[]shop.Person { return &s.Bench }),
	stocks(),
	many("jobs", "the jobs, in the order given", list(jobShape, false), func(s *shop.Shop) *[]job.Job { return &s.Jobs }),
	many("done", "finished jobs for which a folder still stands", list(jobShape, false), func(s *shop.Shop) *[]job.Job { return &s.Done }),
	standards(),
	group("weights", "what a plan's minutes cost", weightFields, func(s *shop.Shop) *shop.Weights { return &s.Weights }),
	group("house", "what the shop has decided for itself", houseFields, func(s *shop.Shop) *shop.House { return &s.House }),
})}
