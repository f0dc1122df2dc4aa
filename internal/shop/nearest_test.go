package shop

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// plainDistance is the definition of the edit distance, by recursion.
func plainDistance(a, b []rune) int {
	switch {
	case len(a) == 0:
		return len(b)
	case len(b) == 0:
		return len(a)
	case a[0] == b[0]:
		return plainDistance(a[1:], b[1:])
	}
	return 1 + min(plainDistance(a[1:], b), plainDistance(a, b[1:]), plainDistance(a[1:], b[1:]))
}

func TestDistance(t *testing.T) {
	// The textbook example of the edit distance (Levenshtein 1965): kitten, sitting, three letters.
	if got := apart("kitten", "sitting", 100); got != 3 {
		t.Errorf("kitten and sitting are %d apart, not 3", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[abcé]{0,5}`)
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		most := rapid.IntRange(1, 7).Draw(t, "most")
		want := plainDistance([]rune(a), []rune(b))
		if got := apart(a, b, most); min(got, most) != min(want, most) {
			t.Errorf("%q and %q are %d apart (looking up to %d), not %d", a, b, got, most, want)
		}
	})
}

func TestNearest(t *testing.T) {
	known := []string{"alder", "birch", "elder", "4711", "4712", "A", ""}
	for _, c := range []struct{ name, want string }{
		{"aldr", "alder"}, {"Alder", "alder"}, {"ALDER", "alder"}, {"older", "alder"}, // alder and elder are as near: the first
		{"eldr", "elder"}, {"47111", "4711"}, {"4713", "4711"}, {"willow", ""}, {"", ""}, {"b", ""}, {strings.Repeat("alder", 1000), ""},
	} {
		got, ok := Nearest(c.name, known)
		if got != c.want || ok != (c.want != "") {
			t.Errorf("nearest to %.20q is %q, not %q", c.name, got, c.want)
		}
	}
}
