package exchange

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

func TestRackShape(t *testing.T) {
	mm := units.Millimetre
	got, err := json.Marshal(Rack([]tooling.Set{
		{
			Label: "W-04", Class: "wide 35", Place: tooling.Place{Slot: "A1"}, Served: []string{"2099"}, MetresK: 640,
			Tools: []tooling.Tool{{Type: tooling.Type{Kind: tooling.Perforate, Spec: "12 tpi"}, At: 410 * mm}, {Type: tooling.Type{Kind: tooling.Slit}, At: 500*mm + mm/4}},
		},
		{Label: "N-01", Class: "narrow 35", Place: tooling.Place{Folder: "alder", Station: "2A"}},
		{Label: "N-02", Class: "narrow 35", Place: tooling.Place{Bench: true}},
	}))
	if err != nil {
		t.Fatal(err)
	}
	want := `{"sets":[` +
		`{"set":"W-04","class":"wide 35","place":{"slot":"A1"},"tools":[{"kind":"perforate","spec":"12 tpi","at_mm":410},{"kind":"slit","at_mm":500.25}],"served":["2099"],"run_km":640},` +
		`{"set":"N-01","class":"narrow 35","place":{"folder":"alder","station":"2A"},"tools":[],"run_km":0},` +
		`{"set":"N-02","class":"narrow 35","place":{"bench":true},"tools":[],"run_km":0}]}`
	if diff := cmp.Diff(want, string(got)); diff != "" {
		t.Error(diff)
	}
}
