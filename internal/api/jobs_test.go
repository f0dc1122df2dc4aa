package api_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/access"
	"foldwright/internal/api"
	"foldwright/internal/demo"
	"foldwright/internal/exchange"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
)

type folderAnswer struct {
	Job      string   `json:"job"`
	Folder   string   `json:"folder"`
	Miss     string   `json:"miss"`
	RatePerH int      `json:"rate_per_h"`
	Makeup   *float64 `json:"makeready_min"`
	Run      *float64 `json:"run_min"`
}

// The best folder of the list is the one that it is when asked by itself, and no folder is better.
func TestSettingsOfAJob(t *testing.T) {
	d := open(t)
	list := read[[]folderAnswer](t, d.get("/jobs/2101/settings").want(t, http.StatusOK))
	if len(list) != 4 || list[0].Makeup == nil {
		t.Fatalf("%+v", list)
	}
	for _, one := range list {
		alone := read[folderAnswer](t, d.get("/jobs/2101/settings?folder="+one.Folder).want(t, http.StatusOK))
		if diff := cmp.Diff(one, alone); diff != "" {
			t.Errorf("%s in the list and by itself:\n%s", one.Folder, diff)
		}
		if one.Makeup != nil && *one.Makeup+*one.Run < *list[0].Makeup+*list[0].Run {
			t.Errorf("%s is better than the first", one.Folder)
		}
	}
	nobody := read[[]folderAnswer](t, d.get("/jobs/2124/settings").want(t, http.StatusOK)) // that none can is an answer
	for _, one := range nobody {
		if one.Miss == "" {
			t.Errorf("%s says nothing", one.Folder)
		}
	}
	d.get("/jobs/21o1/settings").wantProblem(t, http.StatusNotFound, "unknown-name")
	d.get("/jobs/2101/settings?folder=brich").wantProblem(t, http.StatusNotFound, "unknown-name")
}

func TestMatches(t *testing.T) {
	d := open(t)
	type match struct {
		Folder   string `json:"folder"`
		Stations []struct {
			Station string           `json:"station"`
			Tools   []map[string]any `json:"tools"`
			Serves  []struct {
				Set string `json:"set"`
			} `json:"serves"`
		} `json:"stations"`
	}
	list := read[[]match](t, d.get("/jobs/2101/matches").want(t, http.StatusOK))
	served := map[string]bool{}
	for _, m := range list {
		for _, st := range m.Stations {
			for _, s := range st.Serves {
				served[s.Set] = true
			}
		}
	}
	// W-04 and W-05 carry just the perforation at 410 that 2101 wants in the middle of the shaft of birch
	if !served["W-04"] || !served["W-05"] {
		t.Errorf("served by %v", served)
	}
	if same := d.get("/rack?serves=2101"); string(same.body) != string(d.get("/jobs/2101/matches").body) {
		t.Error("the rack says otherwise")
	}
	all := read[struct{ Sets []any }](t, d.get("/rack").want(t, http.StatusOK))
	if len(all.Sets) != 25 {
		t.Errorf("%d sets", len(all.Sets))
	}
	some := d.get("/rack?limit=20").want(t, http.StatusOK)
	next := strings.TrimSuffix(strings.TrimPrefix(some.Header.Get("Link"), "<"+api.Prefix), `>; rel="next"`)
	if rest := read[struct{ Sets []any }](t, d.get(next).want(t, http.StatusOK)); len(rest.Sets) != 5 {
		t.Errorf("%d sets on the second page", len(rest.Sets))
	}
}

// A docket that is tried is not kept, tells its faults by field, and folds as it would when kept.
func TestTry(t *testing.T) {
	d := open(t)
	s, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	before := d.get("/changes").body
	docket := exchange.WriteThing(ledger.OfJob, s.Jobs[0], s)
	viewer := func(path string, body any) answer {
		return d.send(ask{method: http.MethodPost, path: path, body: body, as: access.Viewer})
	}
	got := read[map[string]json.RawMessage](t, viewer("/jobs/try?was="+s.Jobs[0].Name, []byte(docket)).want(t, http.StatusOK))
	if string(got["faults"]) != "[]" || got["fold"] == nil {
		t.Errorf("%s", got)
	}
	var tried []folderAnswer
	if err := json.Unmarshal(got["folders"], &tried); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(read[[]folderAnswer](t, d.get("/jobs/"+s.Jobs[0].Name+"/settings")), tried); diff != "" {
		t.Errorf("kept -, tried +:\n%s", diff)
	}
	type faults struct {
		Faults []exchange.ProblemFault `json:"faults"`
		No     string                  `json:"no"`
	}
	half := read[faults](t, viewer("/jobs/try", map[string]any{"name": "new", "sheet": "wide"}).want(t, http.StatusOK))
	fields := map[string]bool{}
	for _, f := range half.Faults {
		fields[f.Field] = true
	}
	for _, want := range []string{"sheet", "stock", "sheets"} {
		if !fields[want] {
			t.Errorf("nothing is said of %s: %+v", want, half.Faults)
		}
	}
	none, _ := s.Job("2124")
	if got := read[faults](t, viewer("/jobs/try?was=2124", []byte(exchange.WriteThing(ledger.OfJob, *none, s))).want(t, http.StatusOK)); got.No == "" {
		t.Errorf("no folder can, and that is not said: %+v", got)
	}
	viewer("/jobs/try?was=nothing", []byte(docket)).wantProblem(t, http.StatusNotFound, "unknown-name")
	if string(before) != string(d.get("/changes").body) {
		t.Error("trying changed something")
	}
}

func TestRepeatPinUnpin(t *testing.T) {
	d := open(t)
	lead := func(method, path string, body any) answer {
		return d.send(ask{method: method, path: path, body: body, as: access.Lead})
	}
	due := time.Date(2026, 3, 5, 12, 0, 0, 0, time.UTC)
	made := lead(http.MethodPost, "/jobs/2101/repeat", map[string]any{"sheets": 700, "due": due}).want(t, http.StatusCreated)
	if at := made.Header.Get("Location"); at != api.Prefix+"/jobs/2101-2" {
		t.Errorf("made at %s", at)
	}
	again := lead(http.MethodPost, "/jobs/2095/repeat", map[string]any{"name": "3001"}).want(t, http.StatusCreated) // of one that is done
	if again.Header.Get("ETag") == "" || d.get("/jobs/3001").StatusCode != http.StatusOK {
		t.Error("the repeat is not there")
	}
	lead(http.MethodPost, "/jobs/2101/repeat", map[string]any{"sheets": 0}).wantProblem(t, http.StatusUnprocessableEntity, "request")
	lead(http.MethodPost, "/jobs/2101/repeat", map[string]any{"name": "2102"}).wantProblem(t, http.StatusConflict, "name-taken")
	pinned := lead(http.MethodPut, "/jobs/2101/pin", map[string]any{"folder": "birch", "place": 1}).want(t, http.StatusOK)
	if pinned.Header.Get("ETag") != d.get("/jobs/2101").Header.Get("ETag") {
		t.Error("the answer has another version than the job")
	}
	if got := d.job("2101").Pin; got != (job.Pin{Folder: "birch", Position: 1}) {
		t.Errorf("pinned %+v", got)
	}
	lead(http.MethodPut, "/jobs/2101/pin", map[string]any{"folder": "birch", "place": 30}).wantProblem(t, http.StatusUnprocessableEntity, "pin")
	lead(http.MethodPut, "/jobs/2101/pin", map[string]any{"folder": "brich"}).wantProblem(t, http.StatusNotFound, "unknown-name")
	lead(http.MethodDelete, "/jobs/2101/pin", nil).want(t, http.StatusOK)
	if got := d.job("2101").Pin; got != (job.Pin{}) {
		t.Errorf("still pinned %+v", got)
	}
}

// job reads a job past the API.
func (d *door) job(name string) *job.Job {
	d.t.Helper()
	s, err := d.desk.Shop(access.With(d.t.Context(), access.Who{Name: "root", Role: access.Viewer}))
	if err != nil {
		d.t.Fatal(err)
	}
	j, ok := s.Job(name)
	if !ok {
		d.t.Fatalf("no job %s", name)
	}
	return j
}

func TestStartAndFinish(t *testing.T) {
	d := open(t)
	op := func(path string, body any) answer {
		return d.send(ask{method: http.MethodPost, path: path, body: body, as: access.Operator})
	}
	op("/jobs/2101/start", map[string]any{"folder": "birch"}).want(t, http.StatusOK)
	if got := d.job("2101").Pin; !got.Started || got.Folder != "birch" {
		t.Errorf("pinned %+v", got)
	}
	op("/jobs/2102/start", map[string]any{"folder": "birch"}).wantProblem(t, http.StatusConflict, "folder-busy")
	done := read[api.Thing](t, op("/jobs/2101/finish", nil).want(t, http.StatusOK)) // where it runs is known
	if done.Name != "2101" {
		t.Errorf("%+v", done)
	}
	d.get("/jobs/2101").wantProblem(t, http.StatusNotFound, "unknown-name")
	d.get("/done/2101").want(t, http.StatusOK)
	op("/jobs/2101/finish", nil).wantProblem(t, http.StatusConflict, "job-done")
	present := read[map[string]any](t, d.get("/present/birch").want(t, http.StatusOK))
	if present["job"] != "2101" {
		t.Errorf("birch stands for %v", present)
	}
}
