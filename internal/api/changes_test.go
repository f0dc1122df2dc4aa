package api_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/api"
	"foldwright/internal/exchange"
)

type changeList struct {
	Items []exchange.ChangeDocument `json:"items"`
	Next  string                    `json:"next"`
}

func TestTrailAndUndo(t *testing.T) {
	d := open(t)
	lead := func(method, path string, body any) answer {
		return d.send(ask{method: method, path: path, body: body, as: access.Lead})
	}
	first := read[changeList](t, d.send(ask{method: http.MethodGet, path: "/changes?limit=1", as: access.Admin})).Items[0].Revision // the accounts of the test came before
	for place := 1; place <= 3; place++ {
		lead(http.MethodPut, "/jobs/2101/pin", map[string]any{"folder": []string{"birch", "alder", "birch"}[place-1]}).want(t, http.StatusOK)
	}
	page := read[changeList](t, d.get("/changes?limit=2").want(t, http.StatusOK))
	next := read[changeList](t, d.get(strings.TrimPrefix(page.Next, api.Prefix)).want(t, http.StatusOK))
	if len(page.Items) != 2 || page.Items[0].Revision != first+3 || next.Items[0].Revision != first+1 || page.Items[0].Who != "lead by test" || page.Items[0].What != "2101 pinned to birch" {
		t.Errorf("%+v then %+v", page.Items, next.Items)
	}
	of := read[changeList](t, d.get("/changes?thing="+page.Items[0].Things[0].ID).want(t, http.StatusOK))
	if len(of.Items) != 4 { // three pins and the beginning
		t.Errorf("%d changes of the job", len(of.Items))
	}
	undone := read[struct {
		Revision int64 `json:"revision"`
	}](t, lead(http.MethodPost, fmt.Sprintf("/changes/%d/undo", first+3), nil).want(t, http.StatusOK))
	if undone.Revision != first+4 || d.job("2101").Pin.Folder != "alder" {
		t.Errorf("taken back as %d, pinned to %s", undone.Revision, d.job("2101").Pin.Folder)
	}
	lead(http.MethodPost, fmt.Sprintf("/changes/%d/undo", first+1), nil).want(t, http.StatusConflict) // changed again since
	lead(http.MethodPost, fmt.Sprintf("/changes/%d/undo", 9999), nil).want(t, http.StatusNotFound)
	lead(http.MethodPost, "/changes/last/undo", nil).wantProblem(t, http.StatusUnprocessableEntity, "request")
}
