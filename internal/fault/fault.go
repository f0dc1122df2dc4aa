// Package fault holds the one shape in which every room says what is wrong.
//
// A [Fault] names the place, what is wrong there and what would be right, and carries a stable code. Checking goes on
// after the first fault, so most checks return a [List]. The doors turn a [Kind] into an exit code or an HTTP status in
// exactly one place each; no room below knows of either.
package fault

import (
	"errors"
	"fmt"
	"strings"
)

// Kind says what sort of answer a fault is, so that a door can choose its status.
type Kind uint8

const (
	Input    Kind = iota // the input is wrong: mend it and ask again
	No                   // the question was fine and the answer is no
	Missing              // what was named does not exist
	Conflict             // somebody else changed it first
	Denied               // this person may not
)

// Code is a stable short name of a fault, such as "plate-range"; docs/faults.md lists each with its smallest example.
type Code string

// Fault is one thing that is wrong.
type Fault struct {
	Kind  Kind
	Code  Code
	File  string // empty when the input was no file
	Line  int    // from 1; 0 when unknown
	Col   int    // from 1; 0 when unknown
	Field string // such as folders[2].units[1].plates[0].max
	Wrong string // what is wrong, without capital or full stop
	Right string // what would be right; may be empty when Wrong leaves no choice
}

// Error gives the fault as one line: place, field, what is wrong; what would be right [code].
func (f Fault) Error() string {
	var b strings.Builder
	if f.File != "" {
		b.WriteString(f.File)
		b.WriteByte(':')
	}
	if f.Line > 0 {
		fmt.Fprintf(&b, "%d:", f.Line)
		if f.Col > 0 {
			fmt.Fprintf(&b, "%d:", f.Col)
		}
	}
	if b.Len() > 0 {
		b.WriteByte(' ')
	}
	if f.Field != "" {
		b.WriteString(f.Field)
		b.WriteString(": ")
	}
	b.WriteString(f.Wrong)
	if f.Right != "" {
		b.WriteString("; ")
		b.WriteString(f.Right)
	}
	if f.Code != "" {
		fmt.Fprintf(&b, " [%s]", f.Code)
	}
	return b.String()
}

// List is every fault that was found, in the order of the input.
type List []Fault

// Error gives one line a fault.
func (l List) Error() string {
	lines := make([]string, len(l))
	for i, f := range l {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Add appends a fault to the list.
func (l *List) Add(f Fault) { *l = append(*l, f) }

// Err returns the list as an error, or nil when it is empty.
func (l List) Err() error {
	if len(l) == 0 {
		return nil
	}
	return l
}

// All returns every fault inside err, or nil when err holds none (and is therefore no fault of the user's).
func All(err error) List {
	var list List
	if errors.As(err, &list) {
		return list
	}
	var one Fault
	if errors.As(err, &one) {
		return List{one}
	}
	return nil
}
