package tooling

import (
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

func TestParse(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"perforate 12 tpi @ 305", "perforate 12 tpi @ 305 mm"},
		{"  Perforate  12tpi@305mm ", "perforate 12 tpi @ 305 mm"},
		{"perforate 12.50 tpi @ 1", "perforate 12.5 tpi @ 1 mm"},
		{"perforate 10/6 mm @ 1", "perforate 10/6 mm @ 1 mm"},
		{"perforate 10 mm/6 mm @ 1", "perforate 10/6 mm @ 1 mm"},
		{"perforate 0.25/0.125 in @ 1", "perforate 6.35/3.175 mm @ 1 mm"},
		{"perforate @ 20", "perforate @ 20 mm"},
		{"score 0,7 @ 23-1/16 in", "score 0.7 mm @ 585.7875 mm"},
		{"score 2 pt @ 0", "score 0.705556 mm @ 0 mm"}, // 2 pt rule = 2/72 in = 0.71 mm, handbook figure from memory
		{"strip 1/4 in @ 8 1/2\"", "strip 6.35 mm @ 215.9 mm"},
		{"slit @ 12", "slit @ 12 mm"},
	} {
		tool, err := Parse(c.text, units.Millimetre)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
		} else if got := tool.String(); got != c.want {
			t.Errorf("%q is %q, want %q", c.text, got, c.want)
		}
	}
	tool, err := Parse("strip 1/4 @ 8 1/2", units.Inch)
	if err != nil || tool.Format(true) != "strip 6.35 mm @ 8 1/2 in" {
		t.Errorf("bare inches: %v %v", tool.Format(true), err)
	}
}

func TestParseFaults(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"perforate 12 tpi", `"perforate 12 tpi" does not say where the tool stands; write @ and the place, such as perforate 12 tpi @ 305 mm [tool]`},
		{"punch @ 3", `"punch" is no kind of tool; write slit, strip, perforate or score first [tool-kind]`},
		{"@ 3", `"" is no kind of tool; write slit, strip, perforate or score first [tool-kind]`},
		{"strip @ 3", `a strip without a width; write the width, such as strip 6 mm [tool-spec]`},
		{"slit 3 mm @ 3", `a slit has no spec, and "3 mm" is one; write slit alone [tool-spec]`},
		{"perforate fine @ 3", `"fine" is no perforation; write teeth to the inch or cut/tie, such as 12 tpi or 10/6 mm [tool-spec]`},
		{"perforate x tpi @ 3", `"x" is no number of teeth; write teeth to the inch, such as 12 tpi [tool-spec]`},
		{"perforate 0 tpi @ 3", `0 teeth to the inch; 1 to 200 [tool-spec]`},
		{"perforate 1200 tpi @ 3", `1200 teeth to the inch; 1 to 200 [tool-spec]`},
		{"perforate 10/0 mm @ 3", `cut and tie of 10/0 mm; each more than 0 and at most 100 mm [tool-spec]`},
		{"score 0 @ 3", `edge of 0 mm; more than 0 and at most 10 mm [tool-spec]`},
		{"strip 6 m @ 3", `strip of 6000 mm; more than 0 and at most 200 mm [tool-spec]`},
	} {
		_, err := Parse(c.text, units.Millimetre)
		if err == nil || err.Error() != c.want {
			t.Errorf("%q: got %v\nwant %s", c.text, err, c.want)
		}
	}
}

// What is written reads back as the same tool, whatever a bare number means.
func TestParseReadsWhatStringWrites(t *testing.T) {
	lengths := rapid.Int64Range(1, int64(10*units.Millimetre))
	rapid.Check(t, func(t *rapid.T) {
		var typ Type
		switch kind := rapid.SampledFrom(Kinds()).Draw(t, "kind"); kind {
		case Slit:
			typ = Type{Slit, ""}
		case Perforate:
			typ = Type{Perforate, units.Length(lengths.Draw(t, "cut")).Exact()[:1] + "/" + units.Length(lengths.Draw(t, "tie")).Exact()}
			if typ.Spec[0] == '0' {
				typ.Spec = "12.125 tpi"
			}
		default:
			typ = Type{kind, units.Length(lengths.Draw(t, "width")).Exact()}
		}
		tool := Tool{typ, units.Length(rapid.Int64Range(0, int64(5*units.Metre)).Draw(t, "at"))}
		for _, bare := range []units.Length{units.Millimetre, units.Inch} {
			if got, err := Parse(tool.String(), bare); err != nil || got != tool {
				t.Fatalf("%q reads as %q, %v", tool, got, err)
			}
		}
	})
}

// Whatever is typed: a fault or a tool that reads back as itself, never a panic.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"perforate 12 tpi @ 305", "strip 1/4 in @ 300", "perforate 10/6 mm @ 1", "score 2 pt @ 1 1/2\"", "slit@0", "@", "perforate 1/2/3 @ 4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		tool, err := Parse(text, units.Millimetre)
		if err != nil {
			if fault.All(err) == nil {
				t.Fatalf("%q: %v is no fault", text, err)
			}
			return
		}
		if again, err := Parse(tool.String(), units.Inch); err != nil || again != tool {
			t.Fatalf("%q reads as %q, which reads as %q, %v", text, tool, again, err)
		}
	})
}
