package paper

import (
	"fmt"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// size is a sheet with a name; Long is never shorter than Short.
type size struct {
	name        string
	long, short units.Length
}

// series is a row of sizes, each half of the one before.
type series struct {
	prefix      string
	long, short units.Length // of size 0
	last        int
}

// The international series. The sizes 0 are those of ISO 216:2007 (A, B) and of the table in the XJDF specification,
// appendix C, which agrees with it (A, B, C, RA, SRA); RA and SRA go back to ISO 217.
var allSeries = []series{
	{"A", 1189 * units.Millimetre, 841 * units.Millimetre, 10},
	{"B", 1414 * units.Millimetre, 1000 * units.Millimetre, 10},
	{"C", 1297 * units.Millimetre, 917 * units.Millimetre, 10},
	{"RA", 1220 * units.Millimetre, 860 * units.Millimetre, 4},
	{"SRA", 1280 * units.Millimetre, 900 * units.Millimetre, 4},
}

// northAmerican are the sheet names of North America that the same appendix lists, and the half of letter.
var northAmerican = []size{
	{"letter", 11 * units.Inch, 17 * units.Inch / 2},
	{"half letter", 17 * units.Inch / 2, 11 * units.Inch / 2},
	{"legal", 14 * units.Inch, 17 * units.Inch / 2},
	{"tabloid", 17 * units.Inch, 11 * units.Inch},
	{"ledger", 17 * units.Inch, 11 * units.Inch},
}

// at gives size n of the series: n halvings of the longer side, each rounded down to a whole millimetre.
func (s series) at(n int) size {
	long, short := s.long, s.short
	for range n {
		long, short = short, long/2/units.Millimetre*units.Millimetre
	}
	return size{fmt.Sprintf("%s%d", s.prefix, n), long, short}
}

// sizes lists every size with a name.
func sizes() []size {
	var all []size
	for _, s := range allSeries {
		for n := range s.last + 1 {
			all = append(all, s.at(n))
		}
	}
	return append(all, northAmerican...)
}

// SizeNames lists the names that [ParseSize] knows.
func SizeNames() []string {
	var names []string
	for _, s := range sizes() {
		names = append(names, s.name)
	}
	return names
}

// sizeMost is longer than any sheet that is folded.
const sizeMost = 10 * units.Metre

// ParseSize reads the size of a sheet: two lengths as written, "860x610", "25 x 38 in", or a name, "SRA1", "A4",
// "letter". A name gives the long side first; "A4 portrait" gives the short side first, "A4 landscape" the long one.
// Two numbers without a unit are in the unit bare.
func ParseSize(text string, bare units.Length) (first, second units.Length, err error) {
	if s, portrait, ok := named(text); ok {
		if portrait {
			return s.short, s.long, nil
		}
		return s.long, s.short, nil
	}
	if first, second, err = units.ParsePair(text, bare); err != nil {
		return 0, 0, orName(err)
	}
	if wrong := outside(first, second); wrong != "" {
		return 0, 0, fault.Fault{Code: CodeSizeRange, Wrong: wrong, Right: "more than 0 and at most 10 m each way"}
	}
	return first, second, nil
}

// CodeSizeRange is the code of a size that is understood and makes no sense.
const CodeSizeRange fault.Code = "size-range"

// outside says which side of a sheet is beyond reason.
func outside(sides ...units.Length) string {
	for _, l := range sides {
		if l <= 0 || l > sizeMost {
			return "a sheet with a side of " + l.Format(false)
		}
	}
	return ""
}

// orName adds to the fault of a text that is no pair of lengths that a name would do as well.
func orName(err error) error {
	faults := fault.All(err)
	if len(faults) != 1 || faults[0].Code != units.CodeSize {
		return err
	}
	f := faults[0]
	f.Right += ", or a name such as SRA1, A4 or letter"
	return f
}

// named finds a size by its name, with or without a word for the way it lies.
func named(text string) (s size, portrait, ok bool) {
	words := strings.Fields(strings.ToLower(text))
	if n := len(words); n > 1 && (words[n-1] == "portrait" || words[n-1] == "landscape") {
		portrait, words = words[n-1] == "portrait", words[:n-1]
	}
	name := strings.Join(words, " ")
	for _, s := range sizes() {
		if strings.ToLower(s.name) == name {
			return s, portrait, true
		}
	}
	return size{}, false, false
}
