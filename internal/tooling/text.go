package tooling

import (
	"fmt"
	"slices"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// ParseType reads a tool without its place: perforate 12 tpi, score 0.7 mm, slit, strip 6 mm. A bare length is in the
// unit bare.
func ParseType(text string, bare units.Length) (Type, error) {
	word, spec, _ := strings.Cut(strings.TrimSpace(text), " ")
	kind := Kind(strings.ToLower(word))
	if !slices.Contains(Kinds(), kind) {
		return Type{}, fault.Fault{
			Kind: fault.Input, Code: CodeKind,
			Wrong: fmt.Sprintf("%q is no kind of tool", clip(word)), Right: "write slit, strip, perforate or score first",
		}
	}
	normal, err := ParseSpec(kind, spec, bare)
	return Type{kind, normal}, err
}

// Parse reads a tool at its place from the datum shoulder: perforate 12 tpi @ 305.
func Parse(text string, bare units.Length) (Tool, error) {
	what, place, ok := strings.Cut(text, "@")
	if !ok {
		return Tool{}, fault.Fault{
			Kind: fault.Input, Code: CodeTool,
			Wrong: fmt.Sprintf("%q does not say where the tool stands", clip(text)), Right: "write @ and the place, such as perforate 12 tpi @ 305 mm",
		}
	}
	typ, err := ParseType(what, bare)
	if err != nil {
		return Tool{}, err
	}
	at, err := units.ParseLength(place, bare)
	if err != nil {
		return Tool{}, err
	}
	return Tool{typ, at}, nil
}

// String gives the type as [ParseType] reads it.
func (t Type) String() string {
	if t.Spec == "" {
		return string(t.Kind)
	}
	return string(t.Kind) + " " + t.Spec
}

// String gives the tool as [Parse] reads it, exactly and whatever a bare number means: perforate 12 tpi @ 305 mm.
func (t Tool) String() string { return t.Type.String() + " @ " + t.At.Exact() }

// Format gives the tool for people, its place in millimetres or inches.
func (t Tool) Format(inch bool) string { return t.Type.String() + " @ " + t.At.Format(inch) }
