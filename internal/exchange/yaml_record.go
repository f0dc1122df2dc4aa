package exchange

import (
	"strings"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/shop"
)

// field is one field of a record.
type field[T any] struct {
	name, about string
	needed      bool
	usual       string // what holds without the field, for people
	says        string
	told        schema
	read        func(spot, *T)
	absent      func(*T)
	write       func(*writing, *T) *yaml.Node // nil leaves the field out
}

// access gets and sets a value inside a record.
type access[T, V any] struct {
	get func(*T) V
	set func(*T, V)
}

// in is the access to a plain field.
func in[T, V any](place func(*T) *V) access[T, V] {
	return access[T, V]{func(t *T) V { return *place(t) }, func(t *T, v V) { *place(t) = v }}
}

// need is a field that must be there; about completes "give ".
func need[T, V any](name, about string, of shape[V], to access[T, V]) field[T] {
	return field[T]{
		name: name, about: about, needed: true, says: of.says, told: of.told,
		read: func(s spot, into *T) {
			if v, ok := of.read(s); ok {
				to.set(into, v)
			}
		},
		absent: func(*T) {},
		write:  func(w *writing, from *T) *yaml.Node { return of.write(w, to.get(from)) },
	}
}

// may is a field that is left out when it has its usual value.
func may[T any, V comparable](name, about string, of shape[V], usual V, to access[T, V]) field[T] {
	f := always(name, about, of, usual, to)
	write := f.write
	f.write = func(w *writing, from *T) *yaml.Node {
		if to.get(from) == usual {
			return nil
		}
		return write(w, from)
	}
	var none V
	if usual == none {
		f.usual = ""
	}
	return f
}

// always is a field that may be left out, in favour of its usual value, and is written all the same: what a shop has once
// settled does not change when the usual value does.
func always[T any, V comparable](name, about string, of shape[V], usual V, to access[T, V]) field[T] {
	f := need(name, about, of, to)
	f.needed = false
	f.usual = of.write(&writing{}, usual).Value
	f.absent = func(into *T) { to.set(into, usual) }
	return f
}

// many is a list that is left out when it is empty. What can be read of it is kept even when some of it cannot, so that
// the rest is checked too.
func many[T, V any](name, about string, of shape[[]V], place func(*T) *[]V) field[T] {
	f := need(name, about, of, in(place))
	f.needed = false
	f.read = func(s spot, into *T) { *place(into), _ = of.read(s) }
	f.write = func(w *writing, from *T) *yaml.Node {
		if len(*place(from)) == 0 {
			return nil
		}
		return of.write(w, *place(from))
	}
	return f
}

// group is a record inside a record. Without it all its fields have their usual values.
func group[T, V any](name, about string, of record[V], place func(*T) *V) field[T] {
	return field[T]{
		name: name, about: about, told: of.schema(), says: "a group of fields",
		read:   func(s spot, into *T) { of.readInto(s, place(into)) },
		absent: func(into *T) { of.usual(place(into)) },
		write: func(w *writing, from *T) *yaml.Node {
			if n := of.write(w, place(from)); len(n.Content) > 0 {
				return n
			}
			return nil
		},
	}
}

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
		says:  "a group of fields",
		told:  r.schema(),
		read:  func(s spot) (v T, ok bool) { return v, r.readInto(s, &v) },
		write: func(w *writing, v T) *yaml.Node { return r.write(w, &v) },
	}
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
			r.unknown(s, p)
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
func (r record[T]) unknown(s spot, p pair) {
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

func (f field[T]) schema() schema {
	out := schema{}
	for k, v := range f.told {
		out[k] = v
	}
	out["description"] = f.about
	if f.usual != "" {
		out["description"] = f.about + "; without it: " + f.usual
	}
	return out
}
