package settings

import (
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// House is what the shop has decided for itself, and what it knows of its tools and its rack. It is only read, and the
// functions must answer alike for like questions.
type House struct {
	// Body is the room a tool takes on shafts of a class; nil, or a zero body, takes none.
	Body func(class string, t tooling.Type) tooling.Body
	// Usual is the spec of the wheel that is meant when the docket names none.
	Usual map[tooling.Kind]string
	// Rack gives, for every set that is alike, the shifts of the wanted positions at which it serves; nil: there is none.
	Rack  func(class string, want tooling.Pattern) []tooling.Window
	Rings Rings
	// Advice holds the thresholds of the notes.
	Advice Advice
}

// Rings says what the drive rings of a shaft need. All of it is common practice, no source.
type Rings struct {
	Width     units.Length // of a ring on the shaft
	Clearance units.Length // between a ring and a fold line, a cut or a tool
	// Apart is the least distance between the two outermost rings of a stack, as a share of its width: closer together
	// they let it swing round.
	Apart float64
}

// DefaultRings is common practice, no source.
func DefaultRings() Rings {
	return Rings{Width: 10 * units.Millimetre, Clearance: 1 * units.Millimetre, Apart: 0.25}
}

// DefaultHouse has no rack and tools without width; a shop fills in its own.
func DefaultHouse() *House {
	return &House{
		Usual:  map[tooling.Kind]string{tooling.Strip: "6 mm"},
		Rings:  DefaultRings(),
		Advice: DefaultAdvice(),
	}
}

func (h *House) body(class string, t tooling.Type) tooling.Body {
	if h.Body == nil {
		return tooling.Body{}
	}
	return h.Body(class, t)
}

func (h *House) windows(class string, want tooling.Pattern) []tooling.Window {
	if h.Rack == nil {
		return nil
	}
	return h.Rack(class, want)
}
