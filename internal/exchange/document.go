package exchange

import (
	"encoding/json"

	"foldwright/internal/shop"
)

// Document is how values of a type stand in JSON by themselves: read with every fault told, written, and described, all from
// one list of fields.
type Document[T any] struct {
	what  string // such as "a record"
	shape shape[T]
}

// Read reads a value from JSON or YAML. The error is every fault as a fault.List, with the paths of its fields. The shop
// tells by which clock times are that name no offset; without one it is UTC.
func (d Document[T]) Read(data []byte, s *shop.Shop) (T, error) {
	var value T
	found := readOne(data, s, "the fields of "+d.what, func(at spot) { value, _ = d.shape.read(at) })
	if len(found) > 0 {
		var none T
		return none, found
	}
	return value, nil
}

// Write writes a value so that it reads back the same, with times at the shop's clock.
func (d Document[T]) Write(value T, s *shop.Shop) json.RawMessage {
	return jsonOf(d.shape.write(writingIn(s), value))
}

// Schema is the JSON Schema (draft 2020-12) of the document. It is shared: nobody changes it.
func (d Document[T]) Schema() map[string]any { return d.shape.told }

// Fields describes the fields in their order. The list is shared: nobody changes it.
func (d Document[T]) Fields() []Field { return d.shape.Fields }

// documentOf makes a document of a record.
func documentOf[T any](r record[T]) Document[T] { return Document[T]{r.what, r.shape()} }
