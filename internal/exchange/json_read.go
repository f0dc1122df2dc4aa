package exchange

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/fault"
)

// CodeJSON is the code of a text that starts as JSON does and is none.
const CodeJSON fault.Code = "json-syntax"

// jsonTree is JSON on the way to the nodes that the records read. It is not left to the YAML parser, close as the two are:
// YAML knows nothing of letters that JSON writes as two escapes, and takes some signs inside a text for the end of a line.
type jsonTree struct {
	data []byte
	d    *json.Decoder
	here mark // of the byte seen
	seen int
}

// looksJSON tells whether a text is meant to be JSON: a group in braces, or a list.
func looksJSON(data []byte) bool {
	data = bytes.TrimLeft(data, " \t\r\n")
	return len(data) > 0 && (data[0] == '{' || data[0] == '[')
}

// jsonNode reads one JSON value; the error is a [fault.Fault].
func jsonNode(data []byte) (*yaml.Node, error) {
	t := &jsonTree{data: data, d: json.NewDecoder(bytes.NewReader(data)), here: mark{1, 1}}
	t.d.UseNumber()
	n, err := t.value(0)
	if err == nil && len(bytes.TrimLeft(data[t.d.InputOffset():], blanks)) > 0 {
		err = errors.New("something stands behind the end")
	}
	if err == nil {
		return n, nil
	}
	if errors.As(err, new(fault.Fault)) {
		return nil, err
	}
	if errors.Is(err, io.EOF) {
		err = errors.New("it ends too early")
	}
	return nil, notJSON(t.mark(t.next()), err.Error())
}

// blanks may stand between the pieces of JSON.
const blanks = " \t\r\n"

// notJSON says where the JSON ends to be JSON.
func notJSON(at mark, why string) error {
	return fault.Fault{
		Kind: fault.Input, Code: CodeJSON, Line: at.line, Col: at.col, Wrong: "no JSON: " + why,
		Right: "names in double quotes, a colon after each, commas between the fields",
	}
}

// next is where the piece starts that comes next.
func (t *jsonTree) next() int {
	from := int(t.d.InputOffset())
	return len(t.data) - len(bytes.TrimLeft(t.data[from:], blanks+",:"))
}

// mark is the line and column of a byte, which is none before the last one asked for.
func (t *jsonTree) mark(at int) mark {
	for ; t.seen < min(at, len(t.data)); t.seen++ {
		switch b := t.data[t.seen]; {
		case b == '\n':
			t.here = mark{t.here.line + 1, 1}
		case utf8.RuneStart(b):
			t.here.col++
		}
	}
	return t.here
}

// token is the next piece with the place where it starts.
func (t *jsonTree) token() (json.Token, *yaml.Node, error) {
	from := t.next()
	token, err := t.d.Token()
	if err != nil {
		return nil, nil, err
	}
	m := t.mark(from)
	n := &yaml.Node{Kind: yaml.ScalarNode, Line: m.line, Column: m.col}
	if text, ok := token.(string); ok && halfLetter(text, t.data[from:t.d.InputOffset()]) {
		return nil, nil, notJSON(m, `half a letter: an escape \ud800 to \udfff without its other half`)
	}
	return token, n, nil
}

// halfLetter tells whether a text lost a letter when it was read: where half of one was written, the parser puts a sign
// that means so.
func halfLetter(text string, written []byte) bool {
	lost := strings.Count(text, "\ufffd")
	return lost > bytes.Count(written, []byte("\ufffd"))+bytes.Count(bytes.ToLower(written), []byte(`\ufffd`))
}

// value reads the next value, which stands so deep.
func (t *jsonTree) value(depth int) (*yaml.Node, error) {
	token, n, err := t.token()
	if err != nil {
		return nil, err
	}
	switch v := token.(type) {
	case json.Delim:
		if depth++; depth > depthMost {
			return nil, notJSON(mark{n.Line, n.Column}, fmt.Sprintf("it nests deeper than %d levels", depthMost))
		}
		return n, t.holder(n, v, depth)
	case string:
		n.Tag, n.Style, n.Value = "!!str", yaml.DoubleQuotedStyle, v
	case json.Number:
		n.Tag, n.Value = "!!float", v.String()
	case bool:
		n.Tag, n.Value = "!!bool", fmt.Sprint(v)
	case nil:
		n.Tag, n.Value = "!!null", "null"
	}
	return n, nil
}

// holder reads what stands between two braces or brackets, with the one that ends it.
func (t *jsonTree) holder(n *yaml.Node, open json.Delim, depth int) error {
	n.Kind, n.Style = yaml.SequenceNode, yaml.FlowStyle
	if open == '{' {
		n.Kind = yaml.MappingNode
	}
	for t.d.More() {
		v, err := t.value(depth) // the parser sees to it that names are texts
		if err != nil {
			return err
		}
		n.Content = append(n.Content, v)
	}
	_, err := t.d.Token()
	return err
}
