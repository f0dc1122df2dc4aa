package exchange

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/settings"
	"foldwright/internal/units"
	speech "foldwright/internal/words"

	"github.com/google/go-cmp/cmp"
)

// hazel is an invented folder: one buckle unit with a station, a second that may be left out, and a knife.
func hazel() *machine.Folder {
	const mm = units.Millimetre
	span := func(lo, hi units.Length) machine.Range { return machine.Range{Min: lo * mm, Max: hi * mm} }
	return &machine.Folder{
		Name:   "hazel",
		Feeder: machine.Feeder{Length: span(180, 1020), Width: span(150, 720), MaxGrammage: 250 * units.GramPerM2, SheetsPerHourMax: 16000},
		Units: []machine.Unit{
			{
				Kind: machine.Buckle, Plates: []machine.Plate{{Stop: span(80, 520)}, {Stop: span(70, 430)}}, Speed: 150 * units.MetrePerMin, Gap: 60 * mm,
				Operator: machine.RightSide, Guide: machine.Guide{Side: machine.RightSide, Range: span(20, 740)},
				Stations: []machine.Station{{Name: "1A", Class: "wide 35", To: 760 * mm}},
			},
			{
				Kind: machine.Knife, Enters: []machine.Entry{machine.TurnLeft}, Stop: span(60, 330), StrokesMax: 9000, Speed: 110 * units.MetrePerMin, Gap: 100 * mm,
				Operator: machine.RightSide, Guide: machine.Guide{Side: machine.RightSide, Range: span(20, 600)},
			},
			{Kind: machine.Knife, Enters: []machine.Entry{machine.TurnLeft}, Stop: span(60, 330), StrokesMax: 9000, Speed: 110 * units.MetrePerMin, Gap: 100 * mm},
		},
	}
}

func hazelSettings(t *testing.T) FolderSettings {
	t.Helper()
	const mm = units.Millimetre
	scheme, err := fold.Parse("up 1/2, left, up 1/3")
	if err != nil {
		t.Fatal(err)
	}
	op, err := job.ParseOperation("perforate fold 2 with 12 tpi", mm)
	if err != nil {
		t.Fatal(err)
	}
	j := &job.Job{
		Name: "17", Sheet: fold.Sheet{Length: 860 * mm, Width: 610 * mm}, Scheme: scheme, Sheets: 9000, Operations: []job.Operation{op},
		Stock: paper.Stock{Grammage: 80 * units.GramPerM2},
	}
	folded, err := scheme.Apply(j.Sheet)
	if err != nil {
		t.Fatal(err)
	}
	best, miss := settings.Best(j, folded, hazel(), settings.DefaultHouse())
	if miss != nil {
		t.Fatal(miss.Why())
	}
	return FolderSettings{
		Job: "17", Folder: "hazel", Settings: best, Makeready: 11*time.Minute + 30*time.Second, Run: time.Hour,
		Lines: []changeover.Line{{What: speech.T("plates"), Why: speech.T("1 stop moved"), Time: 90 * time.Second}, {What: speech.T("tooling 1A"), Time: 10 * time.Minute}},
		Stations: []StationTooling{{
			Station: "1A", Mode: changeover.Swap, Set: "W-7",
			Serves:  []SetShift{{"W-7", -12 * mm}, {"W-9", 3 * mm / 2}},
			Nearest: &SetWork{"W-3", 6 * time.Minute},
		}},
	}
}

func TestSettingsJSON(t *testing.T) {
	text, err := json.MarshalIndent(SettingsList([]FolderSettings{
		hazelSettings(t),
		{Job: "17", Folder: "elm", Miss: &settings.Miss{Job: "17", Folder: "elm", Whys: speech.Series{speech.Plain("plate 2 of unit 1 reaches 310 mm, fold 2 needs 322 mm")}}},
	}), "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	const file = "testdata/settings.golden.json"
	if *update {
		if err := os.WriteFile(file, append(text, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.TrimSpace(string(want)), string(text)); diff != "" {
		t.Error(diff)
	}
}

// The keys that are relied on from outside, typed from the page that promises them, are all there with the right kind of
// value.
func TestSettingsJSONKeepsItsPromises(t *testing.T) {
	text, err := json.Marshal(Settings(hazelSettings(t)))
	if err != nil {
		t.Fatal(err)
	}
	var got any
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]any{
		"job": "17", "folder": "hazel", "feed.leading_edge": "s0", "feed.face_up": "front", "rate_per_h": 9000.0, "makeready_min": 11.5,
		"units.0.unit": 1.0, "units.0.kind": "buckle", "units.0.engaged": true, "units.0.enters": "straight", "units.1.enters": "left",
		"units.0.guide.side": "right", "units.0.guide.at_mm": 75.0,
		"units.0.plates.0.plate": 1.0, "units.0.plates.0.stop_mm": 430.0, "units.0.plates.1.closed": true,
		"units.0.nips.0.nip": 1.0, "units.0.nips.0.layers": 1.0, "units.0.nips.0.thickness_um": 106.4,
		"units.0.stations.0.station": "1A", "units.0.stations.0.tools.0.kind": "perforate", "units.0.stations.0.tools.0.spec": "12 tpi",
		"units.0.stations.0.tools.0.at_mm": 481.666667, "units.0.stations.0.tools.0.t_mm": 203.333333, "units.0.stations.0.tools.0.for": "fold 2",
		"units.0.stations.0.drive_rings_mm.0": 227.5,
		"units.0.stations.0.serves.0.set":     "W-7", "units.0.stations.0.serves.0.shift_mm": -12.0,
		"units.0.stations.0.nearest.set": "W-3", "units.0.stations.0.nearest.min": 6.0,
		"units.2.engaged": false, "lines.0.what": "plates", "lines.0.min": 1.5,
		"notes.0.source": "common practice", "cautions.7": settings.Cautions()[7],
	} {
		if value := at(got, strings.Split(path, ".")); value != want {
			t.Errorf("%s is %v, want %v", path, value, want)
		}
	}
}

// at follows a path through what JSON decodes to; nil where it ends.
func at(value any, path []string) any {
	for _, step := range path {
		switch v := value.(type) {
		case map[string]any:
			value = v[step]
		case []any:
			i := int(step[0] - '0')
			if i >= len(v) {
				return nil
			}
			value = v[i]
		default:
			return nil
		}
	}
	return value
}
