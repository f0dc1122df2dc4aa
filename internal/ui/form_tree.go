package ui

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"slices"
	"strings"

	"foldwright/internal/exchange"
)

// tree is what stands in a form: texts as somebody typed them, in lists and under names. Groups and tables have names, lists
// do not.
type tree struct {
	text  string
	names []string // of items; nil for a list
	items []*tree
	named bool // a group or a table
	whole bool // a list, group or table, though it may be empty
}

// at is the item of a name, or nil.
func (t *tree) at(name string) *tree {
	if t == nil {
		return nil
	}
	if i := slices.Index(t.names, name); i >= 0 {
		return t.items[i]
	}
	return nil
}

// put gives a name an item; nil takes it away.
func (t *tree) put(name string, item *tree) {
	i := slices.Index(t.names, name)
	switch {
	case i >= 0 && item == nil:
		t.names, t.items = slices.Delete(t.names, i, i+1), slices.Delete(t.items, i, i+1)
	case i >= 0:
		t.items[i] = item
	case item != nil:
		t.names, t.items = append(t.names, name), append(t.items, item)
	}
}

// blank says whether nothing was typed anywhere.
func (t *tree) blank() bool {
	if t == nil {
		return true
	}
	for i, item := range t.items {
		if !item.blank() || t.named && t.isTable(i) {
			return false
		}
	}
	return strings.TrimSpace(t.text) == ""
}

// isTable says whether the name of an item was typed rather than given: tables mark theirs.
func (t *tree) isTable(i int) bool {
	return strings.HasPrefix(t.names[i], tableMark) && len(t.names[i]) > len(tableMark)
}

// tableMark begins the names of a table's rows, which people type, so that none is taken for a field.
const tableMark = "\x00"

// readJSON makes a tree of a thing as exchange writes it, in the order in which it is written.
func readJSON(v *exchange.Value, data []byte) (*tree, error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	return readToken(v, d)
}

func readToken(v *exchange.Value, d *json.Decoder) (*tree, error) {
	token, err := d.Token()
	if err != nil {
		return nil, err
	}
	switch token := token.(type) {
	case json.Delim:
		return readWhole(v, d, token)
	case string:
		return &tree{text: token}, nil
	case json.Number:
		return &tree{text: token.String()}, nil
	case bool:
		if token {
			return &tree{text: "yes"}, nil
		}
		return &tree{text: "no"}, nil
	}
	return &tree{}, nil
}

// readWhole reads a list or an object, whose opening was read.
func readWhole(v *exchange.Value, d *json.Decoder, opened json.Delim) (*tree, error) {
	t := &tree{whole: true, named: opened == '{'}
	for d.More() {
		inside := v.Each
		if t.named {
			token, err := d.Token()
			if err != nil {
				return nil, err
			}
			name, ok := token.(string)
			if !ok {
				return nil, errors.New("a name is no text")
			}
			if v.Form == exchange.FormTable {
				name = tableMark + name
			} else {
				inside = valueOf(v, name)
			}
			t.names = append(t.names, name)
		}
		if inside == nil {
			inside = &exchange.Value{}
		}
		item, err := readToken(inside, d)
		if err != nil {
			return nil, err
		}
		t.items = append(t.items, item)
	}
	_, err := d.Token()
	if errors.Is(err, io.EOF) {
		err = io.ErrUnexpectedEOF
	}
	return t, err
}

// valueOf describes a field of a group, also of one that may stand instead of a text.
func valueOf(v *exchange.Value, name string) *exchange.Value {
	for _, fields := range [][]exchange.Field{v.Fields, orFields(v)} {
		for i := range fields {
			if fields[i].Name == name {
				return &fields[i].Value
			}
		}
	}
	return nil
}

func orFields(v *exchange.Value) []exchange.Field {
	if v.Or == nil {
		return nil
	}
	return v.Or.Fields
}

// group describes a whole thing as a value.
func group(fields []exchange.Field) *exchange.Value {
	return &exchange.Value{Form: exchange.FormGroup, Fields: fields}
}

// json writes what was typed as a thing for exchange to read: everything as text, nothing for what was left blank. A group
// that is needed is there even when it is empty, so that its fields are asked for by their names.
func (t *tree) json(v *exchange.Value) []byte {
	var b bytes.Buffer
	t.write(&b, v)
	return b.Bytes()
}

func (t *tree) write(b *bytes.Buffer, v *exchange.Value) {
	switch {
	case !t.whole:
		writeText(b, strings.TrimSpace(t.text))
	case t.named:
		b.WriteByte('{')
		first := true
		for i, name := range t.names {
			inside := v.Each
			if v.Form != exchange.FormTable {
				inside = valueOf(v, name)
			}
			if inside == nil || t.items[i].blank() && !needed(v, name) && v.Form != exchange.FormTable {
				continue
			}
			if t.items[i].blank() && !t.items[i].whole && v.Form != exchange.FormTable {
				continue
			}
			if !first {
				b.WriteByte(',')
			}
			first = false
			writeText(b, strings.TrimSpace(strings.TrimPrefix(name, tableMark)))
			b.WriteByte(':')
			t.items[i].write(b, inside)
		}
		b.WriteByte('}')
	default:
		b.WriteByte('[')
		for i, item := range t.items {
			if i > 0 {
				b.WriteByte(',')
			}
			item.write(b, v.Each)
		}
		b.WriteByte(']')
	}
}

// needed says whether a field of a group must be there.
func needed(v *exchange.Value, name string) bool {
	for _, fields := range [][]exchange.Field{v.Fields, orFields(v)} {
		for i := range fields {
			if fields[i].Name == name {
				return fields[i].Needed
			}
		}
	}
	return false
}

func writeText(b *bytes.Buffer, text string) {
	data, err := json.Marshal(text)
	if err != nil {
		panic(err) // a text
	}
	b.Write(data)
}

// prune takes rows away in which nothing was typed, so that the places of the others are those that faults name.
func (t *tree) prune() {
	if t == nil {
		return
	}
	for i := len(t.items) - 1; i >= 0; i-- {
		t.items[i].prune()
		row := !t.named || strings.HasPrefix(t.names[i], tableMark)
		if row && t.items[i].blank() && (!t.named || !t.isTable(i)) {
			t.drop(i)
		}
	}
}

// drop takes an item away.
func (t *tree) drop(i int) {
	t.items = slices.Delete(t.items, i, i+1)
	if t.named {
		t.names = slices.Delete(t.names, i, i+1)
	}
}

// lift moves an item one up.
func (t *tree) lift(i int) {
	t.items[i-1], t.items[i] = t.items[i], t.items[i-1]
	if t.named {
		t.names[i-1], t.names[i] = t.names[i], t.names[i-1]
	}
}
