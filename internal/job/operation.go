package job

import (
	"strconv"
	"strings"

	"foldwright/internal/fold"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// Target says what an operation works on.
type Target uint8

const (
	OnFold Target = iota + 1 // the line of fold Fold
	OnLine                   // the line Axis = At of the flat sheet as drawn
	OnEdge                   // At inside the edge Edge of the finished piece: a trim
)

// Edge is an edge of the finished piece, in the terms of the pages.
type Edge string

const (
	Head  Edge = "head"
	Foot  Edge = "foot"
	Front Edge = "front" // the fore edge, opposite the spine
)

// Operation is one thing wanted besides folding, told in terms of the product.
type Operation struct {
	Kind   tooling.Kind
	Spec   string // of the wheel; empty = the shop's usual one
	Target Target
	Fold   int // OnFold: from 1
	Axis   fold.Axis
	At     units.Length // OnLine, OnEdge
	Edge   Edge         // OnEdge
	// Ups, of an OnLine slit or strip, is the parts the sheet is cut into by this line: 2 = two-up, 1 = waste falls off. 0
	// says nothing: two-up, unless what falls off is too narrow for a drive ring.
	Ups int
}

// Separates tells operations that part pieces from one another, or waste from a piece.
func (o Operation) Separates() bool { return o.Kind == tooling.Slit || o.Kind == tooling.Strip }

// String writes the operation as [ParseOperation] reads it: "perforate fold 2 with 12 tpi", "slit at t 305 mm strip 6 mm
// two-up", "trim 3 mm at the foot".
func (o Operation) String() string {
	if o.Target == OnEdge {
		return withSpec("trim "+o.At.Exact()+" at the "+string(o.Edge), o.Spec)
	}
	text := verbs[o.Kind] + o.where()
	if o.Kind == tooling.Strip {
		text = strings.TrimSpace(text + " strip " + o.Spec)
	} else {
		text = withSpec(text, o.Spec)
	}
	return text + upsText[o.Ups]
}

// AxisName is the letter of an axis, as people write it.
func AxisName(a fold.Axis) string {
	if a == fold.S {
		return "s"
	}
	return "t"
}

var (
	verbs   = map[tooling.Kind]string{tooling.Slit: "slit", tooling.Strip: "slit", tooling.Perforate: "perforate", tooling.Score: "score"}
	upsText = map[int]string{1: " one-up", 2: " two-up"}
)

// where is the place of an operation that is no trim.
func (o Operation) where() string {
	if o.Target == OnFold {
		return " fold " + strconv.Itoa(o.Fold)
	}
	return " at " + AxisName(o.Axis) + " " + o.At.Exact()
}

func withSpec(text, spec string) string {
	if spec == "" {
		return text
	}
	return text + " with " + spec
}
