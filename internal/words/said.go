package words

import (
	"strings"

	"foldwright/internal/units"
)

// Joined is texts said one after another with commas.
type Joined []Text

// String is the texts in English and millimetres.
func (j Joined) String() string { return english.list(j, ", ") }

// Series is texts said one after another with semicolons: reasons, each a clause of its own.
type Series []Text

// List is things said with commas and, before the last, "and".
type List []any

// Numbers makes a list of numbers.
func Numbers(numbers []int) List {
	l := make(List, len(numbers))
	for i, n := range numbers {
		l[i] = n
	}
	return l
}

// Plain is a text that is not in the catalogue because a person or another program wrote it.
func Plain(text string) Text { return T("%s", text) }

// Count makes a text that speaks of so many, more than none: the languages of the catalogue all tell one from many and no
// more. The number is its first argument.
func Count(n int, one, many string, args ...any) Text {
	key := many
	if n == 1 {
		key = one
	}
	return Text{key, append([]any{n}, args...)}
}

// Micron is a length that is read as a thickness: in micrometres, or in thousandths of an inch.
type Micron units.Length

// Bare is a length said without its unit.
type Bare units.Length

// Fine is a length told to the thousandth of a millimetre, for limits that may be missed by less than a hundredth.
type Fine units.Length

// list renders texts one after another.
func (s *Speaker) list(texts []Text, between string) string {
	parts := make([]string, len(texts))
	for i, t := range texts {
		parts[i] = s.Text(t)
	}
	return strings.Join(parts, between)
}

// semicolon parts clauses; the French put a blank before it.
func (s *Speaker) semicolon() string {
	if s.Lang == French {
		return " ; "
	}
	return "; "
}

// and renders things with commas and an "and".
func (s *Speaker) and(things List) string {
	if len(things) == 0 {
		return ""
	}
	text := s.printer.Sprint(s.ready(things[len(things)-1]))
	if len(things) == 1 {
		return text
	}
	before := make([]string, len(things)-1)
	for i, a := range things[:len(things)-1] {
		before[i] = s.printer.Sprint(s.ready(a))
	}
	return s.Say("%s and %s", strings.Join(before, ", "), text)
}
