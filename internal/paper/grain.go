package paper

import (
	"fmt"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// Grain is the direction of the fibres on the sheet as drawn.
type Grain uint8

const (
	GrainUnknown Grain = iota
	GrainAlongS        // along the sheet's length, the travel on the feed table
	GrainAlongT        // along its width
)

// String says which side of the sheet as drawn the grain runs along.
func (g Grain) String() string {
	switch g {
	case GrainAlongS:
		return "along the length"
	case GrainAlongT:
		return "along the width"
	default:
		return "unknown"
	}
}

// Turned is the same grain on a sheet whose length and width have changed places.
func (g Grain) Turned() Grain {
	switch g {
	case GrainAlongS:
		return GrainAlongT
	case GrainAlongT:
		return GrainAlongS
	default:
		return GrainUnknown
	}
}

// Long tells whether the grain runs along the longer side; known is false when the grain is unknown or the sheet square.
func (g Grain) Long(length, width units.Length) (long, known bool) {
	if g == GrainUnknown || length == width {
		return false, false
	}
	return (g == GrainAlongS) == (length > width), true
}

// CodeGrain is the code of a grain that is not understood.
const CodeGrain fault.Code = "grain"

// ParseGrain reads the grain of a sheet as drawn: "length", "width" ("along the length" too), "unknown", or, for a sheet
// that is not square, "long" or "short", the trade's words for the side that the grain runs along.
func ParseGrain(text string, length, width units.Length) (Grain, error) {
	word := strings.ToLower(strings.TrimSpace(text))
	word = strings.TrimPrefix(word, "along the ")
	word = strings.TrimSuffix(word, " grain")
	switch {
	case word == "length":
		return GrainAlongS, nil
	case word == "width":
		return GrainAlongT, nil
	case word == "unknown" || word == "":
		return GrainUnknown, nil
	case (word == "long" || word == "short") && length == width:
		return 0, fault.Fault{Code: CodeGrain, Wrong: quote(text) + " means nothing on a square sheet", Right: "write length or width"}
	case word == "long" || word == "short":
		if (word == "long") == (length > width) {
			return GrainAlongS, nil
		}
		return GrainAlongT, nil
	}
	return 0, fault.Fault{Code: CodeGrain, Wrong: quote(text) + " is no direction of the grain", Right: "write length, width, long, short or unknown"}
}

// quote shows what was typed, shortened when it goes on and on.
func quote(text string) string { return fmt.Sprintf("%.40q", text) }
