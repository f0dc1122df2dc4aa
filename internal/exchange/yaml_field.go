package exchange

import (
	"time"

	"go.yaml.in/yaml/v4"
)

// field is one field of a record.
type field[T any] struct {
	name, about string
	needed      bool
	usual       string // what holds without the field, for people
	ours        bool   // the program fills it in
	told        schema
	Value
	read   func(spot, *T)
	absent func(*T)
	write  func(*writing, *T) *yaml.Node // nil leaves the field out
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
		name: name, about: about, needed: true, Value: of.Value, told: of.told,
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
		name: name, about: about, told: of.schema(), Value: of.value(),
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

// neededGroup is a group that must be there.
func neededGroup[T, V any](name, about string, of record[V], place func(*T) *V) field[T] {
	f := group(name, about, of, place)
	f.needed = true
	return f
}

// maybe is a field that may be left out and has no usual value of its own.
func maybe[T, V any](name, about string, of shape[V], place func(*T) **V) field[T] {
	f := need(name, about, of, access[T, V]{
		func(t *T) V { return **place(t) },
		func(t *T, v V) { *place(t) = &v },
	})
	f.needed = false
	write := f.write
	f.write = func(w *writing, from *T) *yaml.Node {
		if *place(from) == nil {
			return nil
		}
		return write(w, from)
	}
	return f
}

// maybeMoment is a moment that may be left out.
func maybeMoment[T any](name, about string, place func(*T) *time.Time) field[T] {
	return maybeTime(name, about, moment, place)
}

func maybeTime[T any](name, about string, of shape[time.Time], place func(*T) *time.Time) field[T] {
	f := need(name, about, of, in(place))
	f.needed = false
	write := f.write
	f.write = func(w *writing, from *T) *yaml.Node {
		if place(from).IsZero() {
			return nil
		}
		return write(w, from)
	}
	return f
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
	if f.ours {
		out["readOnly"] = true
	}
	return out
}
