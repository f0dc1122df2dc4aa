package job

import (
	"fmt"
	"strconv"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// CodeOperation marks a text that is no operation, or an operation that makes no sense.
const CodeOperation fault.Code = "operation"

// operationMost is the longest text that is read at all.
const operationMost = 200

const operationForms = `write "perforate fold 2", "score fold 3 with 0.7 mm", "slit at t 305 strip 6 mm two-up" or "trim 3 mm at the foot"`

// ParseOperation reads an operation; bare is the unit of a bare length, [units.Millimetre] or [units.Inch]. Besides the
// forms that [Operation.String] writes it takes commas between the parts, "6 mm strip", "fore edge" for front, and a
// slit without an axis, whose line then runs along the travel as drawn (t). What must fit the sheet is [Job.Check]'s.
func ParseOperation(text string, bare units.Length) (Operation, error) {
	if len(text) > operationMost {
		return Operation{}, refuse(text[:40]+"…", "is too long for an operation")
	}
	p := &reader{text: text, words: wordsOf(text), bare: bare}
	var op Operation
	switch verb := p.next(); verb {
	case "trim":
		op = p.trim()
	case "slit", "perforate", "score":
		op = p.line(tooling.Kind(verb))
	default:
		p.fail("does not start with perforate, score, slit or trim")
	}
	if p.wrong == "" && p.err == nil && len(p.words) > 0 {
		p.fail(fmt.Sprintf("goes on with %q, which is not understood", p.words[0]))
	}
	return op, p.result()
}

// wordsOf splits a text at blanks, and at the commas that part clauses; a decimal comma has a digit after it.
func wordsOf(text string) []string {
	text = strings.ToLower(text) + " "
	text = strings.ReplaceAll(text, ", ", " , ")
	return strings.Fields(text)
}

// reader takes words off the front; after the first failure it only returns empty words.
type reader struct {
	text  string
	words []string
	bare  units.Length
	wrong string
	err   error // of a length or a wheel
}

func (p *reader) fail(wrong string) {
	if p.wrong == "" {
		p.wrong = wrong
	}
	p.words = nil
}

func (p *reader) result() error {
	switch {
	case p.err != nil:
		return p.err
	case p.wrong != "":
		return refuse(p.text, p.wrong)
	}
	return nil
}

func refuse(text, wrong string) error {
	return fault.Fault{Kind: fault.Input, Code: CodeOperation, Wrong: fmt.Sprintf("%q %s", text, wrong), Right: operationForms}
}

func (p *reader) next() string {
	if len(p.words) == 0 {
		return ""
	}
	word := p.words[0]
	p.words = p.words[1:]
	return word
}

// take consumes the word if it comes next.
func (p *reader) take(word string) bool {
	if len(p.words) == 0 || p.words[0] != word {
		return false
	}
	p.words = p.words[1:]
	return true
}

// stops end a run of free words; a comma does so too.
var stops = map[string]bool{",": true, "with": true, "strip": true, "two-up": true, "one-up": true, "at": true}

// run takes the words up to the next stop.
func (p *reader) run() string {
	n := 0
	for n < len(p.words) && !stops[p.words[n]] {
		n++
	}
	text := strings.Join(p.words[:n], " ")
	p.words = p.words[n:]
	return text
}

// length takes a length.
func (p *reader) length(text string) units.Length {
	if p.wrong != "" {
		return 0
	}
	if text == "" {
		p.fail("lacks a length")
		return 0
	}
	l, err := units.ParseLength(text, p.bare)
	if err != nil {
		p.err = err
		p.words = nil
	}
	return l
}

// trim reads what follows "trim".
func (p *reader) trim() Operation {
	op := Operation{Kind: tooling.Slit, Target: OnEdge, At: p.length(p.run())}
	if !p.take("at") {
		p.fail("lacks the edge to trim")
	}
	p.take("the")
	switch edge := p.next(); edge {
	case "head", "foot", "front":
		op.Edge = Edge(edge)
	case "fore":
		op.Edge = Front
		if !p.take("edge") {
			p.fail(`has "fore" without "edge"`)
		}
	default:
		p.fail("names no edge: head, foot or front")
	}
	return p.clauses(op)
}

// line reads what follows slit, perforate and score.
func (p *reader) line(kind tooling.Kind) Operation {
	op := Operation{Kind: kind}
	switch {
	case p.take("fold"):
		op.Target = OnFold
		n, err := strconv.Atoi(p.next())
		if err != nil || n < 1 {
			p.fail("lacks the number of the fold, from 1")
		}
		op.Fold = n
	case p.take("at"):
		op.Target = OnLine
		op.Axis = p.axis(kind)
		op.At = p.length(p.run())
	default:
		p.fail(`says neither "fold" and its number nor "at" and a place`)
	}
	return p.clauses(op)
}

// axis takes the letter; only a slit may do without.
func (p *reader) axis(kind tooling.Kind) fold.Axis {
	switch {
	case p.take("s"):
		return fold.S
	case p.take("t"), kind == tooling.Slit:
		return fold.T
	}
	p.fail("does not say whether the line is s = … (across the travel as drawn) or t = … (along it)")
	return fold.S
}

// clauses reads the rest: the wheel, the strip, the ups.
func (p *reader) clauses(op Operation) Operation {
	for len(p.words) > 0 {
		switch {
		case p.take(","):
		case p.take("two-up"):
			op.Ups = 2
		case p.take("one-up"):
			op.Ups = 1
		case p.take("with"):
			op.Spec = p.spec(op.Kind, p.run())
		case p.take("strip"):
			op = p.strip(op, p.run())
		default:
			width := p.run()
			if width == "" || !p.take("strip") {
				p.fail(fmt.Sprintf("goes on with %q, which is not understood", strings.TrimSpace(width+" "+p.next())))
				return op
			}
			op = p.strip(op, width)
		}
	}
	return op
}

// strip makes a slit one that takes out a strip; without a width it is the shop's usual strip.
func (p *reader) strip(op Operation, width string) Operation {
	if op.Kind != tooling.Slit || op.Target != OnLine {
		p.fail("takes out a strip, which only a slit at a place does")
		return op
	}
	op.Kind = tooling.Strip
	if width != "" {
		op.Spec = p.spec(tooling.Strip, width)
	}
	return op
}

// spec takes the words that name a wheel.
func (p *reader) spec(kind tooling.Kind, text string) string {
	if text == "" {
		p.fail("lacks the wheel")
		return ""
	}
	spec, err := tooling.ParseSpec(kind, text, p.bare)
	if err != nil && p.err == nil {
		p.err, p.words = err, nil
	}
	return spec
}
