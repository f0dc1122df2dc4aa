package units

import "regexp"

// What parts two lengths that belong together.
var (
	times = regexp.MustCompile(` ?(?:x|×|\*|\bby\b) ?`)
	upTo  = regexp.MustCompile(` ?(?:–|\bto\b) ?`)
)

var (
	pairs  = measure{name: "size", code: CodeSize, example: "two lengths with x between them, such as 860x610 or 25 x 38 in"}
	ranges = measure{name: "range", code: CodeLeastMost, example: "the least and the most with to between them, such as 80 to 520"}
)

// ParsePair reads two lengths that belong together, such as the sides of a sheet: "860x610", "25 x 38 in",
// `23-1/16 x 17 1/2"`. A unit written once counts for both; numbers without any are in the unit bare.
func ParsePair(text string, bare Length) (first, second Length, err error) {
	return pairs.two(text, times, bare)
}

// ParseRange reads the least and the greatest of a length: "80 to 520", "3 1/8 to 20 1/2 in". A unit written once counts
// for both. Whether the first is at most the second is for the caller to say, who knows what it is the range of.
func ParseRange(text string, bare Length) (least, most Length, err error) {
	return ranges.two(text, upTo, bare)
}

// two reads two lengths with something between them.
func (m measure) two(text string, between *regexp.Regexp, bare Length) (first, second Length, err error) {
	parts := between.Split(tidy(text), -1)
	if len(parts) != 2 || len(text) > textMost {
		return 0, 0, m.refuse(quote(text) + " is no " + m.name)
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
