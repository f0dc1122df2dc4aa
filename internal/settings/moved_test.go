package settings

import (
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"foldwright/internal/machine"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// Worked by hand: a guide at 100 brought to 112.5 takes a slit at 400, a paper of 100 to 530 and the ring at 200 along; the
// ring at 490 would leave a shaft that is usable to 500.
func TestWithGuideTakesEverythingAlong(t *testing.T) {
	mm := units.Millimetre
	folder := &machine.Folder{Units: []machine.Unit{{}, {Stations: []machine.Station{{Name: "2A", From: 20 * mm, To: 500 * mm}}}}}
	station := func(slit, paperLo, paperHi float64, rings ...float64) []Station {
		st := Station{
			Name: "2A", Paper: tooling.Window{Lo: units.MM(paperLo), Hi: units.MM(paperHi)},
			Tools: []Tool{{Tool: tooling.Tool{Type: tooling.Type{Kind: tooling.Slit}, At: units.MM(slit)}, T: 300 * mm, For: nil}},
		}
		for _, at := range rings {
			st.DriveRings = append(st.DriveRings, units.MM(at))
		}
		return []Station{st}
	}
	before := &Settings{Units: []Unit{{Guide: Guide{At: 50 * mm}}, {Guide: Guide{At: 100 * mm}, Stations: station(400, 100, 530, 200, 490)}}}
	kept := &Settings{Units: []Unit{{Guide: Guide{At: 50 * mm}}, {Guide: Guide{At: 100 * mm}, Stations: station(400, 100, 530, 200, 490)}}}
	want := &Settings{Units: []Unit{{Guide: Guide{At: 50 * mm}}, {Guide: Guide{At: units.MM(112.5)}, Stations: station(412.5, 112.5, 542.5, 212.5)}}}

	if diff := gocmp.Diff(want, before.WithGuide(folder, 2, units.MM(112.5))); diff != "" {
		t.Errorf("moved (-want +got):\n%s", diff)
	}
	if diff := gocmp.Diff(kept, before); diff != "" {
		t.Errorf("the settings themselves changed:\n%s", diff)
	}
	if before.WithGuide(folder, 2, 100*mm) != before {
		t.Error("a guide that stays makes a copy")
	}
}
