package fault_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"foldwright/internal/calendar"
	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/paper"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// readers read what people type; the first example in a row of docs/faults.md must give the code of the row.
var readers = map[string]func(text string) error{
	"length":         func(s string) error { _, err := units.ParseLength(s, units.Millimetre); return err },
	"thickness":      func(s string) error { _, err := units.ParseThickness(s, units.Micrometre); return err },
	"grammage":       func(s string) error { _, err := units.ParseGrammage(s); return err },
	"basis-class":    func(s string) error { _, err := units.ParseGrammage(s); return err },
	"speed":          func(s string) error { _, err := units.ParseSpeed(s); return err },
	"minutes":        func(s string) error { _, err := units.ParseMinutes(s); return err },
	"quantity-range": func(s string) error { _, err := units.ParseLength(s, units.Millimetre); return err },
	"least-most":     func(s string) error { _, _, err := units.ParseRange(s, units.Millimetre); return err },
	"size":           func(s string) error { _, _, err := paper.ParseSize(s, units.Millimetre); return err },
	"size-range":     func(s string) error { _, _, err := paper.ParseSize(s, units.Millimetre); return err },
	"finish":         func(s string) error { _, err := paper.ParseFinish(s); return err },
	"grain":          func(s string) error { _, err := paper.ParseGrain(s, units.Metre, units.Metre); return err },
	"span":           func(s string) error { _, err := calendar.ParseSpans(s); return err },
	"span-overlap":   func(s string) error { _, err := calendar.ParseSpans(s); return err },
	"weekday":        func(s string) error { _, err := calendar.ParseDays(s); return err },
	"tool-kind":      func(s string) error { _, err := tooling.ParseType(s, units.Millimetre); return err },
	"tool-spec":      func(s string) error { _, err := tooling.ParseType(s, units.Millimetre); return err },
	"tool":           func(s string) error { _, err := tooling.Parse(s, units.Millimetre); return err },
	"fold-notation":  func(s string) error { _, err := fold.Parse(s); return err },
	"fold-name":      func(s string) error { _, err := fold.Catalogue(s); return err },
}

// row takes the code and the first example out of a row of the page.
var row = regexp.MustCompile("(?m)^\\| `([a-z-]+)` \\| `([^`]+)`")

func TestExamplesGiveTheirCode(t *testing.T) {
	text, err := os.ReadFile("../../docs/faults.md")
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, m := range row.FindAllStringSubmatch(string(text), -1) {
		code, example := fault.Code(m[1]), m[2]
		read := readers[m[1]]
		if read == nil {
			continue
		}
		tried++
		faults := fault.All(read(example))
		if len(faults) != 1 || faults[0].Code != code || strings.TrimSpace(faults[0].Right) == "" {
			t.Errorf("%q gives %v, want one fault of the code %s that says what would be right", example, faults, code)
		}
	}
	if tried != len(readers) {
		t.Errorf("%d of %d examples were found on the page", tried, len(readers))
	}
}
