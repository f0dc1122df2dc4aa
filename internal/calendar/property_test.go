package calendar_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"foldwright/internal/calendar"
)

// The changes that the properties walk around: an hour forward and back, half an hour in Lord Howe, a whole day that
// Samoa left out, and a place that never changes.
var changes = []struct{ zone, near string }{
	{"Europe/Berlin", "2026-03-29T01:00Z"},
	{"Europe/Berlin", "2026-10-25T01:00Z"},
	{"America/New_York", "2026-03-08T07:00Z"},
	{"America/New_York", "2026-11-01T06:00Z"},
	{"Australia/Lord_Howe", "2026-04-04T15:00Z"},
	{"Australia/Lord_Howe", "2026-10-03T15:30Z"},
	{"Pacific/Apia", "2011-12-30T10:00Z"},
	{"Asia/Tokyo", "2026-06-01T00:00Z"},
	{"Europe/Berlin", "2026-06-01T00:00Z"},
}

// drawCalendar makes a calendar with up to three spans on each weekday and on one date.
func drawCalendar(t *rapid.T, zone *time.Location, near time.Time) *calendar.Calendar {
	c := &calendar.Calendar{Name: "drawn", Zone: zone, Days: map[string][]calendar.Span{}}
	for d := range c.Week {
		c.Week[d] = drawSpans(t)
	}
	date := near.AddDate(0, 0, rapid.IntRange(-2, 2).Draw(t, "date")).Format(time.DateOnly)
	c.Days[date] = drawSpans(t)
	return c
}

// drawSpans draws spans that do not overlap; the last may run past midnight.
func drawSpans(t *rapid.T) (spans []calendar.Span) {
	at := 0
	for range rapid.IntRange(0, 3).Draw(t, "spans") {
		from := at + rapid.IntRange(0, 400).Draw(t, "pause")
		if from >= 24*60 {
			break
		}
		at = from + rapid.IntRange(1, 700).Draw(t, "minutes")
		spans = append(spans, calendar.Span{From: from, To: at})
	}
	return spans
}

// works is the rule of the package said again, for one moment: the clock on the wall shows a time inside a span of today,
// or of yesterday counted on past midnight.
func works(c *calendar.Calendar, at time.Time) bool {
	wall := at.In(c.Zone)
	minute := wall.Hour()*60 + wall.Minute()
	today := time.Date(wall.Year(), wall.Month(), wall.Day(), 12, 0, 0, 0, time.UTC)
	for back := range 2 {
		date := today.AddDate(0, 0, -back)
		spans, exception := c.Days[date.Format("2006-01-02")]
		if !exception {
			spans = c.Week[date.Weekday()]
		}
		for _, s := range spans {
			if m := minute + back*24*60; s.From <= m && m < s.To {
				return true
			}
		}
	}
	return false
}

// TestMinuteByMinute compares everything with a model that looks at the clock every minute for days.
func TestMinuteByMinute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		change := rapid.SampledFrom(changes).Draw(t, "change")
		zone, err := time.LoadLocation(change.zone)
		if err != nil {
			t.Fatal(err)
		}
		near, err := time.Parse("2006-01-02T15:04Z07:00", change.near)
		if err != nil {
			t.Fatal(err)
		}
		c := drawCalendar(t, zone, near)
		from := near.Add(time.Duration(rapid.IntRange(-3000, 600).Draw(t, "from")) * time.Minute)
		to := from.Add(time.Duration(600+rapid.IntRange(0, 3400).Draw(t, "length")) * time.Minute)
		checkWindows(t, c, from, to)
	})
}

// checkWindows holds Windows, Between and Add from from to to against the model.
func checkWindows(t *rapid.T, c *calendar.Calendar, from, to time.Time) {
	windows := c.Windows(from, to)
	for i, w := range windows {
		if !w.From.Before(w.To) || w.From.Before(from) || w.To.After(to) || i > 0 && !windows[i-1].To.Before(w.From) {
			t.Fatalf("windows are not ascending, apart and within: %s", show(windows))
		}
	}
	var sum time.Duration
	k := 0
	for at := from; at.Before(to); at = at.Add(time.Minute) {
		for k < len(windows) && !at.Before(windows[k].To) {
			k++
		}
		inside := k < len(windows) && !at.Before(windows[k].From)
		if want := works(c, at); inside != want {
			t.Fatalf("%s: in a window %v, works %v: %s", at.In(c.Zone), inside, want, show(windows))
		}
		if !inside {
			continue
		}
		sum += time.Minute
		if got, ok := c.Add(from, sum); !ok || !got.Equal(at.Add(time.Minute)) {
			t.Fatalf("%s + %s = %s, want %s", from, sum, got, at.Add(time.Minute))
		}
	}
	if got := c.Between(from, to); got != sum {
		t.Fatalf("between %s and %s: %s, want %s", from, to, got, sum)
	}
}

// TestBetweenAddsUp: the way over a moment in the middle is as long as the straight one.
func TestBetweenAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		near := time.Date(2026, 10, 25, 1, 0, 0, 0, time.UTC)
		zone, err := time.LoadLocation("Europe/Berlin")
		if err != nil {
			t.Fatal(err)
		}
		c := drawCalendar(t, zone, near)
		draw := func(name string) time.Time {
			return near.Add(time.Duration(rapid.Int64Range(-1e15, 1e15).Draw(t, name)))
		}
		x, y, z := draw("x"), draw("y"), draw("z")
		if c.Between(x, y)+c.Between(y, z) != c.Between(x, z) {
			t.Fatalf("%s + %s is not %s", c.Between(x, y), c.Between(y, z), c.Between(x, z))
		}
	})
}
