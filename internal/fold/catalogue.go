package fold

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"foldwright/internal/fault"
)

// entry is a name of the fold catalogue that CIP4 publishes with JDF and XJDF: its x is our s, its y our t, its front our
// top. The positions, the number of pages and the page tables are from there; the directions were found as the only
// ones that give those page tables (testdata/SOURCE.md).
type entry struct {
	name  string
	steps string
	first Face // the face of the finished stack with page 1
}

const (
	// unknown marks entries for which nobody could tell up from down: their steps say "fold".
	unknown Face = 255 - iota
	// doubtful marks the one entry that cannot be folded as it is printed.
	doubtful
)

var catalogueName = regexp.MustCompile(`^f\d{1,3}-\d{1,3}$`)

// Catalogue gives the scheme of a catalogue name such as F16-7.
func Catalogue(name string) (Scheme, error) {
	i := slices.IndexFunc(catalogue, func(e entry) bool { return strings.EqualFold(e.name, name) })
	if i < 0 {
		return Scheme{}, fault.Fault{
			Kind: fault.Missing, Code: codeName, Field: "scheme",
			Wrong: fmt.Sprintf("there is no %q in the fold catalogue", name), Right: alternatives(name),
		}
	}
	e := catalogue[i]
	switch e.first {
	case doubtful:
		return Scheme{}, bad(codeDirection, "scheme", e.name+" cannot be folded as the catalogue prints it: "+e.steps+
			"; its fourth fold is longer than the piece is then", "the steps written out as you fold them")
	case unknown:
		return Scheme{}, bad(codeDirection, "scheme",
			e.name+" is in the catalogue without a page table, so which of its folds go up and which down is not known: "+e.steps,
			"the steps written out with up or down in place of each \"fold\"")
	}
	s, err := Parse(e.steps)
	if err != nil {
		panic("fold: the catalogue does not parse: " + e.name) // a test reads every entry
	}
	s.Name, s.First = e.name, e.first
	return s, nil
}

// alternatives names what the catalogue has with the same number of pages, else the numbers of pages it has.
func alternatives(name string) string {
	pages, _, _ := strings.Cut(name, "-")
	var same, counts []string
	for _, e := range catalogue {
		have, _, _ := strings.Cut(e.name, "-")
		if strings.EqualFold(have, pages) {
			same = append(same, e.name)
		}
		if !slices.Contains(counts, have) {
			counts = append(counts, have)
		}
	}
	if same != nil {
		return "one of " + strings.Join(same, ", ")
	}
	return "F, the number of pages and a running number; pages: " + strings.ReplaceAll(strings.Join(counts, ", "), "F", "")
}

// CatalogueNames lists the names, those without known directions left out.
func CatalogueNames() []string {
	var names []string
	for _, e := range catalogue {
		if e.first < doubtful {
			names = append(names, e.name)
		}
	}
	return names
}

// catalogue is in the order of its publication: by pages, then by running number.
var catalogue = []entry{
	{"F2-1", "", FaceUp},
	{"F4-1", "up 1/2", FaceUp},
	{"F4-2", "down 1/2", FaceUp},
	{"F6-1", "up 1/3, down 1/3", FaceUp},
	{"F6-2", "down 1/3, up 1/3", FaceUp},
	{"F6-3", "fold 1/4, fold 1/2", unknown},
	{"F6-4", "up 1/3, up 1/3", FaceUp},
	{"F6-5", "up 2/3, down 1/3", FaceUp},
	{"F6-6", "fold 3/4, fold 1/4", unknown},
	{"F6-7", "fold 1/4, fold 1/4", unknown},
	{"F6-8", "up 2/3, up 1/3", FaceUp},
	{"F8-1", "up 1/2, up 1/4", FaceUp},
	{"F8-2", "up 1/2, down 1/4", FaceUp},
	{"F8-3", "up 1/4, down 1/4, up 1/4", FaceUp},
	{"F8-4", "up 1/4, up 1/2, down 1/4", FaceUp},
	{"F8-5", "up 1/4, up 1/4, up 1/4", FaceUp},
	{"F8-6", "up 3/4, down 1/4, down 1/4", FaceUp},
	{"F8-7", "up 1/2, left, up 1/2", FaceUp},
	{"F10-1", "up 1/5, down 1/5, up 1/5, down 1/5", FaceUp},
	{"F10-2", "up 4/5, down 1/5, down 1/5, down 1/5", FaceUp},
	{"F10-3", "up 2/5, down 2/5, up 1/5", FaceUp},
	{"F12-1", "up 1/3, down 1/3, up 1/6", FaceUp},
	{"F12-2", "up 1/3, up 1/3, down 1/6", FaceUp},
	{"F12-3", "up 1/2, down 1/6, up 1/6", FaceUp},
	{"F12-4", "up 1/2, down 1/6, down 1/6", FaceUp},
	{"F12-5", "up 1/2, down 1/3, up 1/6", FaceUp},
	{"F12-6", "up 1/6, down 1/6, up 1/6, down 1/6, up 1/6", FaceUp},
	{"F12-7", "up 1/3, down 1/3, left, up 1/2", FaceUp},
	{"F12-8", "up 2/3, up 1/3, left, up 1/2", FaceUp},
	{"F12-9", "up 1/3, up 1/3, left, up 1/2", FaceUp},
	{"F12-10", "up 2/3, down 1/3, left, up 1/2", FaceUp},
	{"F12-11", "up 1/3, left, up 1/2, right, up 1/3", FaceDown},
	{"F12-12", "up 1/2, left, up 2/3, down 1/3", FaceUp},
	{"F12-13", "up 1/2, left, up 1/3, up 1/3", FaceUp},
	{"F12-14", "up 1/2, left, up 1/3, down 1/3", FaceUp},
	{"F14-1", "up 1/7, down 1/7, up 1/7, down 1/7, up 1/7, down 1/7", FaceUp},
	{"F16-1", "up 1/2, down 1/4, up 1/8", FaceUp},
	{"F16-2", "up 1/2, down 1/4, down 1/8", FaceUp},
	{"F16-3", "up 1/2, up 1/4, down 1/8", FaceUp},
	{"F16-4", "up 1/2, up 1/4, up 1/8", FaceUp},
	{"F16-5", "down 1/8, up 1/8, down 1/8, up 1/8, down 1/8, up 1/8, down 1/8", FaceUp},
	{"F16-6", "up 1/2, left, up 1/2, right, up 1/4", FaceDown},
	{"F16-7", "up 1/2, left, up 1/2, right, down 1/4", FaceDown},
	{"F16-8", "up 1/2, left, down 1/2, right, down 1/4", FaceDown},
	{"F16-9", "up 1/2, down 1/4, left, up 1/2", FaceUp},
	{"F16-10", "up 1/2, up 1/4, left, up 1/2", FaceUp},
	{"F16-11", "up 1/4, down 1/4, up 1/4, left, up 1/2", FaceUp},
	{"F16-12", "up 1/4, up 1/4, up 1/4, left, up 1/2", FaceUp},
	{"F16-13", "up 1/2, left, up 1/2, down 1/4", FaceUp},
	{"F16-14", "fold 1/2, left, fold 1/2, fold 1/4", unknown},
	{"F18-1", "up 1/9, down 1/9, up 1/9, down 1/9, up 1/9, down 1/9, up 1/9, down 1/9", FaceUp},
	{"F18-2", "up 2/3, down 1/3, up 1/9, down 1/9", FaceUp},
	{"F18-3", "up 1/3, down 1/3, up 2/9, down 1/9", FaceUp},
	{"F18-4", "up 1/3, down 1/3, up 1/9, down 1/9", FaceUp},
	{"F18-5", "up 1/3, down 1/3, left, up 1/3, down 1/3", FaceUp},
	{"F18-6", "up 1/3, down 1/3, left, up 2/3, down 1/3", FaceUp},
	{"F18-7", "up 1/3, up 1/3, left, up 1/3, down 1/3", FaceUp},
	{"F18-8", "up 1/3, up 1/3, left, up 2/3, down 1/3", FaceUp},
	{"F18-9", "up 2/3, up 1/3, left, up 2/3, up 1/3", FaceUp},
	{"F20-1", "up 2/5, down 2/5, up 1/5, left, up 1/2", FaceUp},
	{"F20-2", "up 1/5, down 1/5, up 1/5, down 1/5, left, up 1/2", FaceUp},
	{"F24-1", "up 1/3, down 1/3, left, up 1/2, right, up 1/6", FaceDown},
	{"F24-2", "up 1/3, up 1/3, left, up 1/2, right, up 1/6", FaceDown},
	{"F24-3", "up 1/3, down 1/3, up 1/6, left, up 1/2", FaceUp},
	{"F24-4", "up 1/3, down 1/3, down 1/6, left, up 1/2", FaceUp},
	{"F24-5", "up 1/3, up 1/3, down 1/6, left, up 1/2", FaceUp},
	{"F24-6", "up 1/6, down 1/6, up 1/6, down 1/6, up 1/6, left, up 1/2", FaceUp},
	{"F24-7", "up 1/3, left, up 1/2, right, up 1/3, down 1/6", FaceDown},
	{"F24-8", "up 1/3, down 1/3, left, up 1/2, down 1/4", FaceUp},
	{"F24-9", "up 2/3, up 1/3, left, up 1/2, down 1/4", FaceUp},
	{"F24-10", "up 1/3, up 1/3, left, up 1/2, down 1/4", FaceUp},
	{"F24-11", "up 1/2, left, up 2/3, down 1/3, right, up 1/4", FaceDown},
	{"F28-1", "up 1/7, down 1/7, up 1/7, down 1/7, up 1/7, down 1/7, left, up 1/2", FaceUp},
	{"F32-1", "up 1/2, down 1/4, up 1/8, down 1/16", FaceUp},
	{"F32-2", "up 1/2, down 1/4, left, up 1/2, right, up 1/8", FaceDown},
	{"F32-3", "up 1/2, down 1/4, left, up 1/2, right, down 1/8", FaceDown},
	{"F32-4", "up 1/2, left, up 1/2, right, up 1/4, left, up 1/4", FaceUp},
	{"F32-5", "up 1/2, left, up 1/2, right, down 1/4, left, down 1/4", FaceUp},
	{"F32-6", "up 1/2, left, up 1/2, right, up 1/4, left, down 1/4", FaceUp},
	{"F32-7", "up 1/4, down 1/4, up 1/4, left, up 1/2, down 1/4", FaceUp},
	{"F32-8", "up 1/2, down 1/4, left, up 1/2, down 1/4", FaceUp},
	{"F32-9", "up 1/2, left, up 1/2, down 1/4, right, up 1/4", FaceDown},
	{"F36-1", "fold 1/3, fold 1/3, fold 1/9, fold 1/3, left, fold 1/2", doubtful},
	{"F36-2", "fold 1/3, fold 1/3, left, fold 1/3, fold 1/3, right, fold 1/6", unknown},
	{"F40-1", "fold 1/5, fold 1/5, fold 1/5, fold 1/5, left, fold 1/2, fold 1/4", unknown},
	{"F48-1", "fold 1/3, fold 1/3, left, fold 1/4, fold 1/4, fold 1/4, right, fold 1/6", unknown},
	{"F48-2", "fold 1/4, fold 1/4, fold 1/4, left, fold 1/3, fold 1/3, fold 1/6", unknown},
	{"F64-1", "fold 1/2, left, fold 1/4, fold 1/4, fold 1/4, right, fold 1/4, fold 1/8", unknown},
	{"F64-2", "fold 1/4, fold 1/4, fold 1/4, left, fold 1/4, fold 1/4, fold 1/4, right, fold 1/8", unknown},
}
