package words

import (
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Every text of the program stands in the catalogue, and the catalogue holds nothing that nobody says.
func TestEveryTextIsInTheCatalogue(t *testing.T) {
	keys := said(t)
	maps.Copy(keys, printed(t))
	for _, kind := range []string{"slit", "strip", "perforate", "score"} { // said by the name of the kind of tool
		keys[kind] = "internal/tooling/tooling.go"
	}
	have := map[string]bool{}
	for _, e := range entries {
		key := e.key()
		if have[key] {
			t.Errorf("%q stands in the catalogue twice", key)
		}
		have[key] = true
		if keys[key] == "" {
			t.Errorf("nobody says %q", key)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(keys)) {
		if !have[key] {
			t.Errorf("%s: %q is not in the catalogue", keys[key], key)
		}
	}
}

var place = regexp.MustCompile(`%(\[\d+\])?[a-z%]`)

// Every text is there in every language, and has the same places in the same order (or numbered ones).
func TestTranslationsHaveTheSamePlaces(t *testing.T) {
	for _, e := range entries {
		key := e.key()
		want := place.FindAllString(key, -1)
		for i, text := range e {
			lang := Langs()[i]
			if strings.TrimSpace(text) == "" || text != strings.TrimSpace(text) {
				t.Errorf("%s: %q is %q, empty or with a blank at an end", lang, key, text)
			}
			got := place.FindAllString(text, -1)
			if !slices.Equal(got, want) && !slices.Equal(inOrder(got), want) {
				t.Errorf("%s: %q has the places %v, %q has %v", lang, key, want, text, got)
			}
		}
	}
}

// inOrder brings numbered places into their order; nil when they are not numbered throughout.
func inOrder(places []string) []string {
	out := make([]string, len(places))
	for _, p := range places {
		if p == "%%" {
			return nil
		}
		n, letter, numbered := strings.Cut(strings.TrimPrefix(p, "%["), "]")
		i, err := strconv.Atoi(n)
		if !numbered || err != nil || i < 1 || i > len(out) || out[i-1] != "" {
			return nil
		}
		out[i-1] = "%" + letter
	}
	return out
}
