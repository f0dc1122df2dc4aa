package units_test

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"testing"
	"time"

	"pgregory.net/rapid"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// TestExactTextsReadBack: whatever is written for machines and shop files is read back to the last nanometre.
func TestExactTextsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := units.Length(rapid.Int64Range(-int64(100*units.Metre), int64(100*units.Metre)).Draw(t, "length"))
		if back, err := units.ParseOffset(l.Exact(), 0); err != nil || back != l {
			t.Fatalf("length %d → %q → %d (%v)", l, l.Exact(), back, err)
		}
		g := units.Grammage(rapid.Int64Range(1, 5_000_000).Draw(t, "grammage"))
		if back, err := units.ParseGrammage(g.Exact()); err != nil || back != g {
			t.Fatalf("grammage %d → %q → %d (%v)", g, g.Exact(), back, err)
		}
		s := units.Speed(rapid.Int64Range(1, 2000*int64(units.Metre)).Draw(t, "speed"))
		if back, err := units.ParseSpeed(s.Exact()); err != nil || back != s {
			t.Fatalf("speed %d → %q → %d (%v)", s, s.Exact(), back, err)
		}
		d := time.Duration(rapid.Int64Range(0, int64(10_000*time.Hour)).Draw(t, "time"))
		if back, err := units.ParseMinutes(units.FormatMinutes(d)); err != nil || back != d {
			t.Fatalf("time %d → %q → %d (%v)", d, units.FormatMinutes(d), back, err)
		}
	})
}

// TestInchesHowever: every way to write a multiple of 1/64 in gives the same length, which shows as the same fraction.
func TestInchesHowever(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole, top := rapid.IntRange(0, 200).Draw(t, "whole"), rapid.IntRange(0, 63).Draw(t, "64ths")
		want := units.Length(64*whole+top) * units.Inch / 64
		for _, text := range []string{
			fmt.Sprintf("%d %d/64 in", whole, top), fmt.Sprintf(`%d-%d/64"`, whole, top), fmt.Sprintf("%d/64 inch", 64*whole+top),
			strconv.FormatFloat(float64(whole)+float64(top)/64, 'f', -1, 64) + "in", want.Format(true), want.Exact(),
		} {
			if got, err := units.ParseLength(text, 0); err != nil || got != want {
				t.Fatalf("%q = %s (%v), want %s", text, got.Exact(), err, want.Exact())
			}
		}
		if _, exact := want.Fraction(); !exact {
			t.Fatalf("%s is a multiple of 1/64 in and not exact", want.Exact())
		}
	})
}

// TestFractionIsTheNearest: no 64th is nearer, and exact means equal; big fractions decide.
func TestFractionIsTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := units.Length(rapid.Int64Range(-int64(5*units.Metre), int64(5*units.Metre)).Draw(t, "length"))
		text, exact := l.Fraction()
		back, err := units.ParseOffset(text+" in", 0)
		if err != nil || (back == l) != exact {
			t.Fatalf("%s → %q → %s, exact %v (%v)", l.Exact(), text, back.Exact(), exact, err)
		}
		off := new(big.Rat).Abs(big.NewRat(int64(back-l), int64(units.Inch)))
		if off.Cmp(big.NewRat(1, 128)) > 0 {
			t.Fatalf("%s → %q is off by %s in", l.Exact(), text, off.FloatString(5))
		}
	})
}

// TestDecimalsAsTheStandardLibraryReadsThem: a decimal number means what strconv says, with a point or with a comma.
func TestDecimalsAsTheStandardLibraryReadsThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[0-9]{1,4}\.[0-9]{1,6}`).Draw(t, "number")
		want, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		got, err := units.ParseLength(text, units.Millimetre)
		if err != nil || math.Abs(got.MM()-want) > 5e-7 || got != units.MM(want) {
			t.Fatalf("%q = %s (%v), want %v", text, got.Exact(), err, want)
		}
	})
}

func TestFormats(t *testing.T) {
	for want, got := range map[string]string{
		"860":            units.FormatMM(860 * mm),
		"215.9":          units.FormatMM(in * 17 / 2),
		"286.667":        units.FormatMM(860 * mm / 3),
		"-0.5":           units.FormatMM(-mm / 2),
		"0":              units.FormatMM(-1),
		"210 mm":         (210 * mm).Format(false),
		"8.268 in":       (210 * mm).Format(true),
		"8 1/2 in":       (in * 17 / 2).Format(true),
		"-3/8 in":        (-in * 3 / 8).Format(true),
		"0 in":           units.Length(0).Format(true),
		"1 in":           in.Format(true),
		"0.000001 mm":    units.Nanometre.Exact(),
		"98 µm":          units.FormatMicrons(98*um+499, false),
		"10 pt":          units.FormatMicrons(254*um, true),
		"3.9 pt":         units.FormatMicrons(98*um, true),
		"80 g/m²":        units.GSM(80).Format(),
		"88.8 g/m²":      units.GSM(88.809).Format(),
		"88.809 g/m²":    units.GSM(88.809).Exact(),
		"120 m/min":      (120 * units.MetrePerMin).Format(false),
		"4724.4 in/min":  (120 * units.MetrePerMin).Format(true),
		"0 min":          units.FormatMinutes(0),
		"12 min":         units.FormatMinutes(12 * time.Minute),
		"1 h 20 min":     units.FormatMinutes(80 * time.Minute),
		"1 min 30 s":     units.FormatMinutes(90 * time.Second),
		"0.5 s":          units.FormatMinutes(500 * time.Millisecond),
		"-1 h":           units.FormatMinutes(-time.Hour),
		"10 h 0.00001 s": units.FormatMinutes(10*time.Hour + 10*time.Microsecond),
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	for l, want := range map[units.Length]string{in/2 + in/200: "1/2", in - 1: "1", 1: "0", -in * 65 / 64: "-1 1/64"} {
		if got, exact := l.Fraction(); got != want || exact != (l == -in*65/64) {
			t.Errorf("%s shows as %q, exact %v; want %q", l.Exact(), got, exact, want)
		}
	}
}

// TestViews: the floating-point views agree with the definitions.
func TestViews(t *testing.T) {
	for name, pair := range map[string][2]float64{
		"mm": {units.MM(215.9).MM(), 215.9}, "in": {(in * 17 / 2).Inches(), 8.5}, "µm": {(98 * um).Microns(), 98},
		"negative": {units.MM(-0.0000015).MM(), -0.000002}, "g/m²": {units.GSM(88.8).G(), 88.8},
	} {
		if pair[0] != pair[1] {
			t.Errorf("%s: %v, want %v", name, pair[0], pair[1])
		}
	}
}

// parsers are all readers behind one shape, for the fuzz target.
var parsers = map[string]func(string) (int64, int64, error){
	"length": func(s string) (int64, int64, error) {
		n, err := units.ParseLength(s, mm)
		return int64(n), int64(100e9), err
	},
	"inches": func(s string) (int64, int64, error) {
		n, err := units.ParseLength(s, in)
		return int64(n), int64(100e9), err
	},
	"thickness": func(s string) (int64, int64, error) {
		n, err := units.ParseThickness(s, um)
		return int64(n), int64(100e6), err
	},
	"grammage": func(s string) (int64, int64, error) {
		n, err := units.ParseGrammage(s)
		return int64(n), int64(5e6), err
	},
	"speed": func(s string) (int64, int64, error) { n, err := units.ParseSpeed(s); return int64(n), int64(2e12), err },
	"time": func(s string) (int64, int64, error) {
		n, err := units.ParseMinutes(s)
		return int64(n), int64(3.6e16), err
	},
	"pair": func(s string) (int64, int64, error) {
		n, m, err := units.ParsePair(s, mm)
		return int64(min(n, m)), int64(100e9), err
	},
}

// FuzzParse: no text makes a reader panic, give a quantity beyond reason, or refuse without saying what would be right.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{"210", "8 1/2 in", `23-1/16"`, "8½", "1,189", "60 lb text", "20# bond", "1 h 20", "9000 in/min", "10 pt", "-5", "860x610", "25 x 38 in", "3 to 4", "", "\xff", "1/0", "µ"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for name, parse := range parsers {
			n, most, err := parse(text)
			if err == nil && (n < 0 || n > most) {
				t.Errorf("%s: %q = %d is beyond reason", name, text, n)
			}
			if err == nil {
				continue
			}
			faults := fault.All(err)
			if len(faults) != 1 || faults[0].Wrong == "" || faults[0].Right == "" || faults[0].Code == "" || n != 0 {
				t.Errorf("%s: %q is refused with %d and %v", name, text, n, err)
			}
		}
	})
}
