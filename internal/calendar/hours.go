package calendar

import "time"

// Hours are a calendar with gaps: a folder that is down, a person who is away. In a gap nobody works, whatever the week
// says. Gaps may overlap and come in any order.
type Hours struct {
	Calendar *Calendar
	Gaps     []Window
}

// Windows gives the working time between two moments, ascending.
func (h Hours) Windows(from, to time.Time) []Window {
	out := h.Calendar.Windows(from, to)
	for _, gap := range merge(append([]Window(nil), h.Gaps...)) {
		out = without(out, gap)
	}
	return out
}

// without cuts a gap out of windows.
func without(windows []Window, gap Window) []Window {
	var out []Window
	for _, w := range windows {
		before, after := Window{w.From, Earlier(w.To, gap.From)}, Window{Later(w.From, gap.To), w.To}
		if !gap.From.Before(gap.To) || !gap.From.Before(w.To) || !w.From.Before(gap.To) {
			out = append(out, w)
			continue
		}
		if before.From.Before(before.To) {
			out = append(out, before)
		}
		if after.From.Before(after.To) {
			out = append(out, after)
		}
	}
	return out
}
