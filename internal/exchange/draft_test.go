package exchange

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/ledger"
	"foldwright/internal/plan"
)

func TestDraft(t *testing.T) {
	zone := time.FixedZone("", 3600)
	kept := ledger.Draft{
		ID: "d2", Parent: "d1", Who: "ada", At: time.Unix(1_772_000_000, 0), How: "move", Note: "2101 to place 1 on alder", Taken: 9,
		Order: plan.Order{{Folder: "alder", Jobs: []string{"2101"}}},
	}
	const head = `"id":"d2","parent":"d1","who":"ada","at":"2026-02-25T07:13:20+01:00","how":"move","note":"2101 to place 1 on alder","taken":9`
	listed, err := json.Marshal(Drafts([]ledger.Draft{kept}, zone))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff("[{"+head+"}]", string(listed)); diff != "" {
		t.Error(diff)
	}
	whole, err := json.Marshal(Draft(kept, smallPlan(), 12, []string{"2099"}, zone))
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(Plan(smallPlan()))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff("{"+head+`,"revision":12,"lost":["2099"],"plan":`+string(text)+"}", string(whole)); diff != "" {
		t.Error(diff)
	}
}
