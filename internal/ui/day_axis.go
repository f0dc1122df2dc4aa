package ui

import (
	"fmt"
	"slices"
	"time"

	"foldwright/internal/calendar"
)

// dayAxis is the time axis of the board. Hours in which anybody works are to scale; what lies between, a night or a
// Sunday, is folded to a narrow strip, so that a week stays in reach of the eye.
type dayAxis struct {
	parts []axisPart
	Ticks []axisTick
	Folds []axisFold
	Days  []axisDay
	End   axisPlace
}

// axisPart is a piece of the axis, to scale or folded.
type axisPart struct {
	from, to time.Time
	folded   bool
}

// axisPlace is a place on the axis: so many minutes to scale and so many strips from the left. The script knows how wide
// either is.
type axisPlace struct{ minutes, strips float64 }

// String is the place as the script reads it.
func (p axisPlace) String() string { return fmt.Sprintf("%.1f %.3f", p.minutes, p.strips) }

// axisSpan is a piece of time on the axis.
type axisSpan struct{ At, To axisPlace }

// axisTick is a full hour.
type axisTick struct {
	At    axisPlace
	Hour  string
	Third bool // still told where the hours are narrow
}

// axisFold is a strip, with how long it stands for.
type axisFold struct {
	axisSpan
	Long time.Duration
}

// axisDay is where a calendar day begins on the axis.
type axisDay struct {
	At   axisPlace
	Date time.Time
}

// foldedFrom is how long nobody must work for the time to be folded; breaks are not.
const foldedFrom = 90 * time.Minute

// newDayAxis lays the axis over a span of time, given when the lanes work.
func newDayAxis(from, to time.Time, lanes []calendar.Hours) *dayAxis {
	a := &dayAxis{}
	from = fullHour(from)
	if to = fullHour(to.Add(time.Hour - 1)); !to.After(from) {
		to = from.Add(time.Hour)
	}
	at := from
	for _, w := range workedByAny(from, to, lanes) {
		w = calendar.Window{From: calendar.Later(fullHour(w.From), at), To: calendar.Earlier(fullHour(w.To.Add(time.Hour-1)), to)}
		if w.From.Sub(at) >= foldedFrom {
			a.parts = append(a.parts, axisPart{at, w.From, true})
			at = w.From
		}
		a.open(at, w.To)
		at = calendar.Later(at, w.To)
	}
	if to.Sub(at) >= foldedFrom && len(a.parts) > 0 {
		a.parts = append(a.parts, axisPart{at, to, true})
	} else {
		a.open(at, to)
	}
	a.label()
	return a
}

// open adds time to scale, to the part before where that is to scale, too.
func (a *dayAxis) open(from, to time.Time) {
	if !from.Before(to) {
		return
	}
	if n := len(a.parts); n > 0 && !a.parts[n-1].folded {
		a.parts[n-1].to = to
		return
	}
	a.parts = append(a.parts, axisPart{from, to, false})
}

// workedByAny is the time in which any lane works, ascending.
func workedByAny(from, to time.Time, lanes []calendar.Hours) []calendar.Window {
	var all []calendar.Window
	for _, h := range lanes {
		all = append(all, h.Windows(from, to)...)
	}
	slices.SortFunc(all, func(a, b calendar.Window) int { return a.From.Compare(b.From) })
	var out []calendar.Window
	for _, w := range all {
		if n := len(out); n > 0 && !w.From.After(out[n-1].To) {
			out[n-1].To = calendar.Later(out[n-1].To, w.To)
			continue
		}
		out = append(out, w)
	}
	return out
}

// label sets the hours, the strips and the days.
func (a *dayAxis) label() {
	day := ""
	for _, p := range a.parts {
		if p.folded {
			a.Folds = append(a.Folds, axisFold{a.span(p.from, p.to), p.to.Sub(p.from)})
			continue
		}
		for t := p.from; t.Before(p.to); t = t.Add(time.Hour) {
			if date := t.Format(time.DateOnly); date != day {
				day = date
				a.Days = append(a.Days, axisDay{a.place(t), t})
			}
			a.Ticks = append(a.Ticks, axisTick{a.place(t), clock(t), t.Hour()%3 == 0})
		}
	}
	a.End = a.place(a.parts[len(a.parts)-1].to)
}

// place is where a moment stands; one off the axis stands at its end.
func (a *dayAxis) place(t time.Time) axisPlace {
	var at axisPlace
	for _, p := range a.parts {
		if !t.After(p.from) {
			break
		}
		part := calendar.Earlier(t, p.to).Sub(p.from)
		if p.folded {
			at.strips += float64(part) / float64(p.to.Sub(p.from))
		} else {
			at.minutes += part.Minutes()
		}
	}
	return at
}

func (a *dayAxis) span(from, to time.Time) axisSpan { return axisSpan{a.place(from), a.place(to)} }

// shows tells whether a moment is on the axis.
func (a *dayAxis) shows(t time.Time) bool {
	return !t.IsZero() && !t.Before(a.parts[0].from) && !t.After(a.parts[len(a.parts)-1].to)
}

// closed is the time to scale in which a lane does not work.
func (a *dayAxis) closed(h calendar.Hours) []axisSpan {
	var out []axisSpan
	for _, p := range a.parts {
		if p.folded {
			continue
		}
		at := p.from
		for _, w := range h.Windows(p.from, p.to) {
			if at.Before(w.From) {
				out = append(out, a.span(at, w.From))
			}
			at = w.To
		}
		if at.Before(p.to) {
			out = append(out, a.span(at, p.to))
		}
	}
	return out
}

// fullHour is the last full hour on the wall.
func fullHour(t time.Time) time.Time {
	return t.Add(-time.Duration(t.Minute())*time.Minute - time.Duration(t.Second())*time.Second - time.Duration(t.Nanosecond()))
}
