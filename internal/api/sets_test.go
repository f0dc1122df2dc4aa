package api_test

import (
	"net/http"
	"strings"
	"testing"

	"foldwright/internal/access"
)

// The work on a set, from the rack into a station, changed for a job, stripped, retired.
func TestWorkOnASet(t *testing.T) {
	d := open(t)
	op := func(path string, body any) answer {
		return d.send(ask{method: http.MethodPost, path: "/sets/" + path, body: body, as: access.Operator})
	}
	set := func(label string) map[string]any {
		return read[map[string]any](t, d.get("/sets/"+label).want(t, http.StatusOK))
	}
	loose := func(tool string) any {
		return read[map[string]any](t, d.get("/tools/"+strings.ReplaceAll(tool, " ", "%20")).want(t, http.StatusOK))["loose"]
	}
	op("W-07/build", map[string]any{"job": "2101", "folder": "birch"}).want(t, http.StatusOK)
	if tools := set("W-07")["tools"].([]any); len(tools) != 1 || !strings.HasPrefix(tools[0].(string), "perforate 12 tpi") {
		t.Errorf("W-07 carries %v", tools)
	}
	if n := loose("perforate 12 tpi for wide 35"); n != 2.0 { // of three
		t.Errorf("%v perforations lie loose", n)
	}
	op("W-07/move", map[string]any{"folder": "birch", "station": "1A"}).want(t, http.StatusOK)
	if w02 := set("W-02"); w02["slot"] != "A4" {
		t.Errorf("W-02, which stood there, is %v", w02)
	}
	p := op("W-05/move", map[string]any{"slot": "A1"}).wantProblem(t, http.StatusUnprocessableEntity, "set-place")
	if p.Errors[0].Field != "" {
		t.Errorf("the field is %q", p.Errors[0].Field)
	}
	op("W-05/move", map[string]any{}).wantProblem(t, http.StatusUnprocessableEntity, "set-place")
	op("W-05/move", map[string]any{"drawer": "A1"}).wantProblem(t, http.StatusUnprocessableEntity, "request")
	op("W-07/strip", nil).want(t, http.StatusOK)
	if n := loose("perforate 12 tpi for wide 35"); n != 3.0 {
		t.Errorf("%v perforations lie loose", n)
	}
	lead := ask{method: http.MethodPost, path: "/sets/W-07/retire", as: access.Lead}
	d.send(lead).wantProblem(t, http.StatusUnprocessableEntity, "set-mounted")
	op("W-07/move", map[string]any{"bench": true}).want(t, http.StatusOK)
	d.send(lead).want(t, http.StatusNoContent)
	d.send(lead).wantProblem(t, http.StatusNotFound, "unknown-name")
}
