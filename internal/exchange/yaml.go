package exchange

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"foldwright/internal/fault"
	"foldwright/internal/shop"
	"foldwright/internal/units"
)

// The codes of what can be wrong with a file before anything in it is understood, and with the form of its fields.
const (
	CodeFileSize     fault.Code = "file-size"
	CodeEncoding     fault.Code = "file-encoding"
	CodeSyntax       fault.Code = "yaml-syntax"
	CodeUnused       fault.Code = "yaml-unused"
	CodeWrongType    fault.Code = "wrong-type"
	CodeEmpty        fault.Code = "empty-field"
	CodeMissing      fault.Code = "missing-field"
	CodeUnknownField fault.Code = "unknown-field"
	CodeTwice        fault.Code = "field-twice"
	CodeMany         fault.Code = "faults-many"
)

const (
	// fileMost is the longest file that is read: two orders of magnitude above a large shop.
	fileMost = 16 << 20
	// depthMost is how deeply a file may nest; a shop file needs seven levels.
	depthMost = 50
)

// mark is a place in a file, both from 1.
type mark struct{ line, col int }

// reading is a file being read: its faults so far, where each field stands, and what its values depend on.
type reading struct {
	file   string
	faults fault.List
	marks  map[string]mark
	bare   units.Length   // what a bare length is
	zone   *time.Location // of local times
	stocks stockBook
}

// spot is a value of the file with the path of its field.
type spot struct {
	*reading
	path string
	node *yaml.Node
}

// open turns the bytes of a file into its one document, or says why it is none.
func open(file string, data []byte) (spot, bool) {
	r := newReading(file)
	if f, ok := refuseBytes(data, fileMost); !ok {
		r.add(f)
		return spot{reading: r}, false
	}
	return r.load(data)
}

func newReading(file string) *reading {
	return &reading{file: file, marks: map[string]mark{}, bare: units.Millimetre, zone: time.UTC}
}

// load parses what is YAML.
func (r *reading) load(data []byte) (spot, bool) {
	loader, err := yaml.NewLoader(bytes.NewReader(data), yaml.WithPlugin(
		loaderlimits.New(loaderlimits.DepthValue(depthMost), loaderlimits.AliasNone())))
	if err != nil {
		panic(err) // the options themselves are wrong
	}
	var document, second yaml.Node
	switch err := loader.Load(&document); {
	case errors.Is(err, io.EOF):
		r.add(fault.Fault{Kind: fault.Input, Code: CodeEmpty, Line: 1, Wrong: "the file holds nothing", Right: "see docs/shop-file.md for what a shop file holds"})
		return spot{reading: r}, false
	case err != nil:
		r.addSyntax(err)
		return spot{reading: r}, false
	}
	if err := loader.Load(&second); err == nil {
		r.add(fault.Fault{
			Kind: fault.Input, Code: CodeUnused, Line: second.Line, Col: second.Column,
			Wrong: "a second document starts here", Right: "a shop file is one document",
		})
	} else if !errors.Is(err, io.EOF) {
		r.addSyntax(err)
	}
	return spot{reading: r, node: content(&document)}, true
}

// content is the value inside a document.
func content(n *yaml.Node) *yaml.Node {
	if n.Kind == yaml.DocumentNode && len(n.Content) == 1 {
		return n.Content[0]
	}
	return n
}

// refuseBytes judges a file before it is parsed.
func refuseBytes(data []byte, most int) (fault.Fault, bool) {
	if len(data) > most {
		return fault.Fault{
			Kind: fault.Input, Code: CodeFileSize, Wrong: fmt.Sprintf("there are %d bytes", len(data)),
			Right: fmt.Sprintf("at most %d are read", most),
		}, false
	}
	at := 0
	for line := 1; at < len(data); {
		letter, size := utf8.DecodeRune(data[at:])
		if letter == utf8.RuneError && size == 1 {
			return fault.Fault{
				Kind: fault.Input, Code: CodeEncoding, Line: line,
				Wrong: fmt.Sprintf("byte 0x%02X is no UTF-8 text", data[at]), Right: "save it as UTF-8",
			}, false
		}
		if letter < ' ' && !strings.ContainsRune("\t\n\r", letter) || letter == '\x7f' {
			return fault.Fault{
				Kind: fault.Input, Code: CodeEncoding, Line: line,
				Wrong: fmt.Sprintf("there is a control character, byte 0x%02X", letter), Right: "take it out",
			}, false
		}
		if letter == '\n' {
			line++
		}
		at += size
	}
	return fault.Fault{}, true
}

// addSyntax adds what the YAML parser found.
func (r *reading) addSyntax(err error) {
	var many *yaml.LoadErrors
	if errors.As(err, &many) {
		for _, one := range many.Errors {
			r.addSyntax(one)
		}
		return
	}
	f := fault.Fault{Kind: fault.Input, Code: CodeSyntax, Wrong: "no YAML: " + err.Error()}
	var one *yaml.LoadError
	if errors.As(err, &one) {
		f.Line, f.Col, f.Wrong = one.Mark.Line, one.Mark.Column, "no YAML: "+one.Message
		if one.ContextMsg != "" {
			f.Wrong += " (" + one.ContextMsg + ")"
		}
	}
	r.add(f)
}

// add adds a fault of this file. What it quotes of the file cannot play tricks on a terminal.
func (r *reading) add(f fault.Fault) {
	if r.full() {
		return
	}
	f.File = r.file
	f.Field, f.Wrong, f.Right = printable(f.Field), printable(f.Wrong), printable(f.Right)
	r.faults.Add(f)
}

// full tells that so much is wrong that nobody reads on: the file is another one, or meant to do harm.
func (r *reading) full() bool { return len(r.faults) >= shop.FaultsMost }

func printable(text string) string {
	return strings.Map(func(letter rune) rune {
		if !unicode.IsPrint(letter) {
			return '\ufffd'
		}
		return letter
	}, text)
}

func (r *reading) addAll(found fault.List) {
	for _, f := range found {
		r.add(f)
	}
}

// place adds faults that another room found, told by their field; each gets the line of the nearest field above it that
// the file has.
func (r *reading) place(found fault.List) {
	for _, f := range found {
		m := r.markOf(f.Field)
		f.Line, f.Col = m.line, m.col
		r.add(f)
	}
}

// markOf finds where a field stands: the field itself, or the one that holds it.
func (r *reading) markOf(path string) mark {
	for {
		if m, ok := r.marks[path]; ok || path == "" {
			return m
		}
		path = parent(path)
	}
}

// sorted returns the faults in the order of the file, once.
func (r *reading) sorted() fault.List {
	slices.SortStableFunc(r.faults, func(a, b fault.Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
	if r.full() {
		r.faults.Add(fault.Fault{
			Kind: fault.Input, Code: CodeMany, File: r.file,
			Wrong: fmt.Sprintf("there are %d faults or more", shop.FaultsMost), Right: "mend these first",
		})
	}
	return r.faults
}

// field is the spot of a field of this mapping.
func (s spot) field(name string, node *yaml.Node) spot {
	path := name
	if s.path != "" {
		path = s.path + "." + name
	}
	return s.at(path, node)
}

// item is the spot of an item of this list.
func (s spot) item(i int, node *yaml.Node) spot {
	return s.at(s.path+"["+strconv.Itoa(i)+"]", node)
}

func (s spot) at(path string, node *yaml.Node) spot {
	s.marks[path] = mark{node.Line, node.Column}
	return spot{s.reading, path, node}
}

// refuse adds a fault at this spot.
func (s spot) refuse(code fault.Code, wrong, right string) {
	s.add(fault.Fault{Kind: fault.Input, Code: code, Line: s.node.Line, Col: s.node.Column, Field: s.path, Wrong: wrong, Right: right})
}

// refuseErr adds the faults inside an error of a parser at this spot. Whatever a parser misses, here the text is wrong: a
// job of an unknown scheme is bad input, not a job that nobody has.
func (s spot) refuseErr(err error) {
	found := fault.All(err)
	if found == nil {
		panic(fmt.Sprintf("exchange: %s: an error that is no fault: %v", s.path, err))
	}
	for _, f := range found {
		if strings.HasPrefix(f.Field, "step ") { // a place inside the text
			f.Wrong = f.Field + ": " + f.Wrong
		}
		f.Kind, f.Line, f.Col, f.Field = fault.Input, s.node.Line, s.node.Column, s.path
		s.add(f)
	}
}

// kind names what stands here, for people.
func (s spot) kind() string {
	switch s.node.Kind {
	case yaml.MappingNode:
		return "a group of fields"
	case yaml.SequenceNode:
		return "a list"
	case yaml.AliasNode:
		return "an alias"
	default:
		return strconv.Quote(shorten(s.node.Value))
	}
}

// isKind tells whether the value here has the form wanted; otherwise it says what would be right.
func (s spot) isKind(want yaml.Kind, right string) bool {
	switch {
	case s.node.Kind == yaml.AliasNode:
		s.refuse(CodeUnused, "an alias stands here", "write the value out: a shop file has no anchors and aliases")
	case s.node.Style&yaml.TaggedStyle != 0:
		s.refuse(CodeUnused, "the tag "+shorten(s.node.Tag)+" stands here", "write the value without a tag")
	case s.isNull() && want == yaml.ScalarNode:
		s.refuse(CodeEmpty, "says nothing", "write "+right)
	case s.node.Kind != want && !(s.isNull() && want != yaml.ScalarNode):
		s.refuse(CodeWrongType, s.kind()+" stands here", "write "+right)
	default:
		return true
	}
	return false
}

// isNull tells whether the value here is written as nothing.
func (s spot) isNull() bool {
	return s.node.Kind == yaml.ScalarNode && s.node.Style == 0 && s.node.ShortTag() == "!!null"
}

// shorten keeps what was typed short enough for a message.
func shorten(text string) string {
	const most = 40
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most]) + "…"
	}
	return text
}
