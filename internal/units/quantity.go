package units

import (
	"fmt"
	"math/big"
	"strings"

	"foldwright/internal/fault"
)

// measure is a kind of quantity as people type it: its units by name, and what is sensible.
type measure struct {
	name    string
	code    fault.Code
	units   map[string]*big.Rat // by tidy name, in the whole numbers that we count in
	most    int64
	mostIs  string // most in words
	zero    bool   // zero makes sense
	example string // completes "write "
}

// textMost is the longest text that is read at all.
const textMost = 80

// parse reads a quantity; bare is the size of a number without a unit, nil when it needs one.
func (m measure) parse(text string, bare *big.Rat, signed bool) (int64, error) {
	rest, sign := cutSign(tidy(text))
	if rest == "" {
		return 0, m.refuse("an empty text is no " + m.name)
	}
	if len(text) > textMost {
		return 0, m.refuse(quote(text) + " is too long for a " + m.name)
	}
	value, unit, wrong := number(rest)
	if wrong != "" {
		return 0, m.refuse(quote(text) + " " + wrong)
	}
	size := bare
	if unit != "" {
		size = m.units[unit]
	}
	switch {
	case size == nil && unit == "":
		return 0, m.refuse(quote(text) + " has no unit")
	case size == nil:
		return 0, m.refuse(quote(text) + " ends in " + quote(unit) + ", which is no unit of a " + m.name)
	case sign < 0 && !signed:
		return 0, m.beyond(quote(text)+" is below zero", "a "+m.name+" is not negative")
	}
	return m.whole(text, sign, value.Mul(value, size))
}

// whole turns a size into what we count in, if it is within reason.
func (m measure) whole(text string, sign int64, size *big.Rat) (int64, error) {
	n, ok := nearest(size, m.most)
	if !ok {
		return 0, m.beyond(quote(text)+" is too much", "at most "+m.mostIs)
	}
	if n == 0 && !m.zero {
		return 0, m.beyond(quote(text)+" is nothing", "a "+m.name+" is more than zero")
	}
	return sign * n, nil
}

// refuse is the fault of a text that is not understood.
func (m measure) refuse(wrong string) fault.Fault {
	return fault.Fault{Kind: fault.Input, Code: m.code, Wrong: wrong, Right: "write " + m.example}
}

// beyond is the fault of a quantity that is understood and makes no sense.
func (m measure) beyond(wrong, right string) fault.Fault {
	return fault.Fault{Kind: fault.Input, Code: CodeRange, Wrong: wrong, Right: right}
}

// cutSign takes a sign off the front of a tidy text.
func cutSign(text string) (rest string, sign int64) {
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		return strings.TrimSpace(rest), -1
	}
	return strings.TrimSpace(strings.TrimPrefix(text, "+")), 1
}

// quote shows what was typed, shortened when it goes on and on.
func quote(text string) string {
	const most = 40
	if letters := []rune(text); len(letters) > most {
		return fmt.Sprintf("%q…", string(letters[:most]))
	}
	return fmt.Sprintf("%q", text)
}
