package main

import (
	"testing"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

func TestMinutes(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0:                       "0.0",
		24 * time.Minute:        "24.0",
		90 * time.Second:        "1.5",
		2 * time.Second:         "0.0",
		-2 * time.Second:        "0.0",
		3 * time.Second:         "0.1",
		-3 * time.Second:        "-0.1",
		57 * time.Second:        "1.0",
		-2454 * time.Second:     "-40.9",
		100*time.Hour + 1:       "6000.0",
		9*time.Minute + 56*1e9:  "9.9",
		9*time.Minute + 57*1e9:  "10.0",
		-9*time.Minute - 57*1e9: "-10.0",
	} {
		if got := minutes(d); got != want {
			t.Errorf("%v is %q, want %q", d, got, want)
		}
	}
}

func TestWords(t *testing.T) {
	mm := units.Millimetre
	for _, c := range []struct{ got, want string }{
		{counted(1, "set"), "1 set"},
		{counted(0, "set"), "0 sets"},
		{counted(2, "layer"), "2 layers"},
		{(sheet{words: english(false)}).numbered("plate %s", "plates %s", 2, 2), "plate 2"},
		{(sheet{words: english(false)}).numbered("plate %s", "plates %s", 2, 4), "plates 2–4"},
		{modeWords(changeover.Keep, "W-01").String(), "leave W-01 in"},
		{modeWords(changeover.InFolder, "W-01").String(), "strip and fit W-01 in the folder"},
		{placeWords(tooling.Place{Slot: "A1"}).String(), "slot A1"},
		{placeWords(tooling.Place{Folder: "alder", Station: "2A"}).String(), "alder 2A"},
		{placeWords(tooling.Place{Bench: true}).String(), "the bench"},
		{toolWords(nil).String(), "plain"},
		{toolWords([]tooling.Tool{{Type: tooling.Type{Kind: tooling.Slit}, At: 305 * mm}}).String(), "slit @ 305 mm"},
		{english(true).Text(toolWords([]tooling.Tool{{Type: tooling.Type{Kind: tooling.Slit}, At: units.Inch / 2}})), "slit @ 1/2 in"},
		{sheet{words: english(false)}.size(860*mm, 610*mm), "860 × 610 mm"},
		{sheet{words: english(true)}.size(11*units.Inch, 17*units.Inch/2), "11 × 8 1/2 in"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// Every mode has words of its own: a new one must not fall through.
func TestEveryModeHasWords(t *testing.T) {
	seen := map[string]changeover.Mode{}
	for _, mode := range []changeover.Mode{changeover.Keep, changeover.Shift, changeover.Swap, changeover.Built, changeover.InFolder, changeover.Plain} {
		text := modeWords(mode, "W-01").String()
		if other, twice := seen[text]; twice || text == modeWords("", "W-01").String() {
			t.Errorf("%s says %q, as %q does", mode, text, other)
		}
		seen[text] = mode
	}
}

func TestRuns(t *testing.T) {
	var got [][2]int
	for first, last := range runs([]int{1, 1, 2, 3, 3, 3}, func(a, b int) bool { return a == b }) {
		got = append(got, [2]int{first, last})
	}
	want := [][2]int{{0, 1}, {2, 2}, {3, 5}}
	if len(got) != len(want) {
		t.Fatalf("got %v, want %v", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("run %d is %v, want %v", i, got[i], want[i])
		}
	}
}
