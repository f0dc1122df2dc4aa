package main

import (
	"bytes"
	"context"
	"regexp"
	"strings"
	"testing"

	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/shop"
	speech "foldwright/internal/words"
)

// kept is a store with a shop that a test has changed.
type kept struct{ shop *shop.Shop }

func (k kept) Shop(context.Context) (*shop.Shop, error) { return k.shop, nil }

func english(inch bool) *speech.Speaker { return speech.NewSpeaker(speech.English, inch) }

// told is what settings prints of a job of the demo.
func told(t *testing.T, job string, inch bool) string {
	t.Helper()
	s, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	answers, err := (&desk.Desk{Store: kept{s}}).Settings(signed(t), job, "alder")
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	sheet{streams{out: &out}, english(inch)}.answers(answers)
	return out.String()
}

// The same job in inches: every figure of the units is the one in millimetres divided by 25.4, and stands in its place.
func TestSettingsInInches(t *testing.T) {
	mm, in := told(t, "2101", false), told(t, "2101", true)
	for _, c := range [][2]string{
		{`860 × 610 mm, `, `33.858 × 24.016 in, `},            // 860/25.4 = 33.858, 610/25.4 = 24.016
		{`plate 1 +stop +430 mm`, `plate 1 +stop +16.929 in`}, // 430/25.4
		{`knife +stop +219 mm`, `knife +stop +8.622 in`},      // (430 + 8)/2/25.4
		{`lap 8 mm`, `lap 0.315 in`},                          // 8/25.4
		{`perforate 12 tpi +410 mm +305 mm`, `perforate 12 tpi +16.142 in +12.008 in`},
		{`nip 1 +1 layer +106 µm`, `nip 1 +1 layer +4.2 pt`}, // a point is 25.4 µm
	} {
		if !regexp.MustCompile(c[0]).MatchString(mm) {
			t.Errorf("%q is not in\n%s", c[0], mm)
		}
		if !regexp.MustCompile(c[1]).MatchString(in) {
			t.Errorf("%q is not in\n%s", c[1], in)
		}
	}
	if strings.Count(mm, "\n") != strings.Count(in, "\n") {
		t.Error("inches take another number of lines")
	}
}

// A unit that the stack only passes still has a guide and stations to set; one that is not used has nothing.
func TestPassedAndUnusedUnits(t *testing.T) {
	s, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	d := &desk.Desk{Store: kept{s}}
	for job, want := range map[string][2]string{
		"2103": {"hazel", "Unit 1, buckle: passed without a fold\n  enters "},
		"2104": {"hazel", "Unit 2, buckle: not used\n\n"},
	} {
		answers, err := d.Settings(signed(t), job, want[0])
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		sheet{streams{out: &out}, english(false)}.answers(answers)
		if !strings.Contains(out.String(), want[1]) {
			t.Errorf("job %s on %s: %q is not in\n%s", job, want[0], want[1], out.String())
		}
	}
}
