package calendar

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

// Goal: in a gap nobody works, outside all is as the calendar says. Method: minute by minute over two days, with gaps drawn
// at random that overlap, touch, begin in a break or hold nothing.
func TestHoursLeaveOutTheGaps(t *testing.T) {
	c := &Calendar{Zone: time.UTC}
	for d := range c.Week {
		c.Week[d] = []Span{{6 * 60, 9 * 60}, {9*60 + 15, 14 * 60}, {22 * 60, 26 * 60}}
	}
	from := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)
	const minutes = 2 * minutesADay
	at := func(m int) time.Time { return from.Add(time.Duration(m) * time.Minute) }
	rapid.Check(t, func(r *rapid.T) {
		h := Hours{Calendar: c}
		gone := make([]bool, minutes)
		for range rapid.IntRange(0, 4).Draw(r, "gaps") {
			a, b := rapid.IntRange(0, minutes).Draw(r, "from"), rapid.IntRange(0, minutes).Draw(r, "to")
			h.Gaps = append(h.Gaps, Window{at(a), at(b)})
			for m := a; m < b; m++ {
				gone[m] = true
			}
		}
		works := make([]int, minutes)
		last := from
		for _, w := range h.Windows(from, at(minutes)) {
			if !w.From.Before(w.To) || w.From.Before(last) {
				r.Fatalf("window %v is empty or overlaps the one before", w)
			}
			last = w.To
			for m := int(w.From.Sub(from) / time.Minute); at(m).Before(w.To); m++ {
				works[m]++
			}
		}
		for _, w := range c.Windows(from, at(minutes)) {
			for m := int(w.From.Sub(from) / time.Minute); at(m).Before(w.To); m++ {
				if !gone[m] {
					works[m]-- // now none is left
				}
			}
		}
		for m, left := range works {
			if left != 0 {
				r.Fatalf("at %v: off by %d", at(m), left)
			}
		}
	})
}
