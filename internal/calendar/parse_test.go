package calendar_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"foldwright/internal/calendar"
	"foldwright/internal/fault"
)

func TestParseSpans(t *testing.T) {
	for text, want := range map[string][]calendar.Span{
		"06:00-14:00":              {{360, 840}},
		"6:00 - 14:00":             {{360, 840}},
		"06:00–14:00":              {{360, 840}},
		"06:00 to 14:00":           {{360, 840}},
		"06:00-09:00, 09:15-14:00": {{360, 540}, {555, 840}},
		"06:00-14:00,14:00-22:00":  {{360, 840}, {840, 1320}},
		"22:00-06:00":              {{1320, 1800}},
		"00:00-24:00":              {{0, 1440}},
		"16:00-24:00":              {{960, 1440}},
		"closed":                   nil,
		" Closed ":                 nil,
	} {
		if got, err := calendar.ParseSpans(text); err != nil || !slices.Equal(got, want) {
			t.Errorf("%q = %v (%v), want %v", text, got, err, want)
		}
	}
}

func TestSpanRefusals(t *testing.T) {
	const write = "; write times such as 06:00-14:00, several with commas between them, or closed [span]"
	for text, want := range map[string]string{
		"":                         `"" is no time from and to` + write,
		"6-14":                     `"6-14" is no time from and to` + write,
		"06:00":                    `"06:00" is no time from and to` + write,
		"06:60-14:00":              `"06:60-14:00" is no time from and to` + write,
		"06:00-25:00":              `"06:00-25:00" is no time from and to` + write,
		"06:00-24:30":              `"06:00-24:30" is no time from and to` + write,
		"24:00-06:00":              `"24:00-06:00" is no time from and to` + write,
		"06:00-06:00":              `"06:00-06:00" is no time from and to` + write,
		"06:00-14:00,":             `"" is no time from and to` + write,
		"06:00-14:00, 13:00-15:00": `06:00-14:00 and 13:00-15:00 overlap; let each span start when the one before has ended [span-overlap]`,
		"13:00-15:00, 06:00-14:00": `06:00-14:00 and 13:00-15:00 overlap; let each span start when the one before has ended [span-overlap]`,
	} {
		if _, err := calendar.ParseSpans(text); err == nil || err.Error() != want {
			t.Errorf("%q\n got %v\nwant %s", text, err, want)
		}
	}
}

func TestSpansReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spans := drawSpans(t)
		if n := len(spans); n > 0 && spans[n-1].To-spans[n-1].From == 24*60 {
			return // written like nothing at all, and refused
		}
		back, err := calendar.ParseSpans(calendar.FormatSpans(spans))
		if err != nil || !slices.Equal(back, spans) {
			t.Fatalf("%v → %q → %v (%v)", spans, calendar.FormatSpans(spans), back, err)
		}
	})
}

func TestParseDays(t *testing.T) {
	for text, want := range map[string]string{
		"mon":              "[Monday]",
		"Monday":           "[Monday]",
		"mon-fri":          "[Monday Tuesday Wednesday Thursday Friday]",
		"mon, wed , fri":   "[Monday Wednesday Friday]",
		"sat-mon":          "[Saturday Sunday Monday]",
		"mon-tue, thu-sat": "[Monday Tuesday Thursday Friday Saturday]",
		"sun-sat":          "[Sunday Monday Tuesday Wednesday Thursday Friday Saturday]",
		"wed-wed":          "[Wednesday]",
	} {
		if got, err := calendar.ParseDays(text); err != nil || fmt.Sprint(got) != want {
			t.Errorf("%q = %v (%v), want %s", text, got, err, want)
		}
	}
	for text, piece := range map[string]string{"": `""`, "mo": `"mo"`, "mon-": `""`, "mon-fry": `"fry"`, "someday": `"someday"`} {
		want := piece + " is no day of the week; write mon, tue, wed, thu, fri, sat or sun [weekday]"
		if _, err := calendar.ParseDays(text); err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
}

func TestCheckListsEveryFault(t *testing.T) {
	c := calendar.Calendar{Days: map[string][]calendar.Span{"24.12.2026": nil, "2026-12-31": {{600, 500}}}}
	c.Week[time.Monday] = []calendar.Span{{360, 840}, {800, 900}}
	c.Week[time.Friday] = []calendar.Span{{-5, 840}}
	want := strings.Join([]string{
		`zone: the calendar has no time zone; name one such as Europe/Berlin [calendar-zone]`,
		`week[1]: 06:00-14:00 and 13:20-15:00 overlap; let each span start when the one before has ended [span-overlap]`,
		`week[5]: minutes -5 to 840 are no span of a day; a span starts within its day and ends later, within 24 hours [span]`,
		`days[2026-12-31]: minutes 600 to 500 are no span of a day; a span starts within its day and ends later, within 24 hours [span]`,
		`days[24.12.2026]: "24.12.2026" is no date; write year, month and day as 2026-12-24 [calendar-date]`,
	}, "\n")
	if got := c.Check().Error(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	idle := calendar.Calendar{Zone: time.UTC}
	if got, want := idle.Check().Error(), `the calendar has no working time on any day; give at least one day a span such as 06:00-14:00 [calendar-empty]`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if faults := everyDay(t, "Europe/Berlin", "22:00-06:00").Check(); faults.Err() != nil {
		t.Errorf("a good calendar is refused: %v", faults)
	}
}

// FuzzParseSpans: what is accepted passes Check and reads back; what is refused says what would be right.
func FuzzParseSpans(f *testing.F) {
	for _, seed := range []string{"06:00-14:00", "22:00-06:00, 06:00-07:00", "closed", "00:00-24:00", "", ",", "24:00-24:00", "\xff"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		spans, err := calendar.ParseSpans(text)
		if err != nil {
			if faults := fault.All(err); len(faults) != 1 || faults[0].Right == "" || spans != nil {
				t.Errorf("%q: %v with %v", text, err, spans)
			}
			return
		}
		c := calendar.Calendar{Zone: time.UTC, Week: [7][]calendar.Span{spans, {{0, 1}}}}
		if faults := c.Check(); faults.Err() != nil {
			t.Errorf("%q is accepted and fails the check: %v", text, faults)
		}
		if back, err := calendar.ParseSpans(calendar.FormatSpans(spans)); err != nil || !slices.Equal(back, spans) {
			t.Errorf("%q = %v reads back as %v (%v)", text, spans, back, err)
		}
	})
}
