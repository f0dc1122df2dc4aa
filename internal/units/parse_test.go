package units_test

import (
	"strings"
	"testing"
	"time"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

const (
	mm = units.Millimetre
	um = units.Micrometre
	in = units.Inch
)

func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		text string
		bare units.Length
		want units.Length
	}{
		{"210", mm, 210 * mm},
		{"210", in, 210 * in},
		{"0", mm, 0},
		{"+5", mm, 5 * mm},
		{"210mm", in, 210 * mm},
		{" 210  mm ", in, 210 * mm},
		{"210\u00a0mm", 0, 210 * mm},
		{"21 cm", 0, 210 * mm},
		{"0.21 m", 0, 210 * mm},
		{"95 µm", 0, 95 * um},
		{"95 μm", 0, 95 * um}, // the Greek letter, which looks the same
		{"95 microns", 0, 95 * um},
		{"4 mil", 0, 101_600},
		{"215.9", mm, 215_900 * um},
		{"215,9", mm, 215_900 * um},
		{"0,125 in", 0, 3175 * um},
		{".5", in, in / 2},
		{"1.250", in, in * 5 / 4},
		{"8.5 in", 0, in * 17 / 2},
		{"8 1/2 in", mm, in * 17 / 2},
		{"8-1/2 in", mm, in * 17 / 2},
		{"8 1/2\"", mm, in * 17 / 2},
		{"8 1/2''", mm, in * 17 / 2},
		{"8 1/2″", mm, in * 17 / 2},
		{"8½ inches", mm, in * 17 / 2},
		{"8 ½ IN", mm, in * 17 / 2},
		{"8-½", in, in * 17 / 2},
		{"8 1⁄2", in, in * 17 / 2},
		{"23-1/16", in, in * 369 / 16},
		{"5/8", in, in * 5 / 8},
		{"⅝", in, in * 5 / 8},
		{"3 63/64", in, in * 255 / 64},
		{"9/8", in, in * 9 / 8},
		{"1/3 in", 0, 8_466_667}, // rounded once
		{"36 pt", 0, in / 2},
		{"100 m", 0, 100 * units.Metre},
	} {
		if got, err := units.ParseLength(c.text, c.bare); err != nil || got != c.want {
			t.Errorf("%q = %s (%v), want %s", c.text, got.Exact(), err, c.want.Exact())
		}
	}
}

func TestParseOffsetTakesASign(t *testing.T) {
	for text, want := range map[string]units.Length{"-5": -5 * mm, "−5 mm": -5 * mm, "+5": 5 * mm, "- 1/4 in": -in / 4, "-½ in": -in / 2, "-0": 0} {
		if got, err := units.ParseOffset(text, mm); err != nil || got != want {
			t.Errorf("%q = %s (%v), want %s", text, got.Exact(), err, want.Exact())
		}
	}
}

func TestParseThickness(t *testing.T) {
	for text, want := range map[string]units.Length{"95": 95 * um, "0.1 mm": 100 * um, "10 pt": 254 * um, "10 mil": 254 * um, "0.004 in": 101_600} {
		if got, err := units.ParseThickness(text, um); err != nil || got != want {
			t.Errorf("%q = %s (%v), want %s", text, got.Exact(), err, want.Exact())
		}
	}
}

func TestParseGrammage(t *testing.T) {
	for text, want := range map[string]units.Grammage{
		"80": 80_000, "80 g": 80_000, "80 g/m2": 80_000, "80g/m²": 80_000, "80 GSM": 80_000, "67,5": 67_500,
		"60 lb text": 88_809, "60# text": 88_809, "60 lbs book": 88_809, "60lb offset": 88_809, "60 LB Text": 88_809,
		"20# bond": 75_195, "20 lb writing": 75_195, "20 lb ledger": 75_195, "100 lb newsprint": 162_748, "100 lb tag": 162_748,
	} {
		if got, err := units.ParseGrammage(text); err != nil || got != want {
			t.Errorf("%q = %d mg/m² (%v), want %d", text, got, err, want)
		}
	}
}

func TestParseMinutes(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"0": 0, "12": 12 * time.Minute, "1.5": 90 * time.Second, "1.5 min": 90 * time.Second, "1,5 min": 90 * time.Second,
		"1½ min": 90 * time.Second, "90 s": 90 * time.Second, "1 h": time.Hour, "1 h 20": 80 * time.Minute, "1h20m": 80 * time.Minute,
		"1 h 20 min 30 s": 80*time.Minute + 30*time.Second, "1/4 h": 15 * time.Minute, "2 Hours": 2 * time.Hour, "90 min": 90 * time.Minute,
	} {
		if got, err := units.ParseMinutes(text); err != nil || got != want {
			t.Errorf("%q = %s (%v), want %s", text, got, err, want)
		}
	}
}

func TestParseSpeed(t *testing.T) {
	for text, want := range map[string]float64{"120": 120, "120 m/min": 120, "2 m/s": 120, "100 in/min": 2.54, "100 ft/min": 30.48, "500 mm/min": 0.5} {
		if got, err := units.ParseSpeed(text); err != nil || got.MPerMin() != want {
			t.Errorf("%q = %v m/min (%v), want %v", text, got.MPerMin(), err, want)
		}
	}
}

func TestParsePairAndRange(t *testing.T) {
	for _, c := range []struct {
		text          string
		bare          units.Length
		first, second units.Length
	}{
		{"860x610", mm, 860 * mm, 610 * mm},
		{"860 X 610 mm", in, 860 * mm, 610 * mm},
		{"860 × 610", mm, 860 * mm, 610 * mm},
		{"86 cm by 610 mm", 0, 860 * mm, 610 * mm},
		{"25 x 38 in", mm, 25 * in, 38 * in},
		{"25\" x 38", mm, 25 * in, 38 * in},
		{"25 in x 610 mm", 0, 25 * in, 610 * mm},
		{"23-1/16 x 17 1/2\"", mm, in * 369 / 16, in * 35 / 2},
	} {
		first, second, err := units.ParsePair(c.text, c.bare)
		if err != nil || first != c.first || second != c.second {
			t.Errorf("%q = %s, %s (%v)", c.text, first.Exact(), second.Exact(), err)
		}
	}
	least, most, err := units.ParseRange("3 1/8 to 20 1/2 in", mm)
	if err != nil || least != in*25/8 || most != in*41/2 {
		t.Errorf("range = %s, %s (%v)", least.Exact(), most.Exact(), err)
	}
}

// TestRefusals gives the exact words for every way in which a text can fail.
func TestRefusals(t *testing.T) {
	length := func(text string) error { _, err := units.ParseLength(text, mm); return err }
	noUnit := func(text string) error { _, err := units.ParseLength(text, 0); return err }
	thickness := func(text string) error { _, err := units.ParseThickness(text, um); return err }
	grammage := func(text string) error { _, err := units.ParseGrammage(text); return err }
	speed := func(text string) error { _, err := units.ParseSpeed(text); return err }
	minutes := func(text string) error { _, err := units.ParseMinutes(text); return err }
	pair := func(text string) error { _, _, err := units.ParsePair(text, mm); return err }
	between := func(text string) error { _, _, err := units.ParseRange(text, mm); return err }
	const (
		writeLength   = "; write a number and mm, cm, m, µm, in or pt, such as 210 mm, 8.5 in or 8 1/2 in [length]"
		writeGrammage = "; write a number and g/m², or a basis weight with its class, such as 80 g/m² or 60 lb text [grammage]"
		writeMinutes  = "; write minutes or a number and h, min or s, such as 12, 1.5 min, 90 s or 1 h 20 [minutes]"
		writeClass    = "; write bond, text, cover, index, bristol or tag after the pounds, such as 60 lb text [basis-class]"
	)
	for _, c := range []struct {
		parse      func(string) error
		text, want string
	}{
		{length, "", `an empty text is no length` + writeLength},
		{length, " ", `an empty text is no length` + writeLength},
		{length, "-", `an empty text is no length` + writeLength},
		{length, "wide", `"wide" does not start with a number` + writeLength},
		{length, "NaN", `"NaN" does not start with a number` + writeLength},
		{length, "∞", `"∞" does not start with a number` + writeLength},
		{length, "210 furlong", `"210 furlong" ends in "furlong", which is no unit of a length` + writeLength},
		{length, "1e3", `"1e3" ends in "e3", which is no unit of a length` + writeLength},
		{length, "0x10", `"0x10" ends in "x10", which is no unit of a length` + writeLength},
		{length, "5.", `"5." ends in ".", which is no unit of a length` + writeLength},
		{length, "1.2.3", `"1.2.3" ends in ".3", which is no unit of a length` + writeLength},
		{length, "1 189", `"1 189" ends in "189", which is no unit of a length` + writeLength},
		{length, "1½2", `"1½2" ends in "2", which is no unit of a length` + writeLength},
		{length, "2.5 1/2", `"2.5 1/2" ends in "1/2", which is no unit of a length` + writeLength},
		{length, "1,189", `"1,189" can be read two ways, as 1189 or as 1.189` + writeLength},
		{length, "1/0 in", `"1/0 in" divides by zero` + writeLength},
		{length, "8 5/4 in", `"8 5/4 in" has a fraction that is not below one` + writeLength},
		{length, "1234567890123", `"1234567890123" has too many digits` + writeLength},
		{length, "1/1234567890123", `"1/1234567890123" has too many digits` + writeLength},
		{length, "--5", `"--5" does not start with a number` + writeLength},
		{length, strings.Repeat("9 ", 50), `"9 9 9 9 9 9 9 9 9 9 9 9 9 9 9 9 9 9 9 9 "… is too long for a length` + writeLength},
		{length, "\xff", `"\xff" does not start with a number` + writeLength},
		{length, "-5 mm", `"-5 mm" is below zero; a length is not negative [quantity-range]`},
		{length, "101 m", `"101 m" is too much; at most 100 m [quantity-range]`},
		{noUnit, "210", `"210" has no unit` + writeLength},
		{thickness, "0", `"0" is nothing; a thickness is more than zero [quantity-range]`},
		{thickness, "101 mm", `"101 mm" is too much; at most 100 mm [quantity-range]`},
		{thickness, "thin", `"thin" does not start with a number; write a number and µm, mm, pt, mil or in, such as 95 µm, 0.1 mm or 10 pt [thickness]`},
		{grammage, "60 lb", `"60 lb" does not say the class of the paper` + writeClass},
		{grammage, "60#", `"60#" does not say the class of the paper` + writeClass},
		{grammage, "60 lb vellum", `"vellum" is no class of paper whose basic size is known` + writeClass},
		{grammage, "60 text", `"60 text" ends in "text", which is no unit of a grammage` + writeGrammage},
		{grammage, "heavy", `"heavy" does not start with a number` + writeGrammage},
		{grammage, "0", `"0" is nothing; a grammage is more than zero [quantity-range]`},
		{grammage, "-80", `"-80" is below zero; a grammage is not negative [quantity-range]`},
		{grammage, "5001", `"5001" is too much; at most 5000 g/m² [quantity-range]`},
		{grammage, "-60 lb text", `"-60 lb text" is below zero; a grammage is not negative [quantity-range]`},
		{speed, "0", `"0" is nothing; a speed is more than zero [quantity-range]`},
		{speed, "9000 m/min", `"9000 m/min" is too much; at most 2000 m/min [quantity-range]`},
		{speed, "fast", `"fast" does not start with a number; write a number and m/min, in/min or ft/min, such as 120 m/min [speed]`},
		{minutes, "", `an empty text is no time` + writeMinutes},
		{minutes, "soon", `"soon" does not start with a number` + writeMinutes},
		{minutes, "1:20", `"1:20" is not in hours, minutes and seconds, one after the other` + writeMinutes},
		{minutes, "1 min 30", `"1 min 30" is not in hours, minutes and seconds, one after the other` + writeMinutes},
		{minutes, "20 min 1 h", `"20 min 1 h" is not in hours, minutes and seconds, one after the other` + writeMinutes},
		{minutes, "1 h 1 h", `"1 h 1 h" is not in hours, minutes and seconds, one after the other` + writeMinutes},
		{minutes, "3 days", `"3 days" is not in hours, minutes and seconds, one after the other` + writeMinutes},
		{minutes, "-5", `"-5" is below zero; a time is not negative [quantity-range]`},
		{minutes, "99999 h", `"99999 h" is too much; at most 10000 h [quantity-range]`},
		{minutes, strings.Repeat("1", 90), `"1111111111111111111111111111111111111111"… is too long for a time` + writeMinutes},
		{pair, "860", `"860" is no size; write two lengths with x between them, such as 860x610 or 25 x 38 in [size]`},
		{pair, "1x2x3", `"1x2x3" is no size; write two lengths with x between them, such as 860x610 or 25 x 38 in [size]`},
		{pair, "860 x ", `an empty text is no length` + writeLength},
		{pair, "860 x wide", `"wide" does not start with a number` + writeLength},
		{between, "80", `"80" is no range; write the least and the most with to between them, such as 80 to 520 [least-most]`},
	} {
		err := c.parse(c.text)
		if err == nil || err.Error() != c.want {
			t.Errorf("%q\n got %v\nwant %s", c.text, err, c.want)
		}
		if len(fault.All(err)) != 1 {
			t.Errorf("%q: %v is not one fault", c.text, err)
		}
	}
}
