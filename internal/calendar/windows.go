package calendar

import (
	"slices"
	"time"
)

// Windows gives the working time between two moments, ascending; windows that touch are one.
func (c *Calendar) Windows(from, to time.Time) []Window {
	var all []Window
	for at := from; at.Before(to); {
		_, end := at.In(c.zone()).ZoneBounds()
		if end.IsZero() || end.After(to) {
			end = to
		}
		all = append(all, c.steady(at, end)...)
		at = end
	}
	return merge(all)
}

// steady gives the windows of a time in which the clock is not changed, so that all of it has one offset from UTC.
func (c *Calendar) steady(from, to time.Time) []Window {
	_, seconds := from.In(c.zone()).Zone()
	offset := time.Duration(seconds) * time.Second
	var all []Window
	// The wall clock is kept as a time in UTC that shows the same digits.
	first := from.UTC().Add(offset).Truncate(24*time.Hour).AddDate(0, 0, -1)
	last := to.UTC().Add(offset)
	for date := first; date.Before(last); date = date.AddDate(0, 0, 1) {
		for _, s := range c.spans(date) {
			w := Window{
				From: Later(from, date.Add(time.Duration(s.From)*time.Minute-offset)),
				To:   Earlier(to, date.Add(time.Duration(s.To)*time.Minute-offset)),
			}
			if w.From.Before(w.To) {
				all = append(all, Window{w.From.In(c.zone()), w.To.In(c.zone())})
			}
		}
	}
	return all
}

// merge sorts windows and joins those that touch or overlap.
func merge(windows []Window) []Window {
	slices.SortFunc(windows, func(a, b Window) int { return a.From.Compare(b.From) })
	var out []Window
	for _, w := range windows {
		if n := len(out); n > 0 && !w.From.After(out[n-1].To) {
			out[n-1].To = Later(out[n-1].To, w.To)
			continue
		}
		out = append(out, w)
	}
	return out
}

// Between is the working time from a to b; negative when b is before a.
func (c *Calendar) Between(a, b time.Time) time.Duration {
	if b.Before(a) {
		return -c.Between(b, a)
	}
	var sum time.Duration
	for _, w := range c.Windows(a, b) {
		sum += w.To.Sub(w.From)
	}
	return sum
}

// patience is how long [Calendar.Add] looks ahead for a minute of work.
const patience = 366 * 24 * time.Hour

// Add is the earliest moment at which so much working time has passed since t; t itself when work is not positive. It is
// false when a year goes by without any.
func (c *Calendar) Add(t time.Time, work time.Duration) (time.Time, bool) {
	if work <= 0 {
		return t, true
	}
	const stride = 14 * 24 * time.Hour
	for from, idle := t, time.Duration(0); idle < patience; from = from.Add(stride) {
		windows := c.Windows(from, from.Add(stride))
		for _, w := range windows {
			if length := w.To.Sub(w.From); length < work {
				work -= length
				continue
			}
			return w.From.Add(work), true
		}
		if idle += stride; len(windows) > 0 {
			idle = 0
		}
	}
	return time.Time{}, false
}

// Later is the later of two instants.
func Later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// Earlier is the earlier of two instants.
func Earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}
