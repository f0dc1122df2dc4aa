package exchange

import (
	"fmt"
	"net/http"
	"slices"

	"foldwright/internal/fault"
)

// ProblemMedia is the media type of a [ProblemDocument].
const ProblemMedia = "application/problem+json"

// ProblemPage is where the faults are explained; the code of one is an anchor on it.
const ProblemPage = "/docs/faults"

// ProblemDocument says over HTTP what is wrong (RFC 9457). Its type leads to the page that explains the code.
type ProblemDocument struct {
	Type   string         `json:"type"`
	Title  string         `json:"title"`
	Status int            `json:"status"`
	Detail string         `json:"detail,omitempty"` // the first fault, in words
	Errors []ProblemFault `json:"errors,omitempty"`
}

// ProblemFault is one of the faults. A line is told when the input was a file.
type ProblemFault struct {
	Field string `json:"field,omitempty"`
	Line  int    `json:"line,omitempty"`
	Col   int    `json:"col,omitempty"`
	Wrong string `json:"wrong"`
	Right string `json:"right,omitempty"`
	Code  string `json:"code"`
}

// Problem gives an error the shape in which the API answers it. It is the one place where a [fault.Kind] becomes a status.
// What is no fault is the program's own, and nobody's to read.
func Problem(err error) ProblemDocument {
	found := fault.All(err)
	if len(found) == 0 {
		return ProblemDocument{Type: "about:blank", Title: http.StatusText(http.StatusInternalServerError), Status: http.StatusInternalServerError}
	}
	kind := gravest(found)
	doc := ProblemDocument{Type: typeOf(found), Title: titles[kind], Status: statuses[kind], Detail: detailOf(found)}
	for _, f := range found {
		doc.Errors = append(doc.Errors, ProblemFault{Field: f.Field, Line: f.Line, Col: f.Col, Wrong: f.Wrong, Right: f.Right, Code: string(f.Code)})
	}
	return doc
}

var statuses = [...]int{
	fault.Input:    http.StatusUnprocessableEntity,
	fault.No:       http.StatusUnprocessableEntity, // as an answer to a question it never comes here
	fault.Missing:  http.StatusNotFound,
	fault.Conflict: http.StatusConflict,
	fault.Denied:   http.StatusForbidden,
}

var titles = [...]string{
	fault.Input:    "The input is wrong",
	fault.No:       "The answer is no",
	fault.Missing:  "There is no such thing",
	fault.Conflict: "Somebody else changed it first",
	fault.Denied:   "This is not allowed",
}

// gravest is the kind that decides the answer: as long as anything of the input is wrong, mending it comes first; only
// what was denied goes before.
func gravest(found fault.List) fault.Kind {
	for _, kind := range []fault.Kind{fault.Denied, fault.Input} {
		if slices.ContainsFunc(found, func(f fault.Fault) bool { return f.Kind == kind }) {
			return kind
		}
	}
	return found[0].Kind
}

// typeOf leads to the code, or to the page when there are several.
func typeOf(found fault.List) string {
	code := found[0].Code
	if code == "" || slices.ContainsFunc(found, func(f fault.Fault) bool { return f.Code != code }) {
		return ProblemPage
	}
	return ProblemPage + "#" + string(code)
}

// detailOf is the first fault in words, without its code, which stands in the type.
func detailOf(found fault.List) string {
	f := found[0]
	first := fault.Fault{File: f.File, Line: f.Line, Col: f.Col, Field: f.Field, Wrong: f.Wrong, Right: f.Right}
	switch more := len(found) - 1; more {
	case 0:
		return first.Error()
	case 1:
		return first.Error() + " (and one more)"
	default:
		return fmt.Sprintf("%s (and %d more)", first, more)
	}
}
