package changeover

import (
	"fmt"
	"strings"
	"time"

	"foldwright/internal/units"
)

// Lines explains the change.
func (c Change) Lines(std *Standards, inch bool) []Line {
	var list []Line
	add := func(what, why string, t time.Duration) {
		if t > 0 {
			list = append(list, Line{what, why, t})
		}
	}
	add("docket", c.docketWords(), std.Docket)
	if c.Sheet {
		add("sheet", c.sheetWords(inch), std.Sheet)
	}
	if c.Stock {
		add("stock", c.stockWords(inch), std.Stock)
	}
	add("units", c.unitWords(), c.unitTime(std))
	add("plates", c.stopWords(), c.stopTime(std))
	add("gaps", fmt.Sprintf("%d %s set", c.Gaps, plural(c.Gaps, "nip", "nips")), times(c.Gaps, std.Gap))
	add("trial", fmt.Sprintf("trial sheets, %d %s to check", c.Folds, plural(c.Folds, "fold", "folds")), c.trialTime(std))
	return list
}

func (c Change) docketWords() string {
	switch {
	case c.Anew:
		return "docket change; how the folder is set is not known, so all is set anew"
	case c.Same():
		return "docket change; nothing else differs"
	default:
		return "docket change"
	}
}

func (c Change) sheetWords(inch bool) string {
	if c.Anew {
		return c.To.size(inch)
	}
	return c.From.size(inch) + " before, " + c.To.size(inch) + " now"
}

func (s Sheet) size(inch bool) string { return s.Length.Format(inch) + " × " + s.Width.Format(inch) }

func (c Change) stockWords(inch bool) string {
	now := units.FormatMicrons(c.To.Caliper, inch)
	if c.Anew {
		return now + " thick"
	}
	return units.FormatMicrons(c.From.Caliper, inch) + " thick before, " + now + " now"
}

func (c Change) unitWords() string {
	var parts []string
	add := func(numbers []int, what string) {
		if len(numbers) > 0 {
			parts = append(parts, unitList(numbers)+" "+what)
		}
	}
	add(c.Coupled, "coupled")
	add(c.Uncoupled, "uncoupled")
	add(c.Turned, "entered another way")
	return strings.Join(parts, ", ")
}

func (c Change) stopWords() string {
	var parts []string
	add := func(n int, one, many string) {
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, plural(n, one, many)))
		}
	}
	add(c.Stops, "stop set", "stops set")
	add(c.Opened, "plate opened", "plates opened")
	add(c.Closed, "plate closed", "plates closed")
	return strings.Join(parts, ", ")
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// unitList writes "unit 1", "units 1 and 3".
func unitList(numbers []int) string {
	words := make([]string, len(numbers))
	for i, n := range numbers {
		words[i] = fmt.Sprint(n)
	}
	text := strings.Join(words, ", ")
	if i := strings.LastIndex(text, ", "); i >= 0 {
		text = text[:i] + " and " + text[i+2:]
	}
	return plural(len(numbers), "unit ", "units ") + text
}
