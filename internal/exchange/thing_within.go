package exchange

import (
	"slices"
	"strconv"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

// At is where a thing stands in the list of its kind, for [FieldsWithin]. A name that is not there is that of a new thing,
// which stands at the end.
func At(s *shop.Shop, k ledger.Kind, name string) int {
	values := ledger.Values(s, k)
	i := slices.IndexFunc(values, func(v any) bool {
		called, err := ledger.NameOf(k, v)
		return err == nil && called == name
	})
	if i < 0 {
		return len(values)
	}
	return i
}

// FieldsWithin turns the faults of a whole shop to one thing of it: a fault of jobs[3].due is one of due, when the thing
// at hand is the job at 3 of its list. Faults of other things stay as they are.
func FieldsWithin(k ledger.Kind, at int, found fault.List) fault.List {
	within := slices.Clone(found)
	prefix := things[k].section
	if !k.Alone() {
		prefix += "[" + strconv.Itoa(at) + "]"
	}
	for i, f := range within {
		switch {
		case prefix == "": // the fields of the head stand bare in the file too
		case f.Field == prefix:
			within[i].Field = ""
		case strings.HasPrefix(f.Field, prefix+"."):
			within[i].Field = f.Field[len(prefix)+1:]
		case strings.HasPrefix(f.Field, prefix+"["):
			within[i].Field = f.Field[len(prefix):]
		}
	}
	return within
}
