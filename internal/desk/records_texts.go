package desk

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// How much a record may hold: the note of a long night, and more places than any folder has. Lists of records are read whole.
const (
	docketMost = 60 // letters, as the name of a job
	noteMost   = 2000
	placesMost = 500
	whereMost  = 100
)

// recordTexts holds what is written in a record to what a docket is called and what people have to say.
func recordTexts(r ledger.Record) (list fault.List) {
	no := func(field, wrong, right string) {
		list.Add(fault.Fault{Kind: fault.Input, Code: CodeRecord, Field: field, Wrong: wrong, Right: right})
	}
	switch {
	case r.Job == "":
		no("job", "no job is named", "the number of the docket")
	case utf8.RuneCountInString(r.Job) > docketMost, !written(r.Job, ""):
		no("job", "no docket is called so", fmt.Sprintf("the number of the docket, at most %d letters", docketMost))
	}
	for field, text := range map[string]string{"disturbed": r.Disturbed, "note": r.Note} {
		if utf8.RuneCountInString(text) > noteMost || !written(text, "\n\r\t") {
			no(field, "it is too long, or holds signs that nobody writes", fmt.Sprintf("at most %d letters of plain text", noteMost))
		}
	}
	slices.SortFunc(list, func(a, b fault.Fault) int { return strings.Compare(a.Field, b.Field) })
	for _, p := range []struct {
		field string
		at    []ledger.AsRun
	}{{"plates", r.Plates}, {"tools", r.Tools}} {
		long := func(a ledger.AsRun) bool { return utf8.RuneCountInString(a.Where) > whereMost || !written(a.Where, "") }
		if len(p.at) > placesMost || slices.ContainsFunc(p.at, long) {
			no(p.field, "these are no places of a folder", fmt.Sprintf("at most %d, each named in at most %d letters", placesMost, whereMost))
		}
	}
	return list
}

// written says whether a text is one that people write: no signs for machines, but for those that are let through.
func written(text, besides string) bool {
	return utf8.ValidString(text) && !strings.ContainsFunc(text, func(c rune) bool { return unicode.IsControl(c) && !strings.ContainsRune(besides, c) })
}
