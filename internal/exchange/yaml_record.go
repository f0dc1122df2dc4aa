package exchange

import (
	"strings"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/shop"
)

// record is a group of named fields.
type record[T any] struct {
	what    string // such as "a folder"
	oneLine bool
	fields  []field[T]
	after   func(spot, *T) // puts together what several fields say; may be nil
}

// shape makes a record the shape of its values.
func (r record[T]) shape() shape[T] {
	return shape[T]{
		Value: r.value(),
		told:  r.schema(),
		read:  func(s spot) (v T, ok bool) { return v, r.readInto(s, &v) },
		write: func(w *writing, v T) *yaml.Node { return r.write(w, &v) },
	}
}

func (r record[T]) value() Value {
	return Value{Form: FormGroup, Says: "a group of fields", Fields: r.describe()}
}

// readInto reads the fields in the order in which they are declared, so that later ones can lean on earlier ones.
func (r record[T]) readInto(s spot, into *T) bool {
	before := len(s.faults)
	found, ok := s.pairs("the fields of " + r.what + ", such as " + r.fields[0].name + ": …")
	if !ok {
		return false
	}
	given := map[string]spot{}
	for _, p := range found {
		if !r.has(p.name) {
			r.unknown(p)
			continue
		}
		given[p.name] = p.spot
	}
	for _, f := range r.fields {
		switch at, ok := given[f.name]; {
		case ok:
			f.read(at, into)
		case f.needed:
			s.missing(f.name, f.about)
		default:
			f.absent(into)
		}
	}
	if r.after != nil {
		r.after(s, into)
	}
	return len(s.faults) == before
}

// usual gives every field the value it has when it is left out.
func (r record[T]) usual(into *T) {
	for _, f := range r.fields {
		f.absent(into)
	}
}

func (r record[T]) has(name string) bool {
	for _, f := range r.fields {
		if f.name == name {
			return true
		}
	}
	return false
}

// unknown says that a field is not known, and which one may have been meant.
func (r record[T]) unknown(p pair) {
	var names []string
	for _, f := range r.fields {
		names = append(names, f.name)
	}
	right := "the fields of " + r.what + " are " + strings.Join(names, ", ")
	if near, ok := shop.Nearest(p.name, names); ok {
		right = "did you mean " + near + "?"
	}
	k := p.spot
	k.node = p.key
	k.refuse(CodeUnknownField, quoted(p.name)+" is no field of "+r.what, right)
}

// write writes the fields in the order in which they are declared.
func (r record[T]) write(w *writing, from *T) *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode}
	if r.oneLine {
		n.Style = yaml.FlowStyle
	}
	for _, f := range r.fields {
		if v := f.write(w, from); v != nil {
			n.Content = append(n.Content, scalar(f.name), v)
		}
	}
	return n
}

// schema describes the record.
func (r record[T]) schema() schema {
	properties, required := schema{}, []string{}
	for _, f := range r.fields {
		properties[f.name] = f.schema()
		if f.needed {
			required = append(required, f.name)
		}
	}
	return schema{"type": "object", "properties": properties, "required": required, "additionalProperties": false}
}
