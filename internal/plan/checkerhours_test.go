package plan_test

import (
	"maps"
	"slices"
	"time"

	"foldwright/internal/calendar"
)

// hours is a calendar with gaps, made in another way than the shop makes it: by exceptions for the days that a gap
// touches. Gaps are whole minutes on days without a change of the clock.
func (c *checker) hours(name string, gaps []calendar.Window) *calendar.Calendar {
	cal, _ := c.shop.Calendar(name)
	out := *cal
	out.Days = maps.Clone(cal.Days)
	if out.Days == nil {
		out.Days = map[string][]calendar.Span{}
	}
	for _, gap := range gaps {
		from, to := gap.From.In(cal.Zone), gap.To.In(cal.Zone)
		year, month, day := from.Date()
		for date := time.Date(year, month, day-1, 0, 0, 0, 0, cal.Zone); date.Before(to); date = date.AddDate(0, 0, 1) {
			key := date.Format(time.DateOnly)
			spans, exception := out.Days[key]
			if !exception {
				spans = cal.Week[date.Weekday()]
			}
			out.Days[key] = cutOut(slices.Clone(spans), int(from.Sub(date)/time.Minute), int(to.Sub(date)/time.Minute))
		}
	}
	return &out
}

// cutOut takes the minutes from one to another out of the spans of a day.
func cutOut(spans []calendar.Span, from, to int) []calendar.Span {
	out := []calendar.Span{}
	for _, s := range spans {
		for _, rest := range []calendar.Span{{From: s.From, To: min(s.To, from)}, {From: max(s.From, to), To: s.To}} {
			if rest.From < rest.To {
				out = append(out, rest)
			}
		}
	}
	return out
}

// down is when a folder cannot work.
func (c *checker) down(folder string) []calendar.Window {
	for _, s := range c.shop.States {
		if s.Folder == folder {
			return s.Down
		}
	}
	return nil
}
