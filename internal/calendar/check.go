package calendar

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"foldwright/internal/fault"
)

// Check lists everything that is wrong with a calendar. Fields are named from the calendar: week[1], days[2026-12-24].
func (c *Calendar) Check() fault.List {
	var faults fault.List
	if c.Zone == nil {
		faults.Add(fault.Fault{Code: CodeZone, Field: "zone", Wrong: "the calendar has no time zone", Right: "name one such as Europe/Berlin"})
	}
	open := false
	for day, spans := range c.Week {
		faults = append(faults, checkSpans(fmt.Sprintf("week[%d]", day), spans)...)
		open = open || len(spans) > 0
	}
	for _, date := range slices.Sorted(maps.Keys(c.Days)) {
		field := "days[" + date + "]"
		if _, err := time.Parse(time.DateOnly, date); err != nil {
			faults.Add(fault.Fault{Code: CodeDate, Field: field, Wrong: fmt.Sprintf("%q is no date", date), Right: "write year, month and day as 2026-12-24"})
		}
		faults = append(faults, checkSpans(field, c.Days[date])...)
		open = open || len(c.Days[date]) > 0
	}
	if !open {
		faults.Add(fault.Fault{Code: CodeEmpty, Wrong: "the calendar has no working time on any day", Right: "give at least one day a span such as 06:00-14:00"})
	}
	return faults
}

// checkSpans holds the spans of one day to their rules.
func checkSpans(field string, spans []Span) (faults fault.List) {
	for _, s := range spans {
		if s.From < 0 || s.From >= minutesADay || s.To <= s.From || s.To > s.From+minutesADay {
			faults.Add(fault.Fault{
				Code: CodeSpan, Field: field, Wrong: fmt.Sprintf("minutes %d to %d are no span of a day", s.From, s.To),
				Right: "a span starts within its day and ends later, within 24 hours",
			})
			return faults
		}
	}
	if f := overlap(spans); f != nil {
		f.Field = field
		faults.Add(*f)
	}
	return faults
}

// overlap finds two spans of one day that share a minute.
func overlap(spans []Span) *fault.Fault {
	sorted := slices.SortedFunc(slices.Values(spans), func(a, b Span) int { return a.From - b.From })
	for i := 1; i < len(sorted); i++ {
		if sorted[i].From < sorted[i-1].To {
			return &fault.Fault{
				Code: CodeOverlap, Wrong: sorted[i-1].String() + " and " + sorted[i].String() + " overlap",
				Right: "let each span start when the one before has ended",
			}
		}
	}
	return nil
}
