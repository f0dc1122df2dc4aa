package exchange

import (
	"regexp"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/fault"
	"foldwright/internal/paper"
)

// shape is how values of a type stand in a file: it reads them, writes them so that they read back the same, and
// describes them for the schema. Every field of the shop file is declared once, with its shape, and from that one
// declaration come the reader, the writer, the schema, the table in the handbook and the forms of the web app.
type shape[V any] struct {
	read  func(spot) (V, bool) // says itself what is wrong
	write func(*writing, V) *yaml.Node
	told  schema
	Value
}

// writing is what the written form of values depends on.
type writing struct {
	inch  bool
	zone  *time.Location
	stock func(name string) (paper.Stock, bool) // in the shop's list
	json  bool                                  // for programs: see [asJSON]
}

// text makes the shape of values that are written as one piece of text. Its parser's faults get their place here.
func text[V any](says string, told schema, parse func(*reading, string) (V, error), format func(*writing, V) string) shape[V] {
	plain := shape[V]{
		Value: Value{Says: says},
		told:  told,
		read: func(s spot) (v V, ok bool) {
			if !s.isKind(yaml.ScalarNode, says) {
				return v, false
			}
			v, err := parse(s.reading, s.node.Value)
			if err != nil {
				s.refuseErr(err)
				return v, false
			}
			return v, true
		},
		write: func(w *writing, v V) *yaml.Node { return scalar(format(w, v)) },
	}
	return plain.as(FormText)
}

// The texts that YAML takes for something else when they stand bare. They may all the same, for they are read back
// letter by letter.
var (
	bareInt   = regexp.MustCompile(`^(0|-?[1-9][0-9]{0,17})$`)
	bareFloat = regexp.MustCompile(`^-?(0|[1-9][0-9]{0,14})\.[0-9]+$`)
	bareDate  = regexp.MustCompile(`^20[0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|1[0-9]|2[0-8])$`)
)

// scalar is a piece of text as YAML: bare where that reads back the same, else quoted.
func scalar(value string) *yaml.Node {
	n := &yaml.Node{Kind: yaml.ScalarNode, Value: value, Tag: "!!str"}
	switch {
	case bareInt.MatchString(value):
		n.Tag = "!!int"
	case bareFloat.MatchString(value):
		n.Tag = "!!float"
	case bareDate.MatchString(value):
		n.Tag = "!!timestamp"
	case strings.ContainsAny(value, "\n\r\u0085\u2028\u2029"):
		n.Style = yaml.DoubleQuotedStyle // on one line
	}
	return n
}

// list makes the shape of lists; oneLine writes them so.
func list[V any](of shape[V], oneLine bool) shape[[]V] {
	return shape[[]V]{
		Value: Value{Form: FormList, Says: "a list", Each: &of.Value},
		told:  schema{"type": "array", "items": of.told},
		read: func(s spot) (out []V, ok bool) {
			if !s.isKind(yaml.SequenceNode, "a list, such as one line a piece with a dash before it") {
				return nil, false
			}
			ok = true
			for i, n := range s.node.Content {
				if s.full() {
					return out, false
				}
				v, good := of.read(s.item(i, n))
				ok = ok && good
				out = append(out, v) // also when it is faulty, so that the places of the rest stay true
			}
			return out, ok
		},
		write: func(w *writing, all []V) *yaml.Node {
			n := &yaml.Node{Kind: yaml.SequenceNode}
			if oneLine || len(all) == 0 {
				n.Style = yaml.FlowStyle
			}
			for _, v := range all {
				n.Content = append(n.Content, of.write(w, v))
			}
			return n
		},
	}
}

// pair is a field of a mapping with its name and its node.
type pair struct {
	name string
	key  *yaml.Node
	spot spot
}

// pairs lists what stands in a mapping, in the order of the file; a name that comes twice is refused.
func (s spot) pairs(right string) (out []pair, ok bool) {
	if !s.isKind(yaml.MappingNode, right) {
		return nil, false
	}
	first := map[string]mark{}
	for i := 0; i+1 < len(s.node.Content); i += 2 {
		key, value := s.node.Content[i], s.node.Content[i+1]
		k := spot{s.reading, s.path, key}
		if key.Kind != yaml.ScalarNode {
			k.refuse(CodeWrongType, k.kind()+" stands where the name of a field should", "write "+right)
			continue
		}
		if m, twice := first[key.Value]; twice {
			k.refuse(CodeTwice, quoted(key.Value)+" stands here again, first in line "+decimal(m.line), "keep one of the two")
			continue
		}
		first[key.Value] = mark{key.Line, key.Column}
		out = append(out, pair{key.Value, key, s.field(key.Value, value)})
	}
	return out, true
}

// missing adds the fault of a field that is not there.
func (s spot) missing(name, about string) {
	s.add(fault.Fault{
		Kind: fault.Input, Code: CodeMissing, Line: s.node.Line, Col: s.node.Column, Field: s.field(name, s.node).path,
		Wrong: "is missing", Right: "give " + about,
	})
}
