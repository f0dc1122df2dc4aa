package api_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/access"
	"foldwright/internal/api"
	"foldwright/internal/demo"
	"foldwright/internal/exchange"
	"foldwright/internal/store/storetest"
)

// Goal: a shop on a PostgreSQL server has the same day as one in a file. Method: the same shift of calls, from the new docket to the restored
// backup, on both; every answer is compared, but for ids and clocks.
func TestAShiftOnBothEngines(t *testing.T) {
	server := storetest.Server(t)
	told := map[string][]string{}
	for engine, where := range map[string]string{"SQLite": filepath.Join(t.TempDir(), "shop.db"), "PostgreSQL": storetest.Schema(t, server)} {
		whole, err := demo.Shop()
		if err != nil {
			t.Fatal(err)
		}
		s := shift{door: openAt(t, where, whole)}
		s.dockets()
		s.floor()
		s.day()
		s.people()
		s.vault()
		told[engine] = s.told
	}
	if diff := cmp.Diff(told["SQLite"], told["PostgreSQL"]); diff != "" {
		t.Errorf("the engines answer differently:\n%s", diff)
	}
}

// shift sends calls and notes what was answered.
type shift struct {
	*door
	told []string
}

// do sends a call and holds it to a status.
func (s *shift) do(as access.Role, method, path string, body any, status int, head ...string) answer {
	s.t.Helper()
	a := ask{method: method, path: path, body: body, as: as, head: map[string]string{}}
	for i := 0; i+1 < len(head); i += 2 {
		a.head[head[i]] = head[i+1]
	}
	got := s.send(a).want(s.t, status)
	s.told = append(s.told, fmt.Sprintf("%s %s: %d %s %s", method, masked(path), status, got.Header.Get("ETag"), shown(got)))
	return got
}

// masked is a path without the ids that chance made: they stand third.
func masked(path string) string {
	parts := strings.Split(path, "/")
	if len(parts) > 2 && (parts[1] == "plans" || parts[1] == "records") && parts[2] != "given" {
		parts[2] = "…"
	}
	return strings.Join(parts, "/")
}

// byChance are the fields of answers that are other ones at every run.
var byChance = map[string]bool{
	"id": true, "at": true, "since": true, "until": true, "used": true, "began": true, "secret": true, "link": true, "parent": true, "thing": true, "seen": true,
}

// shown is the body of an answer without what chance and clocks made of it; of a refusal it is the codes.
func shown(a answer) string {
	var no exchange.ProblemDocument
	if a.StatusCode >= http.StatusBadRequest && json.Unmarshal(a.body, &no) == nil {
		var codes []string
		for _, e := range no.Errors {
			codes = append(codes, e.Code)
		}
		return strings.Join(codes, " ")
	}
	var v any
	if json.Unmarshal(a.body, &v) != nil {
		return a.Header.Get("Content-Type")
	}
	text, err := json.Marshal(blanked(v))
	if err != nil {
		return err.Error()
	}
	return string(text)
}

func blanked(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for name, value := range v {
			if byChance[name] {
				delete(v, name)
				continue
			}
			v[name] = blanked(value)
		}
	case []any:
		for i := range v {
			v[i] = blanked(v[i])
		}
	}
	return v
}

// dockets come, are changed by two at once, are sent twice, go and come back.
func (s *shift) dockets() {
	job := read[map[string]any](s.t, s.do(access.Viewer, http.MethodGet, "/jobs/2102", nil, http.StatusOK))
	job["name"], job["title"] = "ä/7 <b>", "L'été, 16 pages 🧻"
	s.do(access.Lead, http.MethodPost, "/jobs", job, http.StatusCreated, "Idempotency-Key", "k1")
	if again := s.do(access.Lead, http.MethodPost, "/jobs", job, http.StatusCreated, "Idempotency-Key", "k1"); again.Header.Get("Idempotent-Replay") != "true" {
		s.t.Error("what was sent twice was done twice")
	}
	s.do(access.Lead, http.MethodPost, "/jobs", job, http.StatusConflict)
	const at = "/jobs/%C3%A4%2F7%20%3Cb%3E"
	tag := s.do(access.Viewer, http.MethodGet, at, nil, http.StatusOK).Header.Get("ETag")
	job["sheets"] = 4321
	s.do(access.Lead, http.MethodPut, at, job, http.StatusOK, "If-Match", tag)
	s.do(access.Lead, http.MethodPut, at, job, http.StatusPreconditionFailed, "If-Match", tag)
	s.do(access.Lead, http.MethodPut, at, job, http.StatusPreconditionRequired)
	job["title"] = "a\x00b" // a text of PostgreSQL has no such sign by itself
	s.do(access.Lead, http.MethodPut, at, job, http.StatusOK, "If-Match", s.do(access.Viewer, http.MethodGet, at, nil, http.StatusOK).Header.Get("ETag"))
	s.do(access.Lead, http.MethodDelete, at, nil, http.StatusNoContent, "If-Match", s.get(at).Header.Get("ETag"))
	s.do(access.Lead, http.MethodPost, s.undoOfLast(), nil, http.StatusOK)
	s.do(access.Viewer, http.MethodGet, at, nil, http.StatusOK)
	s.do(access.Viewer, http.MethodGet, "/jobs?limit=500", nil, http.StatusOK)
}

// undoOfLast is the call that takes the last change back.
func (s *shift) undoOfLast() string {
	s.t.Helper()
	list := read[struct {
		Items []struct{ Revision int64 }
	}](s.t, s.get("/changes?limit=1").want(s.t, http.StatusOK))
	return fmt.Sprintf("/changes/%d/undo", list.Items[0].Revision)
}

// floor starts and finishes a job, moves a set, and records a run.
func (s *shift) floor() {
	s.do(access.Operator, http.MethodPost, "/jobs/2101/start", map[string]any{"folder": "alder"}, http.StatusOK)
	s.do(access.Operator, http.MethodPost, "/jobs/2101/start", map[string]any{"folder": "alder"}, http.StatusConflict)
	s.do(access.Operator, http.MethodPost, "/jobs/2101/finish", nil, http.StatusOK)
	s.do(access.Operator, http.MethodPost, "/jobs/2101/finish", nil, http.StatusConflict)
	s.do(access.Operator, http.MethodPost, s.undoOfLast(), nil, http.StatusOK)
	s.do(access.Operator, http.MethodPost, "/sets/W-07/move", map[string]any{"bench": true}, http.StatusOK)
	run := map[string]any{"job": "2101", "folder": "alder", "start": "2026-03-02 06:10"}
	made := s.do(access.Operator, http.MethodPost, "/records", run, http.StatusCreated)
	s.do(access.Operator, http.MethodPost, "/records", run, http.StatusConflict)
	at := strings.TrimPrefix(made.Header.Get("Location"), api.Prefix)
	run["sheets"] = 12_900
	s.do(access.Operator, http.MethodPut, at, run, http.StatusOK, "If-Match", made.Header.Get("ETag"))
	s.do(access.Operator, http.MethodPut, at, run, http.StatusPreconditionFailed, "If-Match", made.Header.Get("ETag"))
	s.do(access.Viewer, http.MethodGet, at+"/past", nil, http.StatusOK)
	s.do(access.Viewer, http.MethodGet, "/records?job=2101", nil, http.StatusOK)
}

// day moves a job, takes the draft over, and takes that back.
func (s *shift) day() {
	lane := read[draft](s.t, s.do(access.Viewer, http.MethodGet, "/plans/given", nil, http.StatusOK)).lane("birch")
	made := s.do(access.Lead, http.MethodPost, "/plans/given/moves", map[string]any{"job": lane[len(lane)-1], "folder": "birch", "place": 1}, http.StatusCreated)
	s.do(access.Lead, http.MethodPost, "/plans/"+read[draft](s.t, made).ID+"/accept", nil, http.StatusOK)
	s.do(access.Lead, http.MethodPost, s.undoOfLast(), nil, http.StatusOK)
	s.do(access.Viewer, http.MethodGet, "/plans", nil, http.StatusOK)
	s.do(access.Viewer, http.MethodGet, "/plans/given", nil, http.StatusOK)
}

// people are invited, changed by two at once, and ended.
func (s *shift) people() {
	s.do(access.Admin, http.MethodPost, "/people/ada/invitation", map[string]any{"role": "operator", "lang": "de"}, http.StatusCreated)
	got := s.do(access.Admin, http.MethodGet, "/people/ada", nil, http.StatusOK)
	ada := read[map[string]any](s.t, got)
	ada["ended"] = true
	s.do(access.Admin, http.MethodPut, "/people/ada", ada, http.StatusOK, "If-Match", got.Header.Get("ETag"))
	s.do(access.Admin, http.MethodPut, "/people/ada", ada, http.StatusPreconditionFailed, "If-Match", got.Header.Get("ETag"))
	s.do(access.Admin, http.MethodGet, "/people", nil, http.StatusOK)
}

// vault takes a backup back: what was done after it is gone, and the trail goes on.
func (s *shift) vault() {
	copied := s.do(access.Admin, http.MethodPost, "/backups", nil, http.StatusOK)
	if !bytes.HasPrefix(copied.body, []byte("SQLite format 3\x00")) { // the header of its file format, sqlite.org/fileformat2.html
		s.t.Errorf("the backup begins %.20q", copied.body)
	}
	s.do(access.Operator, http.MethodPost, "/sets/W-06/move", map[string]any{"bench": true}, http.StatusOK)
	before := s.get("/sets/W-06").body
	s.do(access.Admin, http.MethodPost, "/restore", copied.body, http.StatusOK, "Content-Type", "application/vnd.sqlite3")
	if after := s.do(access.Viewer, http.MethodGet, "/sets/W-06", nil, http.StatusOK).body; bytes.Equal(before, after) {
		s.t.Error("the restore left what was done since")
	}
	s.do(access.Viewer, http.MethodGet, "/changes", nil, http.StatusOK)
	s.do(access.Operator, http.MethodPost, "/sets/W-06/move", map[string]any{"bench": true}, http.StatusOK)
}
