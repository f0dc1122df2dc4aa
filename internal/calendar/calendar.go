// Package calendar turns shift minutes into wall-clock time and back, across breaks, nights, holidays and the changes of
// daylight saving.
package calendar

import "time"

// Span is a piece of a day, in minutes after local midnight; To may exceed 24 h for a shift that ends the next morning.
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
