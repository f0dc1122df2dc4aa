package ui

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// Contrast as the W3C defines it: WCAG 2.2, "relative luminance" and "contrast ratio" (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio);
// criterion 1.4.3 asks 4.5:1 of text, 1.4.11 asks 3:1 of the edges of controls, of focus rings and of what a graphic needs.
const (
	ofText    = 4.5
	ofGraphic = 3
)

// used are the colours that stand on one another.
var used = []struct {
	what     float64
	on, over []string // each of on on each of over
}{
	{ofText, []string{"ink", "ink-soft", "link"}, []string{"ground", "sheet", "sunk", "wash"}},
	{ofText, []string{"ink", "link"}, []string{"bad-wash", "warn-wash", "good-wash"}},
	{ofText, []string{"accent-ink"}, []string{"accent", "accent-deep"}},
	{ofText, []string{"accent-deep"}, []string{"ground", "sheet"}},
	{ofText, []string{"bad", "warn", "good", "blue", "orange", "green"}, []string{"sheet", "ground", "wash"}},
	{ofText, []string{"blue", "orange", "green"}, []string{"sunk"}}, // in drawings, on pale areas
	{ofText, []string{"bad"}, []string{"bad-wash"}},
	{ofText, []string{"warn"}, []string{"warn-wash"}},
	{ofText, []string{"good"}, []string{"good-wash"}},
	{ofGraphic, []string{"edge", "focus", "accent", "ink-soft"}, []string{"ground", "sheet", "wash"}},
	{ofGraphic, []string{"edge"}, []string{"sunk"}},
	{ofGraphic, []string{"focus"}, []string{"sunk", "bad-wash", "warn-wash", "good-wash"}},
}

func TestColoursContrast(t *testing.T) {
	light, dark := tokens(t)
	for _, u := range used {
		for _, on := range u.on {
			for _, over := range u.over {
				for theme, colours := range map[string]map[string]string{"light": light, "dark": dark} {
					a, b := colours[on], colours[over]
					if a == "" || b == "" {
						t.Fatalf("%s: there is no colour %s or %s", theme, on, over)
					}
					if got := contrast(t, a, b); got < u.what {
						t.Errorf("%s: %s %s on %s %s has %.2f:1, want %.1f:1", theme, on, a, over, b, got, u.what)
					}
				}
			}
		}
	}
}

// The sum itself against ratios that are published: black on white is 21:1 by the definition; #767676 on white is the
// lightest grey that passes 4.5:1, #777777 just does not (W3C, "Understanding SC 1.4.3", note on #777777 at 4.47:1).
func TestContrastItself(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{{"#000000", "#ffffff", 21}, {"#777777", "#ffffff", 4.48}, {"#767676", "#ffffff", 4.54}, {"#ffffff", "#ffffff", 1}} {
		if got := contrast(t, c.a, c.b); math.Abs(got-c.want) > 0.01 {
			t.Errorf("%s on %s has %.3f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}

// tokens reads the colours of the style sheet, for light and for dark.
func tokens(t *testing.T) (light, dark map[string]string) {
	t.Helper()
	data, err := os.ReadFile("assets/css/10-tokens.css")
	if err != nil {
		t.Fatal(err)
	}
	light, dark = map[string]string{}, map[string]string{}
	for _, m := range regexp.MustCompile(`--([a-z-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\);`).FindAllStringSubmatch(string(data), -1) {
		light[m[1]], dark[m[1]] = m[2], m[3]
	}
	if n := strings.Count(string(data), "light-dark(#"); n != len(light) || n < 15 {
		t.Fatalf("%d colours read of %d", len(light), n)
	}
	return light, dark
}

func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}
