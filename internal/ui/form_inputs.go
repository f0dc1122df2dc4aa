package ui

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/words"
)

// input is one place of a form as the template lays it out: a field, a group of fields, a list or a table.
type input struct {
	Path, ID string
	Label    words.Text
	Help     string // a key of the catalogue
	Unit     string // behind the label
	Form     exchange.Form
	Value    string
	Usual    string
	Words    []string // to choose from
	List     string   // id of the names that are suggested
	Needed   bool
	Faults   fault.List

	Group  bool     // Inside are fields
	Rows   bool     // Inside are rows
	Inside []*input // rows of a table have their name in Key
	Key    string
	Or     string // "fields" or "name": what may stand here instead
	Row    bool   // in a list: it can be moved and dropped
	IsPair bool   // in a table
	First  bool
}

// Inputs lays the form out.
func (f *form) Inputs() []*input {
	f.inputs = map[string]*input{}
	var all []*input
	for i := range f.thing.Fields {
		all = append(all, f.field(&f.thing.Fields[i], f.typed.at(f.thing.Fields[i].Name), ""))
	}
	for _, x := range f.Faults {
		if in := f.place(x.Field); in != nil {
			in.Faults = append(in.Faults, x)
		}
	}
	return all
}

// place is the input that a fault speaks of: its own, or the nearest around it.
func (f *form) place(path string) *input {
	for path != "" {
		if in := f.inputs[path]; in != nil {
			return in
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
	return nil
}

// Anchor is the id of the input that a fault speaks of; empty when it speaks of none.
func (f *form) Anchor(x fault.Fault) string {
	if f.inputs == nil {
		f.Inputs()
	}
	if in := f.place(x.Field); in != nil {
		return in.ID
	}
	return ""
}

// About names the input that a fault speaks of.
func (f *form) About(x fault.Fault) words.Text {
	if in := f.place(x.Field); in != nil && x.Field != "" {
		return in.Label
	}
	return words.Plain(x.Field)
}

func (f *form) field(of *exchange.Field, t *tree, path string) *input {
	at := join(path, of.Name)
	in := f.input(&of.Value, t, at)
	in.Label, in.Help, in.Needed = labelOf(f.Kind, at), of.About, of.Needed
	in.Usual = inchMarked(of.Form, of.Usual, f.say.Inch)
	return in
}

// input lays out the value at a path.
func (f *form) input(v *exchange.Value, t *tree, path string) *input {
	in := &input{Path: path, ID: idOf(path), Form: v.Form, Words: v.Words, Unit: f.unit(v.Form, path), Label: labelOf(f.Kind, path)}
	f.inputs[path] = in
	if t == nil {
		t = empty(v)
	}
	switch {
	case v.Form == exchange.FormGroup:
		f.inside(in, v.Fields, t)
	case v.Or != nil && v.Or.Form == exchange.FormGroup && t.whole:
		in.Or = "name"
		f.inside(in, v.Or.Fields, t)
	case v.Form == exchange.FormList:
		in.Rows = true
		for i, item := range t.items {
			row := f.input(v.Each, item, fmt.Sprintf("%s[%d]", path, i))
			row.Row, row.First = true, i == 0
			in.Inside = append(in.Inside, row)
		}
	case v.Form == exchange.FormTable:
		in.Rows = true
		f.tableRows(in, v, t)
	default:
		in.Value = t.text
		f.suggest(in, v)
	}
	return in
}

func (f *form) inside(in *input, fields []exchange.Field, t *tree) {
	in.Group = true
	for i := range fields {
		in.Inside = append(in.Inside, f.field(&fields[i], t.at(fields[i].Name), in.Path))
	}
}

// tableRows lays the rows of a table out. A fault names a row by what stands before the colon.
func (f *form) tableRows(in *input, v *exchange.Value, t *tree) {
	for i, item := range t.items {
		key := strings.TrimPrefix(t.names[i], tableMark)
		at := fmt.Sprintf("%s{%d}", in.Path, i)
		row := &input{
			Path: at, ID: idOf(at), Form: v.Each.Form, Value: item.text, Key: key, Row: true, IsPair: true, First: i == 0,
			Label: in.Label, Unit: f.unit(v.Each.Form, at),
		}
		in.Inside = append(in.Inside, row)
		f.inputs[at], f.inputs[in.Path+"."+key] = row, row
	}
}

// suggest offers the names that may stand there: to choose from when they are few, else as one types.
func (f *form) suggest(in *input, v *exchange.Value) {
	if v.Or != nil && v.Or.Form == exchange.FormGroup {
		in.Or = "fields"
	}
	if v.Names == "" {
		return
	}
	in.List = "names-" + string(v.Names)
	switch v.Names {
	case ledger.OfClass, ledger.OfFolder, ledger.OfCalendar:
		names := f.names(v.Names)
		if in.Value != "" && !slices.Contains(names, in.Value) {
			names = append(names, in.Value) // what was typed is never lost
		}
		in.Form, in.Words = exchange.FormChoice, names
	}
}

// names are those of the things of a kind.
func (f *form) names(k ledger.Kind) (names []string) {
	for _, v := range ledger.Values(f.shop, k) {
		if name, err := ledger.NameOf(k, v); err == nil {
			names = append(names, name)
		}
	}
	return names
}

// nameList is what an input suggests.
type nameList struct {
	ID    string
	Names []string
}

// Suggestions are the names that inputs of the form suggest as one types.
func (f *form) Suggestions() []nameList {
	return []nameList{{"names-job", f.names(ledger.OfJob)}, {"names-stock", f.names(ledger.OfStock)}}
}

// unit is what a bare number means there.
func (f *form) unit(form exchange.Form, path string) string {
	switch form {
	case exchange.FormRange:
		if strings.HasSuffix(path, "grammage") {
			return "g/m²"
		}
		return f.say.Unit()
	case exchange.FormLength, exchange.FormThickness:
		return f.say.Unit()
	case exchange.FormGrammage:
		return "g/m²"
	case exchange.FormSpeed:
		return "m/min"
	case exchange.FormMinutes:
		return "min"
	}
	return ""
}

var notInIDs = regexp.MustCompile(`[^A-Za-z0-9]+`)

// idOf makes an id of a path.
func idOf(path string) string { return "f-" + strings.Trim(notInIDs.ReplaceAllString(path, "-"), "-") }

// Mark says that the input has something wrong.
func (in *input) Mark() bool { return len(in.Faults) > 0 }

// Described names the elements that describe the input to those who do not see it.
func (in *input) Described() string {
	var ids []string
	if in.Mark() {
		ids = append(ids, in.ID+"-fault")
	}
	if in.Help != "" {
		ids = append(ids, in.ID+"-help")
	}
	return strings.Join(ids, " ")
}
