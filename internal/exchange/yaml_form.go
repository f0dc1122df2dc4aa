package exchange

import (
	"regexp"
	"strconv"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/ledger"
)

// Form is what sort of value stands somewhere, for those who lay out pages.
type Form string

const (
	FormText      Form = "text"
	FormCount     Form = "count"     // a whole number
	FormNumber    Form = "number"    // any other bare number
	FormLength    Form = "length"    // these five: a bare number, or a text with a unit
	FormThickness Form = "thickness" // of a sheet or of an edge
	FormGrammage  Form = "grammage"
	FormSpeed     Form = "speed"
	FormMinutes   Form = "minutes"
	FormRange     Form = "range"  // the least and the most of one of these, in one text: 80 to 520
	FormMoment    Form = "moment" // a date with a time
	FormYes       Form = "yes-no"
	FormChoice    Form = "choice" // one of a few words
	FormList      Form = "list"
	FormGroup     Form = "group" // named fields
	FormTable     Form = "table" // values by a day, a date, a unit: the name of each is free within reason
)

// Value describes what may stand in a place.
type Value struct {
	Form   Form        `json:"form"`
	Says   string      `json:"says"`             // what to write there: completes "write "
	Words  []string    `json:"words,omitempty"`  // of a choice
	Names  ledger.Kind `json:"names,omitempty"`  // the text is the name of a thing of this kind
	Each   *Value      `json:"each,omitempty"`   // of a list or a table
	Fields []Field     `json:"fields,omitempty"` // of a group
	Or     *Value      `json:"or,omitempty"`     // what may stand there instead
}

// Field describes a field of a record.
type Field struct {
	Name   string `json:"name"`
	About  string `json:"about"` // completes "give "
	Needed bool   `json:"needed,omitempty"`
	Usual  string `json:"usual,omitempty"` // what holds without it
	Ours   bool   `json:"ours,omitempty"`  // the program fills it in, and nobody else need
	Value
}

// describe lists the fields of a record in their order.
func (r record[T]) describe() []Field {
	list := make([]Field, len(r.fields))
	for i, f := range r.fields {
		list[i] = Field{Name: f.name, About: f.about, Needed: f.needed, Usual: f.usual, Ours: f.ours, Value: f.Value}
	}
	return list
}

// as says what form the texts of a shape have.
func (s shape[V]) as(form Form) shape[V] {
	s.Form = form
	write := s.write
	s.write = func(w *writing, v V) *yaml.Node {
		n := write(w, v)
		if w.json {
			asJSON(n, form)
		}
		return n
	}
	return s
}

// naming says of what kind the things are that a text names.
func naming(k ledger.Kind) shape[string] {
	named := words
	named.Names = k
	return named
}

// oneOf gives a text the words that it may be; its reader holds it to them.
func oneOf[V any](s shape[V], words ...string) shape[V] {
	s = s.as(FormChoice)
	s.Words = words
	return s
}

var jsonNumber = regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?$`)

// asJSON gives a piece of text the type that it has in JSON. A file may leave the quotes off a docket number; for a
// program a name is a text, whatever it looks like, and a yes is true.
func asJSON(n *yaml.Node, form Form) {
	n.Tag = "!!str"
	switch form {
	case FormYes:
		n.Tag, n.Value = "!!bool", strconv.FormatBool(n.Value == "yes")
	case FormCount, FormNumber, FormLength, FormThickness, FormGrammage, FormSpeed, FormMinutes:
		if jsonNumber.MatchString(n.Value) {
			n.Tag = "!!float"
		}
	}
}
