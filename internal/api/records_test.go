package api_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/api"
)

type recordList struct {
	Items []map[string]any `json:"items"`
	Next  string           `json:"next"`
}

func TestRecords(t *testing.T) {
	d := open(t)
	op := func(method, path string, body any, head map[string]string) answer {
		return d.send(ask{method: method, path: path, body: body, head: head, as: access.Operator})
	}
	for day := 1; day <= 5; day++ {
		op(http.MethodPost, "/records", map[string]any{"job": "2095", "folder": "birch", "start": fmt.Sprintf("2026-03-0%dT08:00:00+01:00", day)}, nil).want(t, http.StatusCreated)
	}
	made := op(http.MethodPost, "/records", map[string]any{
		"job": "2101", "folder": "alder", "start": "2026-03-02 06:10", "good": "2026-03-02T06:40:00+01:00",
		"plates": []any{map[string]any{"where": "unit 1 plate 2", "set_mm": 430, "was_mm": 430.4}},
	}, nil).want(t, http.StatusCreated)
	at := strings.TrimPrefix(made.Header.Get("Location"), api.Prefix)
	record := read[map[string]any](t, d.get(at).want(t, http.StatusOK))
	if record["who"] != "operator by test" || record["start"] != "2026-03-02T06:10:00+01:00" {
		t.Errorf("%v", record)
	}
	record["end"], record["sheets"] = "2026-03-02T08:00:00+01:00", 13000
	op(http.MethodPut, at, record, nil).wantProblem(t, http.StatusPreconditionRequired, "if-match")
	tag := made.Header.Get("ETag")
	put := op(http.MethodPut, at, record, map[string]string{"If-Match": tag}).want(t, http.StatusOK)
	op(http.MethodPut, at, record, map[string]string{"If-Match": tag}).wantProblem(t, http.StatusPreconditionFailed, "changed-meanwhile")
	d.send(ask{method: http.MethodGet, path: at, as: access.Viewer, head: map[string]string{"If-None-Match": put.Header.Get("ETag")}}).want(t, http.StatusNotModified)

	past := read[recordList](t, d.get(at+"/past").want(t, http.StatusOK))
	if len(past.Items) != 2 || past.Items[0]["sheets"] != 13000.0 || past.Items[1]["sheets"] != nil {
		t.Errorf("its past is %v", past.Items)
	}

	first := read[recordList](t, d.get("/records?limit=2&job=2095").want(t, http.StatusOK))
	second := read[recordList](t, d.get(strings.TrimPrefix(first.Next, api.Prefix)).want(t, http.StatusOK))
	if len(first.Items) != 2 || len(second.Items) != 2 || !strings.Contains(second.Next, "job=2095") || first.Items[0]["start"] != "2026-03-05T08:00:00+01:00" || second.Items[0]["start"] != "2026-03-03T08:00:00+01:00" {
		t.Errorf("%v then %v", first, second)
	}
	some := read[recordList](t, d.get("/records?from=2026-03-02T00:00:00Z&to=2026-03-04T00:00:00Z").want(t, http.StatusOK))
	if len(some.Items) != 3 {
		t.Errorf("%d records of two days", len(some.Items))
	}
}

func TestRecordFaults(t *testing.T) {
	d := open(t)
	post := func(body map[string]any) answer {
		return d.send(ask{method: http.MethodPost, path: "/records", body: body, as: access.Operator})
	}
	post(map[string]any{"job": "2101", "folder": "brich", "start": "2026-03-02T06:10:00Z"}).want(t, http.StatusNotFound)
	p := post(map[string]any{"job": "2101", "folder": "birch", "start": "2026-03-02T06:10:00Z", "good": "2026-03-02T06:00:00Z"}).wantProblem(t, http.StatusUnprocessableEntity, "record-times")
	if p.Errors[0].Field != "good" {
		t.Errorf("the field is %s", p.Errors[0].Field)
	}
	post(map[string]any{"job": "2101", "folder": "birch", "start": "yesterday"}).wantProblem(t, http.StatusUnprocessableEntity, "moment")
	d.get("/records?after=nothing").want(t, http.StatusNotFound)
	d.get("/records?from=yesterday").wantProblem(t, http.StatusUnprocessableEntity, "request")
	d.get("/records/nothing").want(t, http.StatusNotFound)
}
