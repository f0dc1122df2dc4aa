package store

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"foldwright/internal/ledger"
	"foldwright/internal/units"
)

// differing lists the fields in which two bodies differ, each by its path: units[1].plates[0].stop.max. Only what is at
// the end of a path is listed; an empty body has no fields.
func (r reader) differing(before, after string) []ledger.Field {
	was, is := map[string]string{}, map[string]string{}
	r.flatten("", "", parsed(before), was)
	r.flatten("", "", parsed(after), is)
	all := map[string]bool{}
	for _, m := range []map[string]string{was, is} {
		for name := range m {
			all[name] = true
		}
	}
	var list []ledger.Field
	for _, name := range slices.Sorted(maps.Keys(all)) {
		if was[name] != is[name] {
			list = append(list, ledger.Field{Name: name, Before: was[name], After: is[name]})
		}
	}
	return list
}

func parsed(body string) any {
	d := json.NewDecoder(strings.NewReader(body))
	d.UseNumber()
	var v any
	if d.Decode(&v) != nil {
		return nil
	}
	return v
}

// flatten puts every value below v into the map under its path; key is the last name on the path, with its unit.
func (r reader) flatten(path, key string, v any, into map[string]string) {
	switch v := v.(type) {
	case map[string]any:
		for name, inner := range v {
			r.flatten(strings.TrimPrefix(path+"."+withoutUnit(name), "."), name, inner, into)
		}
	case []any:
		for i, inner := range v {
			r.flatten(fmt.Sprintf("%s[%d]", path, i), key, inner, into)
		}
	case nil:
	default:
		if text := r.shown(key, v); text != "" {
			into[path] = text
		}
	}
}

// unitsOfNames are the endings of names in bodies, longest first where one ends in another.
var unitsOfNames = []string{"_nm_min", "_of_nm", "_nm", "_mg_m2", "_cm3_g", "_utc", "_min", "_h", "_km"}

func withoutUnit(name string) string {
	for _, u := range unitsOfNames {
		if short, ok := strings.CutSuffix(name, u); ok {
			return short
		}
	}
	return name
}

// shown is a value as people read it, by the unit in its name.
func (r reader) shown(name string, v any) string {
	text, isText := v.(string)
	number, _ := v.(json.Number)
	n, notWhole := number.Int64()
	switch {
	case isText && strings.HasSuffix(name, "_utc"):
		if t, err := time.Parse(time.RFC3339Nano, text); err == nil {
			return t.In(r.zone).Format("2006-01-02 15:04:05")
		}
		return text
	case isText:
		return text
	case number == "":
		return fmt.Sprint(v)
	case notWhole != nil:
		return number.String()
	case strings.HasSuffix(name, "_nm_min"):
		return units.Speed(n).Format(r.inch)
	case strings.HasSuffix(name, "_nm"):
		return r.length(n)
	case strings.HasSuffix(name, "_mg_m2"):
		return units.Grammage(n).Format()
	}
	return strconv.FormatInt(n, 10)
}
