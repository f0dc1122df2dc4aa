package paper

import (
	"strings"

	"foldwright/internal/fault"
)

// Finish is how the surface was made; it decides default caliper and when to score.
type Finish uint8

const (
	Uncoated Finish = iota
	Coated
	Laminated
	Board
)

// finishes holds what belongs to each finish, in the order of the constants.
var finishes = []struct {
	name   string
	volume float64 // cm³/g, when nobody measured
	source string
}{
	{"uncoated", 1.33, "US Government Paper Specification Standards no. 11, JCP A55 and A63: 75 g/m² is 0.100 mm, 90 is 0.120, 120 is 0.160"},
	{"coated", 0.80, "a published list of gloss and silk sheets has 0.74 to 0.80; the upper end leaves the nips open enough"},
	{"laminated", 0.85, "common practice, no source"},
	{"board", 1.25, "Babić, Tiskarstvo 2004: 280 g/m² is 0.35 mm, 320 is 0.41, 350 is 0.44"},
}

// String gives the name of the finish.
func (f Finish) String() string { return finishes[f].name }

// DefaultVolume is the specific volume in cm³/g taken when nobody measured, and where the figure is from.
func (f Finish) DefaultVolume() (volume float64, source string) {
	return finishes[f].volume, finishes[f].source
}

// CodeFinish is the code of an unknown finish.
const CodeFinish fault.Code = "finish"

// ParseFinish reads the name of a finish.
func ParseFinish(text string) (Finish, error) {
	for i, f := range finishes {
		if f.name == strings.ToLower(strings.TrimSpace(text)) {
			return Finish(i), nil
		}
	}
	return 0, fault.Fault{Code: CodeFinish, Wrong: quote(text) + " is no finish", Right: "write uncoated, coated, laminated or board"}
}
