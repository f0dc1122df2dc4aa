package fold

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/units"
)

func TestParse(t *testing.T) {
	for text, want := range map[string]string{
		"":                                   "",
		"up 1/2":                             "up 1/2",
		"up 1/2, left, up 1/2, down 210mm":   "up 1/2, left, up 1/2, down 210 mm",
		"  UP 2/4 ,, Turn Left; fold down 3": "up 1/2, left, down 3 mm",
		"up ½, right, up ¼ − 1 mm":           "up 1/2, right, up 1/4 - 1 mm",
		"up 1/2+5mm":                         "up 1/2 + 5 mm",
		"up 1/2 + 0 mm":                      "up 1/2",
		"up 8 1/2 in":                        "up 215.9 mm",
		`up 1/2 - 1/16", down 8-1/2 in`:      "up 1/2 - 1.5875 mm, down 215.9 mm",
		"up 21 cm":                           "up 210 mm",
		"up 2,5 mm, down 0.5 mm":             "up 2.5 mm, down 0.5 mm",
		"up 200/3 mm":                        "up 200/3 mm",
		"up 1/2, up 1/2":                     "up 1/2, up 1/4",
		"up 1/2, left, up 1/2, left, up 1/2": "up 1/2, left, up 1/2, left, up 1/4",
		"up 1/3, down 1/3, left, up 1/2":     "up 1/3, down 1/3, left, up 1/2",
		"up 1/3, down 1/3, up 1/2":           "up 1/3, down 1/3, up 1/6",
		"up 1/2 + 4 mm, up 1/2 + 2 mm":       "up 1/2 + 4 mm, up 1/4 + 2 mm",
		"up 400 mm, up 1/2":                  "up 400 mm, up 1/2", // a length tells no share: 1/2 stays half the sheet
		"letter":                             "up 2/3, down 1/3",
		"letter inner 2 mm":                  "up 2/3 + 4/3 mm, down 1/3 + 2/3 mm",
		"letter down":                        "down 2/3, up 1/3",
		"zigzag 4, left, up 1/2":             "up 1/4, down 1/4, up 1/4, left, up 1/2",
		"up 1/2, zigzag 3":                   "up 1/2, up 1/6, down 1/6",
		"zigzag 3 down":                      "down 1/3, up 1/3",
		"roll 4":                             "up 3/4, down 1/4, down 1/4",
		"roll 4 steps 2.4 mm and 1.6 mm":     "up 3/4 + 2.4 mm, down 1/4 - 0.8 mm, down 1/4 + 1.6 mm",
		"roll 4 steps 2 mm":                  "up 3/4 + 2.5 mm, down 1/4 - 0.5 mm, down 1/4 + 1.5 mm",
		"gate":                               "up 1/4, up 1/2",
		"gate gap 3 mm":                      "up 1/4 - 0.75 mm, up 1/2 + 1.5 mm",
		"closed gate gap 2 mm":               "up 1/4 - 0.5 mm, up 1/2 + 1 mm, down 1/4 + 0.5 mm",
		"double parallel inner 1 mm":         "up 1/2 + 0.5 mm, down 1/4 + 0.25 mm",
		"halves 4":                           "up 1/2, left, up 1/2, left, up 1/4, left, up 1/4",
		"up 1/2, left, halves 2":             "up 1/2, left, up 1/2, left, up 1/4",
		"f16-7":                              "up 1/2, left, up 1/2, right, down 1/4",
	} {
		s, err := Parse(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		if got := s.String(); got != want {
			t.Errorf("%q:\n got %s\nwant %s", text, got, want)
		}
	}
}

func TestParseInches(t *testing.T) {
	s, err := ParseIn("up 8, letter inner 1/16 in", units.Inch)
	if err == nil {
		t.Fatalf("a style after a bare length must be refused, not %s", s)
	}
	s, err = ParseIn("up 8", units.Inch)
	if err != nil || s.String() != "up 203.2 mm" {
		t.Errorf("%v %v", s, err)
	}
}

func TestParseFaults(t *testing.T) {
	for text, want := range map[string]string{
		strings.Repeat("left,", 65): "scheme: 65 steps; at most 64 [fold-limit]",
		"up 1/0 mm":                 `step 1: "1/0 mm" is no depth; a share such as 1/2, a length such as 210 mm or 8 1/2 in, or both: 1/2 + 5 mm [fold-notation]`,
		"up 1/0":                    `step 1: 1/0 is no share of the sheet; a share such as 1/2, a length such as 210 mm or 8 1/2 in, or both: 1/2 + 5 mm [fold-notation]`,
		"roll 4 steps 2 and wide":   `step 1: "wide" is no depth; a share such as 1/2, a length such as 210 mm or 8 1/2 in, or both: 1/2 + 5 mm [fold-notation]`,
		"up":                        `step 1: "" is no depth; a share such as 1/2, a length such as 210 mm or 8 1/2 in, or both: 1/2 + 5 mm [fold-notation]`,
		"up 3/2":                    `step 1: 3/2 is no share of the sheet; a share such as 1/2, a length such as 210 mm or 8 1/2 in, or both: 1/2 + 5 mm [fold-notation]`,
		"up 0.5":                    `step 1: "0.5" is no depth; a share such as 1/2, a length such as 210 mm or 8 1/2 in, or both: 1/2 + 5 mm [fold-notation]`,
		"up 8 1/2":                  `step 1: "8 1/2" is no depth; a share such as 1/2, a length such as 210 mm or 8 1/2 in, or both: 1/2 + 5 mm [fold-notation]`,
		"up 5 mm + 1/2":             `step 1: "5 mm + 1/2" is no depth; a share such as 1/2, a length such as 210 mm or 8 1/2 in, or both: 1/2 + 5 mm [fold-notation]`,
		"up -5 mm":                  `step 1: "-5 mm" is no depth; a share such as 1/2, a length such as 210 mm or 8 1/2 in, or both: 1/2 + 5 mm [fold-notation]`,
		"up 1/2, over 1/2": `step 2: "over 1/2" is neither a fold, a turn nor a style; ` +
			`up, down, left, right or a style: letter, zigzag 3, roll 4, gate, closed gate, double parallel, halves 3 [fold-notation]`,
		"zigzag":               `step 1: wrong number of panels for zigzag; such as: zigzag 4 [fold-notation]`,
		"letter 3":             `step 1: wrong number of panels for letter; such as: letter inner 2 mm [fold-notation]`,
		"zigzag 40":            `step 1: zigzag 40; zigzag 2 to zigzag 17 [fold-notation]`,
		"letter gap 2 mm":      `step 1: letter takes no "gap"; such as: letter inner 2 mm [fold-notation]`,
		"roll 3 steps 1 and 2": `step 1: 2 allowances for a roll; such as: roll 4 steps 2.4 mm and 1.6 mm [fold-notation]`,
		"up 100, zigzag 3":     `step 2: a style after a fold given as a length; the steps written out, or that fold as a share [fold-notation]`,
		"up 3/2, sideways":     "step 1: 3/2 is no share of the sheet; a share such as 1/2, a length such as 210 mm or 8 1/2 in, or both: 1/2 + 5 mm [fold-notation]\nstep 2: \"sideways\" is neither a fold, a turn nor a style; up, down, left, right or a style: letter, zigzag 3, roll 4, gate, closed gate, double parallel, halves 3 [fold-notation]",
	} {
		if s, err := Parse(text); err == nil {
			t.Errorf("%q was read as %s", text, s)
		} else if err.Error() != want {
			t.Errorf("%q:\n got %v\nwant %s", text, err, want)
		}
	}
}

func TestApplyFaults(t *testing.T) {
	sheet := Sheet{Length: 610 * units.Millimetre, Width: 430 * units.Millimetre}
	for text, want := range map[string]string{
		"up 1/2, left, right, down 322 mm": "step 4: depth 322 mm; the stack is 305 mm long; more than 0 and less than 305 mm",
		"up 610 mm":                        "step 1: depth 610 mm; the stack is 610 mm long; more than 0 and less than 610 mm",
		"up 1/2 - 305 mm":                  "step 1: depth 0 mm; the stack is 610 mm long; more than 0 and less than 610 mm",
		"up 1/2 - 400 mm":                  "step 1: depth -95 mm; the stack is 610 mm long; more than 0 and less than 610 mm",
		"halves 10, up 1/2":                "step 20: 2048 panels; at most 1024",
		"zigzag 9, zigzag 10":              "scheme: 17 folds; at most 16",
		"up 1/999983, up 1/999979":         "step 2: the shares of the scheme have no common denominator to reckon with; a common denominator of at most 1000000, such as that of 1/2, 1/3 and 1/8",
	} {
		s, err := Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		_, err = s.Apply(sheet)
		if err == nil {
			t.Errorf("%q folds", text)
		} else if got := err.Error(); got != want+" [fold-depth]" && got != want+" [fold-limit]" {
			t.Errorf("%q:\n got %v\nwant %s", text, err, want)
		}
	}
	flat := Scheme{}
	for _, size := range []Sheet{{}, {Length: -1, Width: 1}, {Length: 11 * units.Metre, Width: 1}} {
		if _, err := flat.Apply(size); err == nil {
			t.Errorf("a sheet of %v folds", size)
		}
	}
	for _, s := range []Scheme{
		{Steps: []Step{{}}},
		{Steps: []Step{{Op: 9}}},
		{Steps: []Step{{Op: Up, Depth: Depth{Share: Ratio{1, -2}}}}},
		{Steps: []Step{{Op: Up, Depth: Depth{Plus: Ratio{1 << 62, 1}}}}},
		{Steps: make([]Step, 1000)},
		{Lap: 1 << 60},
		{Trims: Trims{Head: 300 * units.Millimetre, Foot: 200 * units.Millimetre}},
		{Trims: Trims{Front: -1}},
	} {
		if _, err := s.Apply(sheet); err == nil {
			t.Errorf("%+v folds", s)
		}
	}
}

// Whatever the notation can say, it says back exactly.
func TestNotationRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Scheme{Steps: rapid.SliceOfN(rapid.Custom(anyStep), 0, 8).Draw(t, "steps")}
		text := s.String()
		got, err := Parse(text)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if len(got.Steps) != len(s.Steps) {
			t.Fatalf("%q has %d steps", text, len(got.Steps))
		}
		again, err := Parse(got.String())
		if err != nil || again.String() != got.String() {
			t.Fatalf("%q became %q, then %q: %v", text, got, again, err)
		}
	})
}

func anyStep(t *rapid.T) Step {
	st := Step{Op: rapid.SampledFrom([]Op{Up, Down, Left, Right}).Draw(t, "op")}
	if !st.Op.IsFold() {
		return st
	}
	if rapid.Bool().Draw(t, "share") {
		den := rapid.Int64Range(2, 1000).Draw(t, "den")
		st.Depth.Share = ratio(rapid.Int64Range(1, den-1).Draw(t, "num"), den)
	}
	if st.Depth.Share.IsZero() || rapid.Bool().Draw(t, "plus") {
		least := int64(-1_000_000_000)
		if st.Depth.Share.IsZero() {
			least = 1
		}
		st.Depth.Plus = ratio(rapid.Int64Range(least, 1_000_000_000).Draw(t, "nm"), rapid.Int64Range(1, 64).Draw(t, "parts"))
	}
	return st
}

// Seeds in testdata/fuzz/FuzzParse.
func FuzzParse(f *testing.F) {
	sheet := Sheet{Length: 860 * units.Millimetre, Width: 610 * units.Millimetre}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := Parse(text)
		if err != nil {
			return
		}
		again, err := Parse(s.String())
		if err != nil || again.String() != s.String() {
			t.Fatalf("%q was read as %q, which reads back as %q: %v", text, s, again, err)
		}
		folded, err := s.Apply(sheet)
		if err != nil {
			return
		}
		if end := folded.Finished(); end.Layers < 1 || end.Length <= 0 || end.Width <= 0 {
			t.Fatalf("%q folds to %+v", text, end)
		}
	})
}
