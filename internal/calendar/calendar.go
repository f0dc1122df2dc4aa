// Package calendar turns working time into wall-clock time and back, across breaks, nights, holidays and the changes of
// daylight saving.
//
// One rule settles everything: a moment is working time when the clock on the wall shows a time inside a span of that
// day, or of the day before for a shift that runs past midnight. So when the clock is put forward, the hour that is
// skipped is worked by nobody; when it is put back, what stands between two and three o'clock happens twice, work as well
// as break. A shift belongs to the day it starts on: an exception replaces the spans that start on its date and leaves
// the tail of the night before alone.
//
// Times are counted whole: [Calendar.Between] of a day is the sum of its windows to the nanosecond. A calendar is read
// only and may be shared. Costs grow with the number of days asked about.
package calendar

import "time"

// Span is a piece of a day, in minutes after midnight by the clock on the wall; To may exceed 24 h for a shift that ends
// the next morning.
type Span struct{ From, To int }

// Calendar is the working time of a folder or of a bench person.
type Calendar struct {
	Name string
	Zone *time.Location
	Week [7][]Span         // by time.Weekday
	Days map[string][]Span // "2026-12-24" replaces the week's spans; empty = closed
}

// Window is a piece of working time, From included, To excluded.
type Window struct{ From, To time.Time }

// minutesADay is a day of the clock on the wall, whatever the sun does.
const minutesADay = 24 * 60

// spans gives the spans that start on a date; date is midnight of it, in any zone.
func (c *Calendar) spans(date time.Time) []Span {
	if s, ok := c.Days[date.Format(time.DateOnly)]; ok {
		return s
	}
	return c.Week[date.Weekday()]
}

// zone is the calendar's zone, UTC when it has none.
func (c *Calendar) zone() *time.Location {
	if c.Zone == nil {
		return time.UTC
	}
	return c.Zone
}
