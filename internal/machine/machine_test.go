package machine

import (
	"math/big"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"foldwright/internal/units"
)

// Sheets an hour = 60 000 · v / (length + gap), arithmetic: 200 m/min, 700 + 50 mm give exactly 16 000; 120 m/min, 640 +
// 100 mm give 9 729.7. 9 000 in/min, quoted as a top speed by a trade magazine of 2002, are 228.6 m/min.
func TestRate(t *testing.T) {
	mm := units.Millimetre
	for _, c := range []struct {
		speed       units.Speed
		length, gap units.Length
		want        int
	}{
		{200 * units.MetrePerMin, 700 * mm, 50 * mm, 16_000},
		{120 * units.MetrePerMin, 640 * mm, 100 * mm, 9_730},
		{units.Speed(9_000 * units.Inch), 100 * mm, 20 * mm, 114_300},
		{120 * units.MetrePerMin, 0, 0, 0},
		{0, 700 * mm, 50 * mm, 0},
	} {
		if got := Rate(c.speed, c.length, c.gap); got != c.want {
			t.Errorf("%v, %v + %v: %d, want %d", c.speed, c.length, c.gap, got, c.want)
		}
	}
}

// Rate against exact fractions, for every speed and length a shop file can hold and far beyond.
func TestRateIsTheNearestWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Int64Range(1, 1<<50).Draw(t, "speed")
		length, gap := rapid.Int64Range(1, 1<<40).Draw(t, "length"), rapid.Int64Range(0, 1<<40).Draw(t, "gap")
		exact := big.NewRat(v, length+gap)
		exact.Mul(exact, big.NewRat(60, 1))
		off := new(big.Rat).Sub(exact, big.NewRat(int64(Rate(units.Speed(v), units.Length(length), units.Length(gap))), 1))
		if off.Abs(off).Cmp(big.NewRat(1, 2)) > 0 {
			t.Fatalf("off by %s of a sheet", off)
		}
	})
}

func TestFoldsUp(t *testing.T) {
	above, below := Unit{Kind: Buckle}, Unit{Kind: Buckle, FirstBelow: true}
	for p := 1; p <= 6; p++ {
		odd := p%2 == 1
		if above.FoldsUp(p) != odd || below.FoldsUp(p) == odd {
			t.Errorf("plate %d: first above %v, first below %v", p, above.FoldsUp(p), below.FoldsUp(p))
		}
	}
}

func TestStations(t *testing.T) {
	f := goodFolder()
	st, unit, ok := f.Station("2A")
	if !ok || unit != 2 || st.Class != "short 35" {
		t.Errorf("station 2A: %v of unit %d, %v", st, unit, ok)
	}
	if _, _, ok := f.Station("9"); ok {
		t.Error("there is no station 9")
	}
	if d := gocmp.Diff([]string{"1A", "1B"}, f.StationsOf("wide 35")); d != "" {
		t.Error(d)
	}
}
