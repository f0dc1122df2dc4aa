package paper_test

import (
	"fmt"
	"strings"
	"testing"

	"foldwright/internal/fault"
	"foldwright/internal/paper"
	"foldwright/internal/units"
)

const (
	mm = units.Millimetre
	in = units.Inch
)

// published is the table of the XJDF specification, appendix C, in mm, short side first (A and B after ISO 216:2007; RA
// and SRA are those of ISO 217, from memory).
const published = `
A0 841x1189  B0 1000x1414 C0 917x1297 RA0 860x1220 SRA0 900x1280
A1 594x841   B1 707x1000  C1 648x917  RA1 610x860  SRA1 640x900
A2 420x594   B2 500x707   C2 458x648  RA2 430x610  SRA2 450x640
A3 297x420   B3 353x500   C3 324x458  RA3 305x430  SRA3 320x450
A4 210x297   B4 250x353   C4 229x324  RA4 215x305  SRA4 225x320
A5 148x210   B5 176x250   C5 162x229
A6 105x148   B6 125x176   C6 114x162
A7 74x105    B7 88x125    C7 81x114
A8 52x74     B8 62x88     C8 57x81
A9 37x52     B9 44x62     C9 40x57
A10 26x37    B10 31x44    C10 28x40`

func TestNamedSizesAsPublished(t *testing.T) {
	words := strings.Fields(published)
	for i := 0; i < len(words); i += 2 {
		name := words[i]
		var short, long int
		if _, err := fmt.Sscanf(words[i+1], "%dx%d", &short, &long); err != nil {
			t.Fatal(err)
		}
		checkSize(t, name, units.Length(long)*mm, units.Length(short)*mm)
	}
	if got, want := len(paper.SizeNames()), len(words)/2+5; got != want {
		t.Errorf("%d sizes have names, want the %d published and 5 of North America", got, want)
	}
}

// TestNorthAmericanSizes: letter, legal, ledger and tabloid from the same appendix; half letter is arithmetic.
func TestNorthAmericanSizes(t *testing.T) {
	checkSize(t, "letter", 11*in, 17*in/2)
	checkSize(t, "legal", 14*in, 17*in/2)
	checkSize(t, "ledger", 17*in, 11*in)
	checkSize(t, "tabloid", 17*in, 11*in)
	checkSize(t, "half letter", 17*in/2, 11*in/2)
	if l, s, _ := paper.ParseSize("letter", 0); units.FormatMM(l) != "279.4" || units.FormatMM(s) != "215.9" {
		t.Errorf("letter is %s x %s mm, want 279.4 x 215.9", units.FormatMM(l), units.FormatMM(s))
	}
}

func checkSize(t *testing.T, name string, long, short units.Length) {
	t.Helper()
	for text, want := range map[string][2]units.Length{
		name: {long, short}, strings.ToLower(name): {long, short}, " " + name + "  Landscape": {long, short}, name + " portrait": {short, long},
	} {
		first, second, err := paper.ParseSize(text, 0)
		if err != nil || first != want[0] || second != want[1] {
			t.Errorf("%q = %s x %s (%v)", text, first.Format(false), second.Format(false), err)
		}
	}
}

// TestSixteenPagesOfA4: SRA1 halved three times by turns is 225 × 320 mm, which leaves 15 × 23 mm over A4 (arithmetic).
func TestSixteenPagesOfA4(t *testing.T) {
	long, short, err := paper.ParseSize("SRA1", 0)
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		long, short = short, long/2
	}
	checkSize(t, "SRA4", long, short)
	a4Long, a4Short, err := paper.ParseSize("A4", 0)
	if err != nil || short-a4Short != 15*mm || long-a4Long != 23*mm {
		t.Errorf("spare over A4 is %s x %s (%v), want 15 x 23 mm", (short - a4Short).Format(false), (long - a4Long).Format(false), err)
	}
}

func TestParseSizeAsWritten(t *testing.T) {
	for _, c := range []struct {
		text          string
		bare          units.Length
		first, second units.Length
	}{
		{"860x610", mm, 860 * mm, 610 * mm},
		{"610 x 860", mm, 610 * mm, 860 * mm}, // as written, never turned
		{"25 x 38 in", mm, 25 * in, 38 * in},
		{"23-1/16 x 17 1/2\"", mm, 369 * in / 16, 35 * in / 2},
		{"25x38", in, 25 * in, 38 * in},
	} {
		first, second, err := paper.ParseSize(c.text, c.bare)
		if err != nil || first != c.first || second != c.second {
			t.Errorf("%q = %s x %s (%v)", c.text, first.Exact(), second.Exact(), err)
		}
	}
}

func TestSizeRefusals(t *testing.T) {
	for text, want := range map[string]string{
		"":              `"" is no size; write two lengths with x between them, such as 860x610 or 25 x 38 in, or a name such as SRA1, A4 or letter [size]`,
		"A11":           `"A11" is no size; write two lengths with x between them, such as 860x610 or 25 x 38 in, or a name such as SRA1, A4 or letter [size]`,
		"portrait":      `"portrait" is no size; write two lengths with x between them, such as 860x610 or 25 x 38 in, or a name such as SRA1, A4 or letter [size]`,
		"860x610x3":     `"860x610x3" is no size; write two lengths with x between them, such as 860x610 or 25 x 38 in, or a name such as SRA1, A4 or letter [size]`,
		"0x610":         `a sheet with a side of 0 mm; more than 0 and at most 10 m each way [size-range]`,
		"860 x 61000":   `a sheet with a side of 61000 mm; more than 0 and at most 10 m each way [size-range]`,
		"860 x -610":    `"-610" is below zero; a length is not negative [quantity-range]`,
		"860 x 610 gsm": `"860 gsm" ends in "gsm", which is no unit of a length; write a number and mm, cm, m, µm, in or pt, such as 210 mm, 8.5 in or 8 1/2 in [length]`,
	} {
		if _, _, err := paper.ParseSize(text, mm); err == nil || err.Error() != want {
			t.Errorf("%q\n got %v\nwant %s", text, err, want)
		}
	}
}

// FuzzParseSize: no text panics or gives a sheet beyond reason, and every refusal says what would be right.
func FuzzParseSize(f *testing.F) {
	for _, seed := range []string{"860x610", "25 x 38 in", `23-1/16 x 17 1/2"`, "SRA1", "A4 portrait", "half letter", "x", "1x", "\xffx2", "A", "1 by 2 ft"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		first, second, err := paper.ParseSize(text, mm)
		switch faults := fault.All(err); {
		case err == nil && (first <= 0 || second <= 0 || max(first, second) > 10*units.Metre):
			t.Errorf("%q = %s x %s", text, first.Exact(), second.Exact())
		case err != nil && (len(faults) != 1 || faults[0].Right == "" || first != 0 || second != 0):
			t.Errorf("%q: %v with %s x %s", text, err, first.Exact(), second.Exact())
		}
	})
}
