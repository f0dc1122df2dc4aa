package ui

import (
	"fmt"
	"net/url"
	"slices"
	"sort"
	"strconv"
	"strings"

	"foldwright/internal/exchange"
)

// rowsMost is the most rows of a list that a form takes; no shaft has more tools.
const rowsMost = 400

// typed reads a sent form. Its inputs are named by the paths that faults name: units[0].plates[1]. The rows of a table are
// week{0}, what is before the colon, and week{0}=, what is after it.
type typed struct {
	values url.Values
	names  []string // sorted
}

func newTyped(values url.Values) *typed {
	t := &typed{values: values}
	for name := range values {
		t.names = append(t.names, name)
	}
	slices.Sort(t.names)
	return t
}

// any says whether an input's name begins so.
func (t *typed) any(prefix string) bool {
	i := sort.SearchStrings(t.names, prefix)
	return i < len(t.names) && strings.HasPrefix(t.names[i], prefix)
}

// read makes a tree of what was typed at a path.
func (t *typed) read(v *exchange.Value, path string) *tree {
	switch {
	case v.Form == exchange.FormGroup:
		return t.group(v.Fields, path)
	case v.Form == exchange.FormList:
		return t.rows(v, path)
	case v.Form == exchange.FormTable:
		return t.table(path)
	case v.Or != nil && v.Or.Form == exchange.FormGroup && t.any(path+"."):
		return t.group(v.Or.Fields, path)
	}
	return &tree{text: t.values.Get(path)}
}

func (t *typed) group(fields []exchange.Field, path string) *tree {
	out := &tree{whole: true, named: true}
	for i := range fields {
		f := &fields[i]
		item := t.read(&f.Value, join(path, f.Name))
		if f.Form == exchange.FormYes && item.text == "" && f.Usual == "yes" {
			item.text = "no" // a box that is not ticked sends nothing
		}
		out.names, out.items = append(out.names, f.Name), append(out.items, item)
	}
	return out
}

func (t *typed) rows(v *exchange.Value, path string) *tree {
	out := &tree{whole: true}
	for i := range rowsMost {
		at := path + "[" + strconv.Itoa(i) + "]"
		if !t.any(at) {
			break
		}
		out.items = append(out.items, t.read(v.Each, at))
	}
	return out
}

func (t *typed) table(path string) *tree {
	out := &tree{whole: true, named: true}
	for i := range rowsMost {
		at := fmt.Sprintf("%s{%d}", path, i)
		if !t.any(at) {
			break
		}
		out.names = append(out.names, tableMark+strings.TrimSpace(t.values.Get(at)))
		out.items = append(out.items, &tree{text: t.values.Get(at + "=")})
	}
	return out
}

// join puts a name behind a path.
func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// The things to do with a form beside saving it, as its buttons send them: add:units, drop:units[1], up:units[1],
// fields:stock, name:stock. Each gives back the form with that done.
func (t *tree) do(v *exchange.Value, what string) bool {
	deed, path, ok := strings.Cut(what, ":")
	if !ok {
		return false
	}
	switch deed {
	case "add":
		at, of := t.find(v, path)
		if at == nil || !at.whole || of.Each == nil || len(at.items) >= rowsMost {
			return false
		}
		at.items = append(at.items, empty(of.Each))
		if of.Form == exchange.FormTable {
			at.names = append(at.names, tableMark)
		}
		return true
	case "drop", "up":
		list, i, ok := row(path)
		at, _ := t.find(v, list)
		if !ok || at == nil || i >= len(at.items) || deed == "up" && i == 0 {
			return false
		}
		if deed == "up" {
			at.lift(i)
		} else {
			at.drop(i)
		}
		return true
	case "fields", "name":
		return t.turn(v, path, deed == "fields")
	}
	return false
}

// turn lets fields stand where a name stood, or a name where fields stood.
func (t *tree) turn(v *exchange.Value, path string, fields bool) bool {
	at, of := t.find(v, path)
	if at == nil || of.Or == nil || of.Or.Form != exchange.FormGroup {
		return false
	}
	name := at.text
	if at.whole {
		if n := at.at("name"); n != nil {
			name = n.text
		}
	}
	*at = tree{text: name}
	if fields {
		*at = *empty(of.Or)
		at.put("name", &tree{text: name})
	}
	return true
}

// empty is a place with nothing typed in it yet.
func empty(v *exchange.Value) *tree {
	switch v.Form {
	case exchange.FormGroup:
		return newTyped(url.Values{}).group(v.Fields, "")
	case exchange.FormList:
		return &tree{whole: true}
	case exchange.FormTable:
		return &tree{whole: true, named: true}
	}
	return &tree{}
}

// row takes the path of a row apart: units[1] is row 1 of units, week{0} row 0 of week.
func row(path string) (list string, i int, ok bool) {
	open := strings.LastIndexAny(path, "[{")
	if open < 0 || !strings.HasSuffix(path, "]") && !strings.HasSuffix(path, "}") {
		return "", 0, false
	}
	i, err := strconv.Atoi(path[open+1 : len(path)-1])
	return path[:open], i, err == nil && i >= 0
}

// find goes along a path, such as units[0].plates.
func (t *tree) find(v *exchange.Value, path string) (*tree, *exchange.Value) {
	for _, step := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == ']' }) {
		name, index, indexed := strings.Cut(step, "[")
		if name != "" {
			if t, v = t.at(name), valueOf(v, name); t == nil || v == nil {
				return nil, nil
			}
		}
		if indexed {
			i, err := strconv.Atoi(index)
			if err != nil || i < 0 || i >= len(t.items) || t.named || v.Each == nil {
				return nil, nil
			}
			t, v = t.items[i], v.Each
		}
	}
	return t, v
}
