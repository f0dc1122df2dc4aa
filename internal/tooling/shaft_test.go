package tooling

import (
	"math"
	"testing"

	"foldwright/internal/units"
)

// The masses of a solid steel shaft of a metre at 7850 kg/m³: 25 mm 3.85, 30 mm 5.55, 35 mm 7.55 kg, as in any table of
// round steel bars (from memory; the project's trade notes derive the same).
func TestMass(t *testing.T) {
	for _, c := range []struct {
		diameter units.Length
		kg       float64
	}{{25, 3.85}, {30, 5.55}, {35, 7.55}} {
		class := Class{"c", c.diameter * units.Millimetre, units.Metre}
		if kg := class.Mass(); math.Abs(kg-c.kg) > 0.005 {
			t.Errorf("%d mm: %.4f kg, want %.2f", c.diameter, kg, c.kg)
		}
	}
}

// 12 teeth to the inch: 25.4/12 = 2.117 mm (the inch is 25.4 mm by definition). 10 mm cut and 6 mm tie: pitch 16 mm, 62.5 %
// cut (arithmetic).
func TestPerforation(t *testing.T) {
	p, ok := Type{Perforate, "12 tpi"}.Perforation()
	if !ok || math.Abs(p.Pitch.MM()-2.117) > 0.0005 {
		t.Errorf("12 tpi: %v %v", p, ok)
	}
	p, ok = Type{Perforate, "10/6 mm"}.Perforation()
	if !ok || p.Pitch != 16*units.Millimetre || p.Cut != 0.625 {
		t.Errorf("10/6 mm: %v %v", p, ok)
	}
	for _, none := range []Type{{Perforate, ""}, {Score, "0.7 mm"}, {Perforate, "x"}, {Perforate, "0 tpi"}} {
		if p, ok := none.Perforation(); ok {
			t.Errorf("%v perforates %v", none, p)
		}
	}
}

// A wheel of 80 mm and a wanted pitch of 16 mm: π · 80 / 16 = 15.71, so 16 teeth, and these truly give π · 80 / 16 =
// 15.708 mm (arithmetic).
func TestTeeth(t *testing.T) {
	teeth, pitch := Teeth(80*units.Millimetre, 16*units.Millimetre)
	if teeth != 16 || math.Abs(pitch.MM()-15.708) > 0.0005 {
		t.Errorf("%d teeth, %.4f mm", teeth, pitch.MM())
	}
	if teeth, _ := Teeth(10*units.Millimetre, units.Metre); teeth != 1 {
		t.Errorf("%d teeth: a wheel has at least one", teeth)
	}
}

// Wear is metres: sheets × length along the travel (common practice, no source). 12 000 sheets of 610 mm are 7.32 km.
func TestRun(t *testing.T) {
	s := Set{MetresK: 310}.Run(12_000, 610*units.Millimetre)
	if math.Abs(s.MetresK-317.32) > 1e-9 {
		t.Errorf("%v thousand metres", s.MetresK)
	}
}

func TestCheckFaults(t *testing.T) {
	class := Class{"wide 35", 35 * units.Millimetre, 760 * units.Millimetre}
	many := at()
	for i := range 101 {
		many.Tools = append(many.Tools, Tool{Type{Slit, ""}, units.Length(i) * units.Millimetre})
	}
	for _, c := range []struct {
		name string
		got  error
		want string
	}{
		{"good class", class.Check().Err(), ""},
		{"bad class", Class{Diameter: -1, Length: 6 * units.Metre}.Check().Err(), "name: a shaft class without a name; write a short name [shaft-class]\n" +
			"diameter: a shaft diameter of 0 mm; more than 0, at most 200 mm [shaft-class]\n" +
			"length: a usable length of 6000 mm; more than 0, at most 5000 mm [shaft-class]"},
		{"good tools", class.CheckTools(at(0, 1, 760).Tools).Err(), ""},
		{
			"off the shaft", class.CheckTools(at(100, 760.5).Tools).Err(),
			"tools[1]: perforate 12 tpi @ 760.5 mm is not on the shaft; 0 to 760 mm [pattern]",
		},
		{
			"not ascending", class.CheckTools(at(100, 300, 200, 200).Tools).Err(),
			"tools[2]: perforate 12 tpi @ 200 mm stands after perforate 12 tpi @ 300 mm; list the tools in ascending order from the datum shoulder, one at each place [pattern]\n" +
				"tools[3]: perforate 12 tpi @ 200 mm stands after perforate 12 tpi @ 200 mm; list the tools in ascending order from the datum shoulder, one at each place [pattern]",
		},
		{"too many", class.CheckTools(many.Tools).Err(), "tools[100]: 101 tools on a shaft; at most 100 [pattern]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := ""
			if c.got != nil {
				got = c.got.Error()
			}
			if got != c.want {
				t.Fatalf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}
