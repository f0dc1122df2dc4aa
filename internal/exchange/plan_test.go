package exchange

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"foldwright/internal/changeover"
	"foldwright/internal/job"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	speech "foldwright/internal/words"
)

// smallPlan has one of everything.
func smallPlan() *plan.Plan {
	berlin := time.FixedZone("", 3600)
	at := func(hour, minute int) time.Time { return time.Date(2026, 3, 2, hour, minute, 0, 0, berlin) }
	score := tooling.Tool{Type: tooling.Type{Kind: tooling.Score, Spec: "0.7 mm"}, At: 410 * units.Millimetre}
	figures := plan.Figures{
		Cost: 1393500 * time.Millisecond, Late: 20 * time.Minute, LatePlain: 10 * time.Minute, LateJobs: 1,
		Makeready: 100 * time.Second, Waiting: 7 * time.Second, Bench: 6 * time.Minute, End: at(9, 10),
	}
	day := plan.Day{
		Figures: figures,
		Folders: []plan.Folder{{Name: "alder", Tasks: []plan.Task{{
			Job: "2101", Title: "Tide tables", MakereadyStart: at(6, 0), RunStart: at(6, 2), RunEnd: at(9, 10),
			Makeready: 100 * time.Second, Run: 3 * time.Hour, RatePerHour: 9000, Sheets: 27000, Due: at(9, 0), Late: 10 * time.Minute, Weight: 2,
			Lines:    []changeover.Line{{What: speech.T("docket"), Why: speech.T("docket change"), Time: 100 * time.Second}},
			Guides:   []plan.Guide{{Unit: 1, At: 123456789 * units.Nanometre, Later: true}},
			Stations: []plan.Station{{Station: "1A", Mode: changeover.Built, Set: "W-01", Later: true}},
		}}}, {Name: "birch"}},
		Bench: []plan.Build{{
			Set: "W-01", Job: "2101", Folder: "alder", Station: "1A", Person: "bench", To: []tooling.Tool{score}, Add: 1,
			Work: 6 * time.Minute, Start: at(5, 50), End: at(5, 56),
		}},
		Late: []plan.Late{{Job: "2101", Folder: "alder", Due: at(9, 0), End: at(9, 10), Late: 10 * time.Minute, Weight: 2, Rescues: []plan.Rescue{
			{
				Way: plan.Overtime, Folder: "alder", Place: 1, End: at(8, 58), Working: []plan.Span{{From: at(5, 40), To: at(6, 0)}},
				Cost: -20 * time.Minute, OthersLate: 90 * time.Second, Makeready: 2 * time.Second, Text: speech.T("20 min of overtime"),
			},
			{Way: plan.Hands, Folder: "alder", Place: 1, End: at(9, 0), By: at(5, 50), Set: "W-01", Text: speech.T("set W-01 ready")},
		}}},
		Unplaced: []plan.Unplaced{{Job: "2124", Whys: []plan.Why{{Folder: "alder", Text: speech.T("too wide")}, {Text: speech.T("for no folder")}}}},
	}
	return &plan.Plan{
		Shop: "Small", From: at(6, 0), Weights: plan.Weights{Late: 1000, Makeready: 1000, Waiting: 500, Bench: 250},
		Day: day, Given: plan.Day{Figures: figures}, Bound: 40 * time.Second,
		Moves: []plan.Move{{
			Job: "2101", FromFolder: "birch", ToFolder: "alder", FromPlace: 3, ToPlace: 1,
			MakereadyGiven: 5 * time.Minute, Makeready: 100 * time.Second, LateGiven: time.Hour, Late: 10 * time.Minute,
			Gains: []plan.Gain{{What: speech.T("tooling"), Given: 5 * time.Minute, Now: 100 * time.Second}},
			Alone: true, Pays: 12345678 * time.Millisecond, Why: speech.T("behind job %s", "2100"),
		}},
		Elsewhere:  []plan.Gain{{What: speech.T("plates"), Given: time.Minute, Now: 2 * time.Minute}},
		Percentile: 80,
		Chances: &plan.Chances{
			Samples: 1000, Seed: 1, Spread: shop.DefaultSpread(), LateJobs: 1.25, Late: 90 * time.Second, AllOnTime: 0.125,
			Jobs: []plan.Chance{
				{Job: "2101", Folder: "alder", Due: at(9, 0), OnTime: 0.25, Error: 0.0136931, Early: at(8, 59), Middle: at(9, 10), Tail: at(9, 30)},
				{Job: "2102", Folder: "alder", OnTime: 1, Early: at(9, 59)},
			},
		},
		Kept: &plan.Kept{
			Stable: plan.Stable{Until: at(12, 0), Price: 15 * time.Minute}, Near: 3, Moved: []string{"2101"}, Paid: 15 * time.Minute, Free: 20 * time.Minute,
		},
		Search: plan.Search{Seed: 1, Iterations: 2000, Restarts: 3, Took: 1234567 * time.Microsecond},
	}
}

// Goal: the JSON is what the outside relies on. The golden file is read in the diff like code.
func TestPlanJSONIsAsPromised(t *testing.T) {
	got, err := json.MarshalIndent(Plan(smallPlan()), "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join("testdata", "plan.golden.json")
	if *update {
		if err := os.WriteFile(file, append(got, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.TrimSpace(string(want)), string(got)); diff != "" {
		t.Error(diff)
	}
}

// promised are the keys that others read, as they were agreed before anything was written.
var promised = map[string][]string{
	"":                       {"cost_min", "late_min", "makeready_min", "waiting_min", "bench_min", "makeready_bound_min", "given_order", "folders", "bench", "search"},
	"given_order":            {"cost_min", "late_min", "makeready_min", "waiting_min", "bench_min"},
	"folders":                {"folder", "tasks"},
	"folders.tasks":          {"job", "makeready_start", "run_start", "run_end", "makeready_min", "lines", "stations"},
	"folders.tasks.lines":    {"what", "min"},
	"folders.tasks.stations": {"station", "mode", "set"},
	"bench":                  {"set", "for_job", "start", "end"},
	"search":                 {"seed", "iterations", "seconds", "restarts"},
}

func TestPlanJSONHasEveryPromisedKey(t *testing.T) {
	data, err := json.Marshal(Plan(smallPlan()))
	if err != nil {
		t.Fatal(err)
	}
	var doc any
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	for path, keys := range promised {
		at := doc
		for _, step := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' }) {
			at = at.(map[string]any)[step]
			if list, ok := at.([]any); ok {
				at = list[0]
			}
		}
		for _, key := range keys {
			if _, ok := at.(map[string]any)[key]; !ok {
				t.Errorf("%q has no %q", path, key)
			}
		}
	}
}

// Goal: the order that a document tells has the choices, to the nanometre.
func TestPlanJSONTellsItsChoices(t *testing.T) {
	want := plan.Order{
		{Folder: "alder", Jobs: []string{"2101"}, Choices: []plan.Choice{
			{Job: "2101", Choice: job.Choice{Station: "1A", Way: job.Built, Set: "W-01"}},
			{Job: "2101", Choice: job.Choice{Unit: 1, Guide: 123456789}},
		}},
		{Folder: "birch"},
	}
	if diff := cmp.Diff(want, Plan(smallPlan()).Order()); diff != "" {
		t.Error(diff)
	}
}

// Goal: reading gives back what was written, and nothing is overlooked.
func TestPlanJSONReadsBack(t *testing.T) {
	doc := Plan(smallPlan())
	data, err := json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	back, err := ReadPlan(data)
	if err != nil {
		t.Fatal(err)
	}
	again, err := json.Marshal(back)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(again, data) {
		t.Error(cmp.Diff(string(data), string(again)))
	}
	if _, err := ReadPlan([]byte(`{"cost_min": 1, "cost_hours": 1}`)); err == nil {
		t.Error("an unknown figure was overlooked")
	}
	if _, err := ReadPlan([]byte(`{"cost_min": "much"}`)); err == nil {
		t.Error("a figure in words was read")
	}
}

// Goal: sixty times a figure of minutes, rounded, is the seconds it was made of, so that figures add up.
func TestMinutesKeepTheirSeconds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.Int64Range(0, 400*24*3600).Draw(t, "seconds")
		min := inMinutes(time.Duration(s) * time.Second)
		if back := int64(min*60 + 0.5); back != s {
			t.Fatalf("%d s are %v min, which are %d s", s, min, back)
		}
	})
}
