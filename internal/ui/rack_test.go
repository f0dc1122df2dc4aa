package ui

import (
	"encoding/base64"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
	"foldwright/internal/tooling"
	"foldwright/internal/words"
)

// The rack lists the sets and what serves a job; a set has its page, which the code on its label opens. What changes a set is
// offered to who may, and prints are PDFs.
func TestRack(t *testing.T) {
	holdSights(t, demoPages(t), []sight{
		{access.Viewer, "/rack", http.StatusOK, []string{"W-01", "N-01", "Loose tools", "perforate 12 tpi"}, []string{"/new/set"}},
		{access.Lead, "/rack", http.StatusOK, []string{"/new/set"}, nil},
		{access.Viewer, "/rack?q=W-0&place=folder", http.StatusOK, []string{">W-01<"}, []string{">N-01<"}},
		{access.Viewer, "/rack?q=no+such+thing", http.StatusOK, []string{"No set is like that"}, nil},
		{access.Viewer, "/rack?job=2101", http.StatusOK, []string{"What serves 2101", "alder"}, nil},
		{access.Viewer, "/rack?job=nonsense", http.StatusNotFound, nil, nil},
		{access.Viewer, "/rack/W-07", http.StatusOK, []string{"<svg", "cut even when they stand still", "Show how"}, []string{"/rack/W-07/move", "/edit/set"}},
		{access.Operator, "/rack/W-07", http.StatusOK, []string{"/rack/W-07/move", "birch/1A"}, []string{"/rack/W-07/retire"}},
		{access.Lead, "/rack/W-07", http.StatusOK, []string{"/rack/W-07/retire", "/edit/set"}, nil},
		{access.Operator, "/rack/W-07?job=2101", http.StatusOK, []string{"/rack/W-07/build", "bench.pdf?job=2101"}, nil},
		{access.Viewer, "/rack/W-99", http.StatusNotFound, []string{"W-0"}, nil},
		{access.Viewer, "/rack/labels.pdf?set=W-07&stock=A4+99.1+x+67.7", http.StatusOK, []string{"%PDF"}, nil},
		{access.Viewer, "/rack/labels.pdf?stock=wallpaper", http.StatusUnprocessableEntity, []string{"99.1"}, nil},
		{access.Viewer, "/rack/labels.pdf?stock=A4+99.1+x+67.7&skip=-1", http.StatusUnprocessableEntity, nil, nil},
		{access.Viewer, "/rack/W-07/bench.pdf?job=2101", http.StatusOK, []string{"%PDF"}, nil},
	})
}

// The word after a click offers to take back what the click did: never what somebody else did to the same set before, when the set already
// was as the click would have it.
func TestOnlyWhatWasJustDoneIsTakenBack(t *testing.T) {
	h, d := kept(t, speaking{lang: words.English})
	move := func(to string) int64 {
		return said(t, ask(t, h, asked{role: access.Lead, method: http.MethodPost, target: "/rack/W-07/move", form: url.Values{"to": {to}}})).Undo
	}
	first := move("bench")
	if first == 0 {
		t.Fatal("a move cannot be taken back")
	}
	if again := move("bench"); again != first {
		t.Errorf("a second click offers to take back %d, not what the first did, %d", again, first)
	}
	ben := access.With(t.Context(), access.Who{Name: "ben", Role: access.Operator})
	if _, err := d.MoveSet(ben, "W-07", tooling.Place{Slot: "Z 9"}); err != nil {
		t.Fatal(err)
	}
	if _, err := d.MoveSet(ben, "W-07", tooling.Place{Bench: true}); err != nil {
		t.Fatal(err)
	}
	if other := move("bench"); other != 0 {
		t.Errorf("a click that did nothing offers to take back %d, which ben did", other)
	}
	if list, err := d.History(ben, ledger.Page{Limit: 1}); err != nil || list[0].Who != "ben" {
		t.Errorf("the last change is %+v, %v", list, err)
	}
}

// said is the word about what was done that an answer brings along.
func said(t *testing.T, w *httptest.ResponseRecorder) (f flash) {
	t.Helper()
	for _, c := range w.Result().Cookies() {
		if c.Name != flashCookie {
			continue
		}
		data, err := base64.RawURLEncoding.DecodeString(c.Value)
		if err == nil {
			err = json.Unmarshal(data, &f)
		}
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	t.Fatalf("nothing is said: %d %s", w.Code, w.Body)
	return f
}
