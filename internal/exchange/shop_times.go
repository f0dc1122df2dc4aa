package exchange

import (
	"strings"
	"time"
	_ "time/tzdata" // a bare machine may have no zones

	"foldwright/internal/calendar"
	"foldwright/internal/fault"
)

// The codes of moments.
const (
	CodeMoment fault.Code = "moment"       // not understood
	CodeClock  fault.Code = "moment-clock" // a time that the clock skips, or shows twice, when daylight saving changes
)

// The years in which a shop plans; anything else is a slip of the keyboard.
const (
	yearLeast = 2000
	yearMost  = 2199
)

const (
	minuteForm = "2006-01-02 15:04"
	secondForm = "2006-01-02 15:04:05.999999999"
	offsetForm = " -07:00"
)

var zone = text("a time zone such as Europe/Berlin", anyText, func(_ *reading, t string) (*time.Location, error) {
	if t == "" || t == "Local" {
		return nil, noZone(t)
	}
	z, err := time.LoadLocation(t)
	if err != nil {
		return nil, noZone(t)
	}
	return z, nil
}, func(_ *writing, z *time.Location) string { return z.String() })

func noZone(t string) error {
	return fault.Fault{
		Kind: fault.Input, Code: CodeZone, Wrong: quoted(t) + " is no time zone",
		Right: "write a name of the IANA time zone list, area and place, such as Europe/Berlin or America/New_York",
	}
}

var moment = text("a date and time such as 2026-03-02 14:00", schema{"type": "string", "pattern": `^\d{4}-\d\d-\d\d[ T]\d\d?:\d\d`},
	func(r *reading, t string) (time.Time, error) { return parseMoment(t, r.zone) },
	func(w *writing, v time.Time) string { return momentText(v.In(w.zone)) }).as(FormMoment)

// parseMoment reads a moment by the clock of a zone, or with an offset of its own; programs write the latter as RFC 3339
// has it.
func parseMoment(text string, zone *time.Location) (time.Time, error) {
	if t, err := time.Parse(time.RFC3339Nano, text); err == nil {
		return inReason(text, t.In(zone))
	}
	tidy := strings.Join(strings.Fields(strings.Replace(text, "T", " ", 1)), " ")
	for _, form := range []string{minuteForm, secondForm} {
		if t, err := time.Parse(form+offsetForm, tidy); err == nil {
			return inReason(text, t.In(zone))
		}
		if t, err := time.ParseInLocation(form, tidy, zone); err == nil {
			if f, ok := onceByTheClock(text, tidy, form, t); !ok {
				return t, f
			}
			return inReason(text, t)
		}
	}
	return time.Time{}, fault.Fault{
		Kind: fault.Input, Code: CodeMoment, Wrong: quoted(text) + " is no date and time",
		Right: "write year, month, day and the time, such as 2026-03-02 14:00",
	}
}

func inReason(text string, t time.Time) (time.Time, error) {
	if y := t.Year(); y < yearLeast || y > yearMost {
		return t, fault.Fault{
			Kind: fault.Input, Code: CodeMoment, Wrong: quoted(text) + " is out of reason",
			Right: "write a year from " + decimal(yearLeast) + " to " + decimal(yearMost),
		}
	}
	return t, nil
}

// onceByTheClock refuses times that the clock never shows and those that it shows twice.
func onceByTheClock(text, tidy, form string, t time.Time) (fault.Fault, bool) {
	if again, err := time.Parse(form, tidy); err != nil || again.Format(secondForm) != t.Format(secondForm) {
		return fault.Fault{
			Kind: fault.Input, Code: CodeClock, Wrong: quoted(text) + " never comes: the clock is put forward over it",
			Right: "write " + t.Format(minuteForm) + " or " + t.Add(-time.Hour).Format(minuteForm),
		}, false
	}
	if twin, ok := sameClock(t); ok {
		return fault.Fault{
			Kind: fault.Input, Code: CodeClock, Wrong: quoted(text) + " comes twice: the clock is put back over it",
			Right: "say which one: " + t.Format(minuteForm+offsetForm) + " or " + twin.Format(minuteForm+offsetForm),
		}, false
	}
	return fault.Fault{}, true
}

// sameClock finds another moment at which the clock shows the same. Clocks are put back by an hour, in a few places by
// half an hour or two.
func sameClock(t time.Time) (time.Time, bool) {
	for _, d := range []time.Duration{30 * time.Minute, time.Hour, 2 * time.Hour} {
		for _, twin := range []time.Time{t.Add(d), t.Add(-d)} {
			if twin.Format(secondForm) == t.Format(secondForm) {
				return twin, true
			}
		}
	}
	return t, false
}

// absence is a time at which a folder is down or a person away. The end may leave out the day when it is the same.
var absence = text("from when to when, such as 2026-03-02 10:00 to 2026-03-02 14:00", schema{"type": "string", "pattern": " to "}, parseAbsence,
	func(w *writing, v calendar.Window) string {
		return momentText(v.From.In(w.zone)) + " to " + momentText(v.To.In(w.zone))
	})

func parseAbsence(r *reading, text string) (w calendar.Window, err error) {
	first, second, ok := strings.Cut(text, " to ")
	if !ok {
		return w, fault.Fault{
			Kind: fault.Input, Code: CodeMoment, Wrong: quoted(text) + " is no time from and to",
			Right: "write two moments with to between them, such as 2026-03-02 10:00 to 2026-03-02 14:00",
		}
	}
	if w.From, err = parseMoment(first, r.zone); err != nil {
		return w, err
	}
	if _, clock := time.Parse("15:04", strings.TrimSpace(second)); clock == nil {
		second = w.From.Format(time.DateOnly) + " " + second
	}
	w.To, err = parseMoment(second, r.zone)
	return w, err
}

// momentText writes a moment in its zone so that it reads back the same.
func momentText(t time.Time) string {
	form := minuteForm
	if t.Second() != 0 || t.Nanosecond() != 0 {
		form = secondForm
	}
	if _, twice := sameClock(t); twice {
		form += offsetForm
	}
	return t.Format(form)
}
