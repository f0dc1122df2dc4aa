package plan

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"foldwright/internal/calendar"
	"foldwright/internal/schedule"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// Goal: longestRising finds a rising sub-sequence, and none is longer. Method: all sub-sequences of short lists.
func TestLongestRisingAgainstAllSubsequences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.IntRange(0, 9), 0, 10).Draw(t, "values")
		got := longestRising(values)
		for i := 1; i < len(got); i++ {
			if got[i] <= got[i-1] || values[got[i]] <= values[got[i-1]] {
				t.Fatalf("%v of %v does not rise", got, values)
			}
		}
		longest := 0
		for set := range 1 << len(values) {
			last, n := -1, 0
			for i, v := range values {
				if set>>i&1 == 1 {
					if v <= last {
						n = -len(values)
					}
					last, n = v, n+1
				}
			}
			longest = max(longest, n)
		}
		if len(got) != longest {
			t.Fatalf("%v of %v; %d would be possible", got, values, longest)
		}
	})
}

// Goal: equal patterns share a number, others do not, and the counts are those of the tools.
func TestPatternsAreNumberedOnce(t *testing.T) {
	slit := tooling.Type{Kind: tooling.Slit}
	score := tooling.Type{Kind: tooling.Score, Spec: "0.7 mm"}
	at := func(typ tooling.Type, mm float64) tooling.Tool { return tooling.Tool{Type: typ, At: units.MM(mm)} }
	p := newPatterns([]tooling.Class{{Name: "a"}, {Name: "b"}})
	cases := []struct {
		pattern tooling.Pattern
		number  int
		counts  []schedule.Count
	}{
		{tooling.Pattern{Class: "a"}, 0, nil},
		{tooling.Pattern{Class: "b"}, 1, nil},
		{tooling.Pattern{Class: "a", Tools: []tooling.Tool{at(score, 10), at(slit, 20), at(score, 30)}}, 2, []schedule.Count{{Type: 0, N: 2}, {Type: 1, N: 1}}},
		{tooling.Pattern{Class: "b", Tools: []tooling.Tool{at(slit, 20)}}, 3, []schedule.Count{{Type: 2, N: 1}}}, // another bore, another tool
		{tooling.Pattern{Class: "a", Tools: []tooling.Tool{at(slit, 20.000001)}}, 4, []schedule.Count{{Type: 1, N: 1}}},
		{tooling.Pattern{Class: "a", Tools: []tooling.Tool{at(slit, 20)}}, 5, []schedule.Count{{Type: 1, N: 1}}},
	}
	for range 2 { // the second time all are known
		for _, c := range cases {
			n := p.number(c.pattern)
			if n != c.number || !slices.Equal(p.counts[n].Tools, c.counts) {
				t.Errorf("%v: number %d, counts %v; should be %d, %v", c.pattern, n, p.counts[n].Tools, c.number, c.counts)
			}
		}
	}
	if !slices.Equal(p.byClass[0], []int{0, 2, 4, 5}) || !slices.Equal(p.byClass[1], []int{1, 3}) {
		t.Errorf("by class: %v", p.byClass)
	}
}

// Goal: windows are whole seconds of working time from the plan's start, as many as are needed.
func TestWindowsReachAsFarAsNeeded(t *testing.T) {
	spans := []calendar.Span{{From: 6 * 60, To: 14 * 60}}
	c := &calendar.Calendar{Zone: time.UTC, Week: [7][]calendar.Span{1: spans, 3: spans}} // Mondays and Wednesdays, 8 h
	from := time.Date(2026, 3, 2, 7, 30, 0, 0, time.UTC)                                  // a Monday
	got := windows(calendar.Hours{Calendar: c}, from, 100*time.Hour)
	const hour = 3600
	if len(got) == 0 || got[0] != (schedule.Window{From: 0, To: 6*hour + hour/2}) {
		t.Fatalf("the first window is %v", got)
	}
	if got[1] != (schedule.Window{From: 46*hour + hour/2, To: 54*hour + hour/2}) {
		t.Errorf("the second window is %v", got[1])
	}
	if worth(got) < 100*hour {
		t.Errorf("%d s of work, 100 h are needed", worth(got))
	}
	// A calendar that never opens ends the reading instead of going on for ever.
	if closed := windows(calendar.Hours{Calendar: &calendar.Calendar{Zone: time.UTC}}, from, time.Hour); len(closed) != 0 {
		t.Errorf("a closed calendar has the windows %v", closed)
	}
}

// Goal: parts of seconds never make working time longer than it is.
func TestPartsOfSecondsAreRoundedInwards(t *testing.T) {
	from := time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)
	w := func(a, b time.Duration) calendar.Window { return calendar.Window{From: from.Add(a), To: from.Add(b)} }
	got := seconds([]calendar.Window{
		w(-time.Hour, 1500*time.Millisecond),
		w(2100*time.Millisecond, 2900*time.Millisecond), // holds no whole second
		w(3100*time.Millisecond, 6*time.Second),
	}, from)
	want := []schedule.Window{{From: 0, To: 1}, {From: 4, To: 6}}
	if !slices.Equal(got, want) {
		t.Errorf("%v, should be %v", got, want)
	}
}
