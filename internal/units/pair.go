package units

import (
	"regexp"

	"foldwright/internal/fault"
)

// times parts the two lengths of a size.
var times = regexp.MustCompile(` ?(?:x|×|\*|\bby\b) ?`)

// ParsePair reads two lengths that belong together, such as the sides of a sheet: "860x610", "25 x 38 in",
// `23-1/16 x 17 1/2"`. A unit written once counts for both; numbers without any are in the unit bare.
func ParsePair(text string, bare Length) (first, second Length, err error) {
	parts := times.Split(tidy(text), -1)
	if len(parts) != 2 || len(text) > textMost {
		return 0, 0, pairs.refuse(quote(text) + " is not two lengths")
	}
	parts[0], parts[1] = shareUnit(parts[0], parts[1]), shareUnit(parts[1], parts[0])
	if first, err = ParseLength(parts[0], bare); err != nil {
		return 0, 0, err
	}
	second, err = ParseLength(parts[1], bare)
	return first, second, err
}

// shareUnit gives a number the unit of the other one when it has none itself.
func shareUnit(text, other string) string {
	_, unit, wrong := number(text)
	_, others, otherWrong := number(other)
	if wrong == "" && otherWrong == "" && unit == "" && others != "" {
		return text + " " + others
	}
	return text
}

var pairs = measure{name: "size", code: CodeSize, example: "two lengths with x between them, such as 860x610 or 25 x 38 in"}

// CodeSize is the code of what is no size, neither two lengths nor a known name.
const CodeSize fault.Code = "size"
