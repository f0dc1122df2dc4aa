package api_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"net/http"
	"strings"
	"testing"

	"foldwright/internal/access"
)

// Goal: every print and picture comes as what it says it is, under a name, and is not sent again to who has it. The wanted first bytes
// are those of ISO 32000 (PDF) and of an XML document.
func TestPrintsAndPictures(t *testing.T) {
	d := open(t)
	for path, file := range map[string]string{
		"/jobs/2101/card.pdf": "card-2101.pdf",
		"/jobs/2101/card.pdf?folder=alder&paper=Letter&lang=de":             "card-2101.pdf",
		"/jobs/2101/drawings/sheet.svg":                                     "sheet-2101.svg",
		"/jobs/2101/drawings/sequence.svg?lang=fr":                          "sequence-2101.svg",
		"/jobs/2101/drawings/shafts.svg?inch=true":                          "shafts-2101.svg",
		"/jobs/2101/drawings/dummy.svg":                                     "dummy-2101.svg",
		"/jobs/2124/drawings/dummy.svg":                                     "dummy-2124.svg", // no folder can, the paper does
		"/sets/labels.pdf":                                                  "labels.pdf",
		"/sets/labels.pdf?set=W-04&set=W-05&stock=A4%20105%20x%2074&skip=2": "labels.pdf",
		"/sets/W-04/label.pdf":                                              "label-W-04.pdf",
		"/sets/W-04/drawing.svg":                                            "set-W-04.svg",
		"/sets/W-07/bench.pdf?job=2101":                                     "bench-W-07.pdf",
		"/plans/given/cards.pdf?lang=es":                                    "cards-2026-03-02.pdf",
		"/plans/given/bench.pdf":                                            "bench-2026-03-02.pdf",
		"/plans/given/day.svg":                                              "day-given.svg",
		"/plans/given/day.svg?day=2&lang=de":                                "day-given.svg",
	} {
		t.Run(path, func(t *testing.T) {
			got := d.get(path).want(t, http.StatusOK)
			if name := got.Header.Get("Content-Disposition"); name != "inline; filename="+file {
				t.Errorf("it is called %s", name)
			}
			holdFile(t, got)
			same := d.send(ask{method: http.MethodGet, path: path, as: access.Viewer, head: map[string]string{"If-None-Match": got.Header.Get("ETag")}})
			same.want(t, http.StatusNotModified)
		})
	}
}

func holdFile(t *testing.T, a answer) {
	t.Helper()
	switch media := a.Header.Get("Content-Type"); media {
	case "application/pdf":
		if !bytes.HasPrefix(a.body, []byte("%PDF-1.")) || !bytes.Contains(a.body[len(a.body)-20:], []byte("%%EOF")) {
			t.Errorf("no PDF: %.40q", a.body)
		}
	case "image/svg+xml":
		for x := xml.NewDecoder(bytes.NewReader(a.body)); ; {
			_, err := x.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("no XML: %v", err)
			}
		}
		if !strings.Contains(string(a.body[:200]), "<svg") {
			t.Errorf("no SVG: %.200s", a.body)
		}
	default:
		t.Errorf("of the sort %q", media)
	}
}

func TestPrintFaults(t *testing.T) {
	d := open(t)
	for path, code := range map[string]string{
		"/jobs/21o1/card.pdf":              "unknown-name",
		"/jobs/2124/card.pdf":              "no-folder",
		"/jobs/2124/drawings/shafts.svg":   "no-folder",
		"/jobs/2101/card.pdf?paper=A3":     "request",
		"/jobs/2101/card.pdf?lang=xx":      "request",
		"/jobs/2101/card.pdf?size=A4":      "request",
		"/sets/labels.pdf?stock=rice":      "label-stock",
		"/sets/labels.pdf?skip=500":        "label-skip",
		"/sets/labels.pdf?set=W-40":        "unknown-name",
		"/sets/S-03/bench.pdf?job=2101":    "no-station",
		"/sets/W-04/bench.pdf":             "request",
		"/plans/given/day.svg?day=300":     "request",
		"/plans/nothing/day.svg":           "no-draft",
		"/jobs/2101/drawings/elephant.svg": "request-route",
	} {
		got := d.get(path)
		if got.StatusCode != http.StatusNotFound {
			got.want(t, http.StatusUnprocessableEntity)
		}
		got.wantProblem(t, got.StatusCode, code)
	}
}
