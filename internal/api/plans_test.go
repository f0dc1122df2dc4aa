package api_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/api"
)

type draft struct {
	ID       string `json:"id"`
	Parent   string `json:"parent"`
	How      string `json:"how"`
	Taken    int64  `json:"taken"`
	Revision int64  `json:"revision"`
	Plan     *struct {
		Cost    float64 `json:"cost_min"`
		Folders []struct {
			Folder string `json:"folder"`
			Tasks  []struct {
				Job string `json:"job"`
			} `json:"tasks"`
		} `json:"folders"`
	} `json:"plan"`
}

func (d draft) lane(folder string) []string {
	var jobs []string
	for _, f := range d.Plan.Folders {
		if f.Folder == folder {
			for _, t := range f.Tasks {
				jobs = append(jobs, t.Job)
			}
		}
	}
	return jobs
}

type draftList struct {
	Items []draft `json:"items"`
	Next  string  `json:"next"`
}

// A move makes a draft; accepted, it is the order given, for whoever looks next.
func TestMoveAndAccept(t *testing.T) {
	d := open(t)
	lead := func(path string, body any) answer {
		return d.send(ask{method: http.MethodPost, path: "/plans/" + path, body: body, as: access.Lead})
	}
	given := read[draft](t, d.get("/plans/given").want(t, http.StatusOK))
	if given.ID != "given" || given.Plan == nil || len(given.Plan.Folders) != 4 {
		t.Fatalf("%+v", given)
	}
	lane := given.lane("birch")
	last := lane[len(lane)-1]
	made := lead("given/moves", map[string]any{"job": last, "folder": "birch", "place": 1}).want(t, http.StatusCreated)
	moved := read[draft](t, made)
	if at := made.Header.Get("Location"); at != api.Prefix+"/plans/"+moved.ID || moved.How != "move" {
		t.Errorf("made %+v at %s", moved, at)
	}
	if got := moved.lane("birch"); got[0] != last {
		t.Errorf("birch begins with %s", got[0])
	}
	if same := read[draft](t, d.get("/plans/"+moved.ID).want(t, http.StatusOK)); same.Plan.Cost != moved.Plan.Cost {
		t.Errorf("read again it costs %v, before %v", same.Plan.Cost, moved.Plan.Cost)
	}
	if got := read[draft](t, d.get("/plans/given")).lane("birch"); got[0] == last {
		t.Error("the order given moved without being asked")
	}
	lead(moved.ID+"/accept?revision=1000000", nil).wantProblem(t, http.StatusConflict, "changed-meanwhile")
	lead(moved.ID+fmt.Sprintf("/accept?revision=%d", moved.Revision), nil).want(t, http.StatusOK)
	if got := read[draft](t, d.get("/plans/given")).lane("birch"); got[0] != last {
		t.Errorf("accepted, birch begins with %s", got[0])
	}
	lead("given/moves", map[string]any{"job": "21o1", "folder": "birch", "place": 1}).want(t, http.StatusNotFound)
	lead("given/moves", map[string]any{"job": last, "folder": "birch", "place": 400}).wantProblem(t, http.StatusUnprocessableEntity, "order-place")
	lead("nothing/accept", nil).wantProblem(t, http.StatusNotFound, "no-draft")
}

// A late job of the order given is told what would help, as the plan itself tells; one that is in time needs nothing.
func TestRescues(t *testing.T) {
	d := open(t)
	type late struct {
		Job string `json:"job"`
	}
	plan := read[struct {
		Plan struct {
			Late []late `json:"late_jobs"`
		} `json:"plan"`
	}](t, d.get("/plans/given").want(t, http.StatusOK)).Plan
	if len(plan.Late) == 0 {
		t.Fatal("the demo's order given has no late job")
	}
	type ways struct {
		Items []map[string]any `json:"items"`
	}
	if got := read[ways](t, d.get("/plans/given/jobs/"+plan.Late[0].Job+"/rescues").want(t, http.StatusOK)); len(got.Items) == 0 {
		t.Errorf("nothing is said of %s", plan.Late[0].Job)
	}
	given := read[draft](t, d.get("/plans/given"))
	first := given.lane("birch")[0]
	if slices.Contains(plan.Late, late{first}) {
		t.Fatalf("%s is late", first)
	}
	if got := read[ways](t, d.get("/plans/given/jobs/"+first+"/rescues").want(t, http.StatusOK)); len(got.Items) != 0 {
		t.Errorf("%s is in time, and yet: %v", first, got.Items)
	}
	d.get("/plans/given/jobs/21o1/rescues").wantProblem(t, http.StatusNotFound, "unknown-name")
}

func TestDraftsInPages(t *testing.T) {
	d := open(t)
	for range 3 {
		d.send(ask{method: http.MethodPost, path: "/plans/given/moves", body: map[string]any{"job": "2101", "folder": "birch", "place": 2}, as: access.Lead}).want(t, http.StatusCreated)
	}
	whole := read[draftList](t, d.get("/plans").want(t, http.StatusOK))
	first := read[draftList](t, d.get("/plans?limit=2").want(t, http.StatusOK))
	rest := read[draftList](t, d.get(strings.TrimPrefix(first.Next, api.Prefix)).want(t, http.StatusOK))
	if len(whole.Items) != 3 || len(first.Items) != 2 || len(rest.Items) != 1 || rest.Next != "" || rest.Items[0].ID != whole.Items[2].ID || whole.Items[0].Plan != nil {
		t.Errorf("%d, %d and %d drafts", len(whole.Items), len(first.Items), len(rest.Items))
	}
}

// A search runs to its end in the background; its events tell so, and its draft is there.
func TestSearchWithEvents(t *testing.T) {
	d := open(t)
	begun := d.send(ask{method: http.MethodPost, path: "/searches", body: map[string]any{"iterations": 300, "seed": 3}, as: access.Lead}).want(t, http.StatusAccepted)
	at := strings.TrimPrefix(begun.Header.Get("Location"), api.Prefix)
	events := d.listen(t, at+"/events")
	last := events[len(events)-1]
	if last.name != "done" || last.search.State != "done" || last.search.Draft == "" || last.search.Iterations < 300 {
		t.Fatalf("the last event is %s %+v", last.name, last.search)
	}
	for _, e := range events[:len(events)-1] {
		if e.name != "progress" || e.search.State != "running" {
			t.Errorf("an event before the last is %s %+v", e.name, e.search)
		}
	}
	if last.search.Best.CostMin > last.search.Given.CostMin {
		t.Errorf("found %v, given %v", last.search.Best.CostMin, last.search.Given.CostMin)
	}
	found := read[draft](t, d.get(strings.TrimPrefix(last.search.Plan, api.Prefix)).want(t, http.StatusOK))
	if found.How != "search" || found.ID != last.search.Draft {
		t.Errorf("found %+v", found)
	}
	if again := d.listen(t, at+"/events"); len(again) != 1 || again[0].name != "done" { // who comes late hears the end
		t.Errorf("%d events of a search that is over", len(again))
	}
	list := read[struct {
		Items []api.Search `json:"items"`
	}](t, d.get("/searches").want(t, http.StatusOK))
	if len(list.Items) != 1 || list.Items[0].ID != last.search.ID {
		t.Errorf("%+v", list)
	}
}

func TestSearchIsCancelled(t *testing.T) {
	d := open(t)
	lead := func(method, path string, body any) answer {
		return d.send(ask{method: method, path: path, body: body, as: access.Lead})
	}
	begun := lead(http.MethodPost, "/searches", map[string]any{"seconds": 600}).want(t, http.StatusAccepted)
	at := strings.TrimPrefix(begun.Header.Get("Location"), api.Prefix)
	lead(http.MethodDelete, at, nil).want(t, http.StatusOK)
	events := d.listen(t, at+"/events")
	if last := events[len(events)-1]; last.name != "done" || last.search.State != "cancelled" || last.search.Draft == "" {
		t.Errorf("the last event is %s %+v", last.name, last.search)
	}
}

func TestSearchFaults(t *testing.T) {
	d := open(t)
	for body, code := range map[string]string{
		`{}`:                               "search-time",
		`{"seconds":10,"iterations":10}`:   "search-time",
		`{"seconds":-1}`:                   "request",
		`{"seconds":601}`:                  "request",
		`{"iterations":1e300}`:             "request",
		`{"seconds":1e999}`:                "request",
		`{"iterations":9,"seed":-1}`:       "request",
		`{"iterations":9,"from":"nobody"}`: "no-draft",
		`{"iterations":9,"patience":1}`:    "request",
	} {
		got := d.send(ask{method: http.MethodPost, path: "/searches", body: body, as: access.Lead})
		if got.StatusCode < 400 || got.StatusCode >= 500 {
			t.Errorf("%s: %d", body, got.StatusCode)
			continue
		}
		got.wantProblem(t, got.StatusCode, code)
	}
	d.get("/searches/nothing").wantProblem(t, http.StatusNotFound, "search-gone")
	d.get("/searches/nothing/events").wantProblem(t, http.StatusNotFound, "search-gone")
}

// event is a server-sent event.
type event struct {
	name   string
	search api.Search
}

// listen reads events until the server ends them.
func (d *door) listen(t *testing.T, path string) []event {
	t.Helper()
	res, err := d.server.Client().Do(d.request(ask{method: http.MethodGet, path: path, as: access.Viewer}))
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	if media := res.Header.Get("Content-Type"); media != "text/event-stream" || res.StatusCode != http.StatusOK {
		t.Fatalf("%d of the sort %s", res.StatusCode, media)
	}
	var all []event
	var e event
	for lines := bufio.NewScanner(res.Body); lines.Scan(); {
		switch line := lines.Text(); {
		case strings.HasPrefix(line, "event: "):
			e.name = strings.TrimPrefix(line, "event: ")
		case strings.HasPrefix(line, "data: "):
			if err := json.Unmarshal([]byte(strings.TrimPrefix(line, "data: ")), &e.search); err != nil {
				t.Fatal(err)
			}
		case line == "" && e.name != "":
			all = append(all, e)
			e = event{}
		}
	}
	if len(all) == 0 {
		t.Fatal("no event came")
	}
	return all
}
