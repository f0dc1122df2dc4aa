package exchange

import (
	"regexp"
	"strings"

	"foldwright/internal/fault"
)

// trouble tells which fields of a file had faults, so that what only follows from them is not told as well.
type trouble struct {
	at    map[string]bool // fields with a fault
	above map[string]bool // fields that hold one
	lists map[string]bool // lists of which a name may not have been read
}

// unread is where a fault may have swallowed a name that others refer to.
var unread = regexp.MustCompile(`^(calendars|classes|folders|jobs|done)(\[\d+\](\.name)?)?$|^folders\[\d+\]\.(units|stations)(\[\d+\]|\.stations|\.name)*$`)

func troubleOf(faults fault.List) trouble {
	t := trouble{map[string]bool{}, map[string]bool{}, map[string]bool{}}
	for _, f := range faults {
		t.at[f.Field] = true
		for path := f.Field; path != ""; path = parent(path) {
			t.above[path] = true
		}
		if f.Code != CodeUnknownField && unread.MatchString(f.Field) {
			list, _, _ := strings.Cut(f.Field, "[")
			t.lists[list] = true
		}
	}
	return t
}

// faulty tells whether a field had a fault, or one above or below it.
func (t trouble) faulty(field string) bool {
	if t.above[field] {
		return true
	}
	for path := field; path != ""; path = parent(path) {
		if t.at[path] {
			return true
		}
	}
	return false
}

// hides tells whether a name that this field refers to may stand in what was not read.
func (t trouble) hides(field string) bool {
	for strings.HasSuffix(field, "]") {
		field = parent(field) // after[2] names a job as after does
	}
	switch field[strings.LastIndexByte(field, '.')+1:] {
	case "calendar":
		return t.lists["calendars"]
	case "class":
		return t.lists["classes"]
	case "folder", "station", "given":
		return t.lists["folders"]
	default:
		return t.lists["jobs"] || t.lists["done"]
	}
}

// parent is the field that holds a field; empty at the top.
func parent(path string) string { return path[:max(0, strings.LastIndexAny(path, ".["))] }
