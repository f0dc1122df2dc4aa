package exchange

import (
	"math"
	"strings"
	"time"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// The values of documents that have no place in a shop file. Units stand in the names of the fields, so that a number is
// enough.
var (
	// instant is a moment with the offset of the shop's clock (RFC 3339). One without an offset is by that clock, which is
	// what a page's own date field sends.
	instant = text("a date and time such as 2026-03-02T14:00:00+01:00", schema{"type": "string", "format": "date-time"},
		func(r *reading, t string) (time.Time, error) { return parseMoment(t, r.zone) },
		func(w *writing, v time.Time) string { return v.In(w.zone).Format(time.RFC3339Nano) }).as(FormMoment)

	// millimetres is a length to the nanometre.
	millimetres = text("millimetres such as 305.5", schema{"type": "number"},
		func(_ *reading, t string) (units.Length, error) {
			if !jsonNumber.MatchString(t) {
				return 0, fault.Fault{Kind: fault.Input, Code: CodeNumber, Wrong: quoted(t) + " is no number", Right: "write millimetres such as 305.5"}
			}
			return units.ParseOffset(t, units.Millimetre)
		},
		func(_ *writing, v units.Length) string { return strings.TrimSuffix(v.Exact(), " mm") }).as(FormNumber)

	// wholeSeconds is a duration in minutes with four decimals, as plans have them: sixty times the figure, rounded, is the
	// seconds.
	wholeSeconds = text("minutes such as 12.5", schema{"type": "number"}, parseSeconds,
		func(w *writing, v time.Duration) string { return number.write(w, inMinutes(v)).Value }).as(FormNumber)

	version = text("a whole number", schema{"type": "integer"},
		func(_ *reading, t string) (int64, error) {
			n, err := parseCount(t)
			return int64(n), err
		},
		func(w *writing, v int64) string { return count.write(w, int(v)).Value }).as(FormCount)
)

// minutesMost is the longest time that is told in minutes: about two years.
const minutesMost = 1e6

func parseSeconds(_ *reading, t string) (time.Duration, error) {
	minutes, err := parseNumber(t)
	if err == nil && !(minutes >= 0 && minutes <= minutesMost) {
		err = fault.Fault{Kind: fault.Input, Code: CodeNumber, Wrong: quoted(t) + " is beyond reason", Right: "write minutes from 0 to 1000000"}
	}
	return time.Duration(math.Round(minutes*60)) * time.Second, err
}

// maybeInstant is an instant that may be left out.
func maybeInstant[T any](name, about string, place func(*T) *time.Time) field[T] {
	return maybeTime(name, about, instant, place)
}

// ours is a field that the program fills in. Who sends a document back that was read need not take it out.
func ours[T any](f field[T]) field[T] {
	f.ours = true
	return f
}
