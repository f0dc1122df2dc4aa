package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/access"
	"foldwright/internal/api"
)

type list struct {
	Items []api.Thing `json:"items"`
	Next  string      `json:"next"`
}

// kindPaths are the lists, and what of each is there in the demo.
var kindPaths = []string{"calendars", "classes", "tools", "sets", "folders", "present", "bench", "stocks", "jobs", "done"}

// Goal: what is read can be written back, whatever it is, and nothing changes by it. Method: everything in the demo, one by one.
func TestWhatIsReadCanBeWrittenBack(t *testing.T) {
	d := open(t)
	before := d.get("/changes").body
	for _, path := range kindPaths {
		things := read[list](t, d.get("/"+path+"?limit=500").want(t, http.StatusOK)).Items
		if len(things) == 0 {
			t.Errorf("the demo has no %s", path)
		}
		for _, one := range things {
			at := "/" + path + "/" + url.PathEscape(one.Name)
			got := d.get(at).want(t, http.StatusOK)
			if diff := cmp.Diff(normal(t, one.Value), normal(t, got.body)); diff != "" {
				t.Errorf("%s in the list and by itself:\n%s", at, diff)
			}
			tag := got.Header.Get("ETag")
			if tag != fmt.Sprintf("%q", fmt.Sprint(one.Version)) {
				t.Errorf("%s: ETag %s, version %d", at, tag, one.Version)
			}
			put := d.send(ask{method: http.MethodPut, path: at, body: got.body, as: access.Admin, head: map[string]string{"If-Match": tag}}).want(t, http.StatusOK)
			if put.Header.Get("ETag") != tag {
				t.Errorf("%s: writing back what was read made a new version", at)
			}
			d.send(ask{method: http.MethodGet, path: at, as: access.Viewer, head: map[string]string{"If-None-Match": tag}}).want(t, http.StatusNotModified)
		}
	}
	for _, path := range []string{"shop", "standards", "weights", "house"} {
		got := d.get("/"+path).want(t, http.StatusOK)
		d.send(ask{method: http.MethodPut, path: "/" + path, body: got.body, as: access.Admin, head: map[string]string{"If-Match": got.Header.Get("ETag")}}).want(t, http.StatusOK)
	}
	if after := d.get("/changes").body; string(after) != string(before) {
		t.Error("writing back what was read is a change")
	}
}

func normal(t *testing.T, data []byte) any {
	t.Helper()
	var v any
	if err := json.Unmarshal(data, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

func TestThingComesChangesMovesGoes(t *testing.T) {
	d := open(t)
	lead := func(method, path string, body any, head map[string]string) answer {
		return d.send(ask{method: method, path: path, body: body, head: head, as: access.Lead})
	}
	stock := map[string]any{"name": "new/stock 1", "grammage": 90, "finish": "coated"}
	made := lead(http.MethodPost, "/stocks", stock, nil).want(t, http.StatusCreated)
	at := strings.TrimPrefix(made.Header.Get("Location"), api.Prefix)
	if at != "/stocks/new%2Fstock%201" || made.Header.Get("ETag") == "" {
		t.Fatalf("made at %s with %s", at, made.Header.Get("ETag"))
	}
	lead(http.MethodPost, "/stocks", stock, nil).wantProblem(t, http.StatusConflict, "name-taken")
	stock["grammage"] = 100
	lead(http.MethodPut, at, stock, nil).wantProblem(t, http.StatusPreconditionRequired, "if-match")
	lead(http.MethodPut, at, stock, map[string]string{"If-Match": "*"}).wantProblem(t, http.StatusPreconditionRequired, "if-match")
	lead(http.MethodPut, at, stock, map[string]string{"If-Match": "seventeen"}).wantProblem(t, http.StatusUnprocessableEntity, "if-match")
	changed := lead(http.MethodPut, at, stock, map[string]string{"If-Match": made.Header.Get("ETag")}).want(t, http.StatusOK)
	stale := lead(http.MethodPut, at, stock, map[string]string{"If-Match": made.Header.Get("ETag")}).wantProblem(t, http.StatusPreconditionFailed, "changed-meanwhile")
	if !strings.Contains(stale.Detail, "changed by lead by test") || !strings.Contains(stale.Detail, "grammage") {
		t.Errorf("who changed what is not told: %s", stale.Detail)
	}
	stock["name"] = "newer"
	renamed := lead(http.MethodPut, at, stock, map[string]string{"If-Match": changed.Header.Get("ETag")}).want(t, http.StatusOK)
	if at = "/stocks/newer"; renamed.Header.Get("Location") != api.Prefix+at {
		t.Errorf("renamed to %s", renamed.Header.Get("Location"))
	}
	first := read[list](t, d.get("/stocks")).Items[0].Name
	lead(http.MethodPost, at+"/place", map[string]any{"ahead_of": first}, nil).want(t, http.StatusOK)
	if now := read[list](t, d.get("/stocks")).Items[0].Name; now != "newer" {
		t.Errorf("%s is first", now)
	}
	p := lead(http.MethodPost, at+"/place", map[string]any{"ahead_of": "nowhere"}, nil).wantProblem(t, http.StatusNotFound, "unknown-name")
	if p.Errors[0].Field != "ahead_of" {
		t.Errorf("the field is %s", p.Errors[0].Field)
	}
	moved := d.get(at)
	lead(http.MethodDelete, at, nil, nil).wantProblem(t, http.StatusPreconditionRequired, "if-match")
	lead(http.MethodDelete, at, nil, map[string]string{"If-Match": changed.Header.Get("ETag")}).wantProblem(t, http.StatusPreconditionFailed, "changed-meanwhile")
	lead(http.MethodDelete, at, nil, map[string]string{"If-Match": moved.Header.Get("ETag")}).want(t, http.StatusNoContent)
	d.get(at).wantProblem(t, http.StatusNotFound, "unknown-name")
}

// A fault of the whole shop is told by the field of the thing that was sent.
func TestFaultsNameTheFieldsSent(t *testing.T) {
	d := open(t)
	got := d.get("/jobs/2107")
	job := normal(t, got.body).(map[string]any)
	job["given"], job["after"] = "brich", "21o1"
	p := d.send(ask{method: http.MethodPut, path: "/jobs/2107", body: job, as: access.Lead, head: map[string]string{"If-Match": got.Header.Get("ETag")}}).wantProblem(t, http.StatusUnprocessableEntity, "unknown-name")
	fields := map[string]bool{}
	for _, f := range p.Errors {
		fields[f.Field] = true
	}
	if !fields["given"] || !fields["after[0]"] {
		t.Errorf("fields %v", fields)
	}
	job["sheet"], job["due"] = "wide", "tomorrow"
	p = d.send(ask{method: http.MethodPost, path: "/jobs", body: job, as: access.Lead}).wantProblem(t, http.StatusUnprocessableEntity, "moment")
	if p.Errors[0].Field != "due" || p.Errors[1].Field != "sheet" { // in the order in which they were sent: by name
		t.Errorf("fields %v", p.Errors)
	}
	job = normal(t, got.body).(map[string]any)
	delete(job, "fold")
	job["scheme"] = "F17-1"
	p = d.send(ask{method: http.MethodPut, path: "/jobs/2107", body: job, as: access.Lead, head: map[string]string{"If-Match": got.Header.Get("ETag")}}).wantProblem(t, http.StatusUnprocessableEntity, "fold-name")
	if p.Errors[0].Field != "scheme" {
		t.Errorf("fields %v", p.Errors)
	}
}

// Goal: pages join up to the whole list. Method: lists of the demo in pages of three, beside the list at once.
func TestPagesJoinUp(t *testing.T) {
	d := open(t)
	for _, path := range []string{"/jobs", "/sets", "/tools"} {
		whole := read[list](t, d.get(path+"?limit=500")).Items
		var joined []api.Thing
		for next := path + "?limit=3"; next != ""; {
			got := d.get(next).want(t, http.StatusOK)
			part := read[list](t, got)
			if len(part.Items) > 3 || part.Next != "" && got.Header.Get("Link") != "<"+part.Next+`>; rel="next"` {
				t.Fatalf("%s: %d items, next %s, link %s", next, len(part.Items), part.Next, got.Header.Get("Link"))
			}
			joined = append(joined, part.Items...)
			next = strings.TrimPrefix(part.Next, api.Prefix)
		}
		if diff := cmp.Diff(whole, joined); diff != "" {
			t.Errorf("%s (at once -, in pages +):\n%s", path, diff)
		}
	}
	d.get("/jobs?after=nobody").wantProblem(t, http.StatusUnprocessableEntity, "unknown-name")
}

// Goal: of many who change the same version, exactly one gets through. Method: twenty at once, several rounds.
func TestOneOfManyWins(t *testing.T) {
	d := open(t)
	for round := range 5 {
		got := d.get("/jobs/2107")
		job := normal(t, got.body).(map[string]any)
		var wait sync.WaitGroup
		status := make([]int, 20)
		for i := range status {
			mine := map[string]any{}
			for k, v := range job {
				mine[k] = v
			}
			mine["title"] = fmt.Sprintf("round %d, hand %d", round, i)
			req := d.request(ask{method: http.MethodPut, path: "/jobs/2107", body: mine, as: access.Lead, head: map[string]string{"If-Match": got.Header.Get("ETag")}})
			wait.Go(func() {
				res, err := d.server.Client().Do(req)
				if err != nil {
					t.Error(err)
					return
				}
				res.Body.Close()
				status[i] = res.StatusCode
			})
		}
		wait.Wait()
		won := 0
		for _, s := range status {
			switch s {
			case http.StatusOK:
				won++
			case http.StatusPreconditionFailed:
			default:
				t.Errorf("status %d", s)
			}
		}
		if won != 1 {
			t.Errorf("round %d: %d got through", round, won)
		}
	}
}

// A request that is sent again under its key is not done again.
func TestSentTwiceDoneOnce(t *testing.T) {
	d := open(t)
	head := map[string]string{"Idempotency-Key": "b6f5a8a0-once"}
	stock := map[string]any{"name": "once", "grammage": 90, "finish": "coated"}
	first := d.send(ask{method: http.MethodPost, path: "/stocks", body: stock, head: head, as: access.Lead}).want(t, http.StatusCreated)
	second := d.send(ask{method: http.MethodPost, path: "/stocks", body: stock, head: head, as: access.Lead}).want(t, http.StatusCreated)
	if string(first.body) != string(second.body) || first.Header.Get("Location") != second.Header.Get("Location") || first.Header.Get("ETag") != second.Header.Get("ETag") {
		t.Errorf("answered %s, then %s", first.body, second.body)
	}
	stock["name"] = "another"
	d.send(ask{method: http.MethodPost, path: "/stocks", body: stock, head: head, as: access.Lead}).want(t, http.StatusUnprocessableEntity)
}

// Many who send the same request under the same key at once make one thing; whoever does not hear of it hears that it is
// being worked on.
func TestSentByManyAtOnceDoneOnce(t *testing.T) {
	d := open(t)
	var wait sync.WaitGroup
	status := make([]int, 20)
	for i := range status {
		req := d.request(ask{method: http.MethodPost, path: "/jobs/2101/repeat", body: map[string]any{"sheets": 100}, as: access.Lead, head: map[string]string{"Idempotency-Key": "many"}})
		wait.Go(func() {
			res, err := d.server.Client().Do(req)
			if err != nil {
				t.Error(err)
				return
			}
			res.Body.Close()
			status[i] = res.StatusCode
		})
	}
	wait.Wait()
	for _, s := range status {
		if s != http.StatusCreated && s != http.StatusConflict {
			t.Errorf("status %d", s)
		}
	}
	if d.get("/jobs/2101-2").StatusCode != http.StatusOK || d.get("/jobs/2101-3").StatusCode != http.StatusNotFound {
		t.Error("not just one repeat was made")
	}
}

// A report of the floor that is sent again is no second report.
func TestReportSentTwice(t *testing.T) {
	d := open(t)
	start := ask{method: http.MethodPost, path: "/jobs/2101/start", body: map[string]any{"folder": "birch"}, as: access.Operator, head: map[string]string{"Idempotency-Key": "k1"}}
	first := d.send(start).want(t, http.StatusOK)
	if again := d.send(start).want(t, http.StatusOK); string(again.body) != string(first.body) || again.Header.Get("Idempotent-Replay") != "true" {
		t.Errorf("answered %s", again.body)
	}
	start.head = nil
	d.send(start).wantProblem(t, http.StatusConflict, "folder-busy")
}
