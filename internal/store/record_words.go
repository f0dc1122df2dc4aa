package store

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/paper"
)

// The words that stand in the database for what the code counts. They must never change: rows of years ago hold them.
var (
	opWords     = []string{"", "up", "down", "left", "right"}
	faceWords   = []string{"up", "down"}
	axisWords   = []string{"s", "t"}
	grainWords  = []string{"unknown", "along s", "along t"}
	finishWords = []string{"uncoated", "coated", "laminated", "board"}
	targetWords = []string{"none", "fold", "line", "edge"}
)

type (
	opWord     fold.Op
	faceWord   fold.Face
	axisWord   fold.Axis
	grainWord  paper.Grain
	finishWord paper.Finish
	targetWord job.Target
)

func (w opWord) MarshalText() ([]byte, error)     { return wordOf(opWords, uint8(w)) }
func (w faceWord) MarshalText() ([]byte, error)   { return wordOf(faceWords, uint8(w)) }
func (w axisWord) MarshalText() ([]byte, error)   { return wordOf(axisWords, uint8(w)) }
func (w grainWord) MarshalText() ([]byte, error)  { return wordOf(grainWords, uint8(w)) }
func (w finishWord) MarshalText() ([]byte, error) { return wordOf(finishWords, uint8(w)) }
func (w targetWord) MarshalText() ([]byte, error) { return wordOf(targetWords, uint8(w)) }

func (w *opWord) UnmarshalText(text []byte) error     { return readWord(opWords, text, w) }
func (w *faceWord) UnmarshalText(text []byte) error   { return readWord(faceWords, text, w) }
func (w *axisWord) UnmarshalText(text []byte) error   { return readWord(axisWords, text, w) }
func (w *grainWord) UnmarshalText(text []byte) error  { return readWord(grainWords, text, w) }
func (w *finishWord) UnmarshalText(text []byte) error { return readWord(finishWords, text, w) }
func (w *targetWord) UnmarshalText(text []byte) error { return readWord(targetWords, text, w) }

func wordOf(words []string, n uint8) ([]byte, error) {
	if int(n) >= len(words) {
		return nil, fmt.Errorf("there is no number %d among %s", n, strings.Join(words, ", "))
	}
	return []byte(words[n]), nil
}

func readWord[W ~uint8](words []string, text []byte, into *W) error {
	n := slices.Index(words, string(text))
	if n < 0 {
		return fmt.Errorf("%q is none of %s", text, strings.Join(words, ", "))
	}
	*into = W(n)
	return nil
}

// ratioText is a fraction as it is, not reduced: 1/2, -3/4, 0/0 for the zero value.
type ratioText fold.Ratio

func (r ratioText) MarshalText() ([]byte, error) {
	return fmt.Appendf(nil, "%d/%d", r.Num, r.Den), nil
}

func (r *ratioText) UnmarshalText(text []byte) (err error) {
	num, den, ok := strings.Cut(string(text), "/")
	if !ok {
		return fmt.Errorf("%q is no fraction", text)
	}
	if r.Num, err = strconv.ParseInt(num, 10, 64); err != nil {
		return err
	}
	r.Den, err = strconv.ParseInt(den, 10, 64)
	return err
}

// zoneName is a time zone by its name; none has no name.
type zoneName struct{ *time.Location }

func (z zoneName) MarshalText() ([]byte, error) {
	if z.Location == nil {
		return nil, nil
	}
	if _, err := time.LoadLocation(z.String()); err != nil {
		return nil, err
	}
	return []byte(z.String()), nil
}

func (z *zoneName) UnmarshalText(text []byte) (err error) {
	if len(text) > 0 {
		z.Location, err = time.LoadLocation(string(text))
	}
	return err
}

// timeText is a length of time to the nanosecond: 4m0s.
type timeText time.Duration

func (d timeText) MarshalText() ([]byte, error) { return []byte(time.Duration(d).String()), nil }

func (d *timeText) UnmarshalText(text []byte) error {
	v, err := time.ParseDuration(string(text))
	*d = timeText(v)
	return err
}

// each turns a list into another. An empty one becomes none, so that equal values give equal bodies.
func each[A, B any](list []A, turn func(A) B) []B {
	if len(list) == 0 {
		return nil
	}
	out := make([]B, len(list))
	for i, v := range list {
		out[i] = turn(v)
	}
	return out
}
