package calendar_test

import (
	"fmt"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zones of the tests, on machines that have none

	"foldwright/internal/calendar"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func moment(t testing.TB, text string) time.Time {
	t.Helper()
	m, err := time.Parse("2006-01-02T15:04Z07:00", text)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func spans(t testing.TB, text string) []calendar.Span {
	t.Helper()
	s, err := calendar.ParseSpans(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// everyDay is a calendar with the same spans on all days.
func everyDay(t testing.TB, zoneName, text string) *calendar.Calendar {
	c := &calendar.Calendar{Name: "test", Zone: zone(t, zoneName)}
	for d := range c.Week {
		c.Week[d] = spans(t, text)
	}
	return c
}

// show writes windows as clock times with offsets, days that stay the same left out.
func show(windows []calendar.Window) string {
	var lines []string
	for _, w := range windows {
		lines = append(lines, fmt.Sprintf("%s – %s", w.From.Format("02 15:04-07"), w.To.Format("02 15:04-07")))
	}
	return strings.Join(lines, ", ")
}

// TestWindowsByHand. The changes of 2026 were looked up in the time zone database: Berlin 29 March 02:00 → 03:00 and
// 25 October 03:00 → 02:00; New York 8 March 02:00 → 03:00 and 1 November 02:00 → 01:00. The rest is counted on fingers.
func TestWindowsByHand(t *testing.T) {
	const berlin, newYork = "Europe/Berlin", "America/New_York"
	for _, c := range []struct {
		name, zone, spans, from, to string
		windows                     string
		work                        time.Duration
	}{
		{
			"a day with a break", berlin, "06:00-09:00, 09:15-14:00", "2026-03-02T00:00+01:00", "2026-03-03T00:00+01:00",
			"02 06:00+01 – 02 09:00+01, 02 09:15+01 – 02 14:00+01", 7*time.Hour + 45*time.Minute,
		},
		{
			"asked in the middle", berlin, "06:00-09:00, 09:15-14:00", "2026-03-02T08:00+01:00", "2026-03-02T09:30+01:00",
			"02 08:00+01 – 02 09:00+01, 02 09:15+01 – 02 09:30+01", time.Hour + 15*time.Minute,
		},
		{
			"asked in another zone", berlin, "06:00-14:00", "2026-03-02T05:00Z", "2026-03-02T07:00Z",
			"02 06:00+01 – 02 08:00+01", 2 * time.Hour,
		},
		{
			"shifts that touch are one", berlin, "06:00-14:00, 14:00-22:00", "2026-03-02T00:00+01:00", "2026-03-03T00:00+01:00",
			"02 06:00+01 – 02 22:00+01", 16 * time.Hour,
		},
		{
			"a night, its tail from the day before", berlin, "22:00-06:00", "2026-03-02T00:00+01:00", "2026-03-03T00:00+01:00",
			"02 00:00+01 – 02 06:00+01, 02 22:00+01 – 03 00:00+01", 8 * time.Hour,
		},
		{
			"spring night, an hour short", berlin, "22:00-06:00", "2026-03-28T12:00+01:00", "2026-03-29T12:00+02:00",
			"28 22:00+01 – 29 06:00+02", 7 * time.Hour,
		},
		{
			"autumn night, an hour long", berlin, "22:00-06:00", "2026-10-24T12:00+02:00", "2026-10-25T12:00+01:00",
			"24 22:00+02 – 25 06:00+01", 9 * time.Hour,
		},
		{
			"spring day, untouched", berlin, "06:00-14:00", "2026-03-29T00:00+01:00", "2026-03-30T00:00+02:00",
			"29 06:00+02 – 29 14:00+02", 8 * time.Hour,
		},
		{
			"a span in the skipped hour is nothing", berlin, "02:15-02:45", "2026-03-29T00:00+01:00", "2026-03-30T00:00+02:00",
			"", 0,
		},
		{
			"a span that ends in the skipped hour", berlin, "01:00-02:30", "2026-03-29T00:00+01:00", "2026-03-30T00:00+02:00",
			"29 01:00+01 – 29 03:00+02", time.Hour,
		},
		{
			"a span in the repeated hour comes twice", berlin, "02:15-02:45", "2026-10-25T00:00+02:00", "2026-10-26T00:00+01:00",
			"25 02:15+02 – 25 02:45+02, 25 02:15+01 – 25 02:45+01", time.Hour,
		},
		{
			"and so does a break in it", berlin, "01:00-02:15, 02:45-04:00", "2026-10-25T00:00+02:00", "2026-10-26T00:00+01:00",
			"25 01:00+02 – 25 02:15+02, 25 02:45+02 – 25 02:15+01, 25 02:45+01 – 25 04:00+01", 3 * time.Hour,
		},
		{
			"spring night overseas", newYork, "22:00-06:00", "2026-03-07T12:00-05:00", "2026-03-08T12:00-04:00",
			"07 22:00-05 – 08 06:00-04", 7 * time.Hour,
		},
		{
			"autumn night overseas", newYork, "22:00-06:00", "2026-10-31T12:00-04:00", "2026-11-01T12:00-05:00",
			"31 22:00-04 – 01 06:00-05", 9 * time.Hour,
		},
		{
			"round the clock, a day of 23 hours", newYork, "00:00-24:00", "2026-03-08T00:00-05:00", "2026-03-09T00:00-04:00",
			"08 00:00-05 – 09 00:00-04", 23 * time.Hour,
		},
		{
			"round the clock, a day of 25 hours", newYork, "00:00-24:00", "2026-11-01T00:00-04:00", "2026-11-02T00:00-05:00",
			"01 00:00-04 – 02 00:00-05", 25 * time.Hour,
		},
		{"nothing to ask", berlin, "00:00-24:00", "2026-03-02T08:00+01:00", "2026-03-02T08:00+01:00", "", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			cal, from, to := everyDay(t, c.zone, c.spans), moment(t, c.from), moment(t, c.to)
			if got := show(cal.Windows(from, to)); got != c.windows {
				t.Errorf("windows\n got %s\nwant %s", got, c.windows)
			}
			if got := cal.Between(from, to); got != c.work {
				t.Errorf("work %s, want %s", got, c.work)
			}
			if got := cal.Between(to, from); got != -c.work {
				t.Errorf("backwards %s, want %s", got, -c.work)
			}
		})
	}
}

// TestExceptions: closed on 24 December 2026, a Thursday, short on the 31st, and the night of the 23rd ends all the same.
func TestExceptions(t *testing.T) {
	c := everyDay(t, "Europe/Berlin", "22:00-06:00")
	c.Days = map[string][]calendar.Span{"2026-12-24": nil, "2026-12-31": spans(t, "06:00-12:00")}
	got := show(c.Windows(moment(t, "2026-12-23T12:00+01:00"), moment(t, "2026-12-26T00:00+01:00")))
	if want := "23 22:00+01 – 24 06:00+01, 25 22:00+01 – 26 00:00+01"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	got = show(c.Windows(moment(t, "2026-12-31T00:00+01:00"), moment(t, "2027-01-01T12:00+01:00")))
	if want := "31 00:00+01 – 31 12:00+01"; got != want { // the night of the 30th runs into the short day
		t.Errorf("got %s, want %s", got, want)
	}
}

// TestAddByHand: from Friday afternoon over a weekend, over the night of a change, to the very end of a window.
func TestAddByHand(t *testing.T) {
	c := &calendar.Calendar{Name: "weekdays", Zone: zone(t, "Europe/Berlin")}
	for d := time.Monday; d <= time.Friday; d++ {
		c.Week[d] = spans(t, "06:00-09:00, 09:15-14:00")
	}
	night := everyDay(t, "Europe/Berlin", "22:00-06:00")
	for _, step := range []struct {
		calendar *calendar.Calendar
		from     string
		work     time.Duration
		want     string
	}{
		{c, "2026-03-27T13:30+01:00", time.Hour, "2026-03-30T06:30+02:00"},
		{c, "2026-03-27T13:30+01:00", 30 * time.Minute, "2026-03-27T14:00+01:00"}, // done when the shift ends
		{c, "2026-03-27T08:50+01:00", 20 * time.Minute, "2026-03-27T09:25+01:00"}, // the break in between
		{c, "2026-03-28T08:00+01:00", 0, "2026-03-28T08:00+01:00"},
		{c, "2026-03-27T13:30+01:00", 10 * (7*time.Hour + 45*time.Minute), "2026-04-10T13:30+02:00"},
		{night, "2026-03-28T23:00+01:00", 5 * time.Hour, "2026-03-29T05:00+02:00"},
		{night, "2026-10-24T23:00+02:00", 5 * time.Hour, "2026-10-25T03:00+01:00"},
	} {
		got, ok := step.calendar.Add(moment(t, step.from), step.work)
		if !ok || !got.Equal(moment(t, step.want)) {
			t.Errorf("%s + %s of %s = %s (%v), want %s", step.from, step.work, step.calendar.Name, got.Format(time.RFC3339), ok, step.want)
		}
	}
}

// TestAddGivesUp: a calendar without work ends, and one with a single day far away still finds it.
func TestAddGivesUp(t *testing.T) {
	c := &calendar.Calendar{Name: "idle", Zone: time.UTC}
	start := moment(t, "2026-01-01T00:00Z")
	if got, ok := c.Add(start, time.Minute); ok {
		t.Errorf("a calendar without work gave %s", got)
	}
	c.Days = map[string][]calendar.Span{"2026-11-30": spans(t, "06:00-07:00")}
	if got, ok := c.Add(start, time.Minute); !ok || !got.Equal(moment(t, "2026-11-30T06:01Z")) {
		t.Errorf("got %s (%v), want 30 November, a minute past six", got, ok)
	}
	if got, ok := c.Add(start, 2*time.Hour); ok {
		t.Errorf("an hour cannot hold two; got %s", got)
	}
}
