package exchange

import "foldwright/internal/fault"

// FaultJSON is one fault as `check --json` prints it.
type FaultJSON struct {
	Line  int    `json:"line,omitempty"`
	Col   int    `json:"col,omitempty"`
	Field string `json:"field,omitempty"`
	Wrong string `json:"wrong"`
	Right string `json:"right,omitempty"`
	Code  string `json:"code"`
	// Bad tells faults of the file from jobs that cannot be folded, without which the rest can be planned.
	Bad bool `json:"bad"`
}

// CheckJSON is what `check --json` prints.
type CheckJSON struct {
	File   string      `json:"file"`
	Faults []FaultJSON `json:"faults"`
}

// Check gives the faults of a file the shape that is printed.
func Check(file string, found fault.List) CheckJSON {
	out := CheckJSON{File: file, Faults: make([]FaultJSON, len(found))}
	for i, f := range found {
		out.Faults[i] = FaultJSON{Line: f.Line, Col: f.Col, Field: f.Field, Wrong: f.Wrong, Right: f.Right, Code: string(f.Code), Bad: f.Kind != fault.No}
	}
	return out
}
