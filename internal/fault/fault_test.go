package fault_test

import (
	"errors"
	"fmt"
	"testing"

	"foldwright/internal/fault"
)

func TestFaultAsOneLine(t *testing.T) {
	full := fault.Fault{Code: "plate-range", File: "shop.yaml", Line: 12, Col: 7, Field: "folders[0].plates[1]", Wrong: "least 480 mm, most 80 mm", Right: "let the least come first"}
	for want, f := range map[string]fault.Fault{
		"shop.yaml:12:7: folders[0].plates[1]: least 480 mm, most 80 mm; let the least come first [plate-range]": full,
		"12: a line":                                    {Line: 12, Wrong: "a line"},
		"shop.yaml: the whole file [file-size]":         {File: "shop.yaml", Code: "file-size", Wrong: "the whole file"},
		"depth: 700 mm is too deep; at most 430 mm":     {Field: "depth", Wrong: "700 mm is too deep", Right: "at most 430 mm"},
		"a column without a line says nothing [code]":   {Col: 7, Code: "code", Wrong: "a column without a line says nothing"},
		"the answer is no; no folder is this wide [no]": {Kind: fault.No, Code: "no", Wrong: "the answer is no", Right: "no folder is this wide"},
	} {
		if got := f.Error(); got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
	}
}

func TestListKeepsTheOrderOfTheInput(t *testing.T) {
	var list fault.List
	if list.Err() != nil {
		t.Error("an empty list is an error")
	}
	list.Add(fault.Fault{Wrong: "first"})
	list.Add(fault.Fault{Wrong: "second"})
	if got := list.Err().Error(); got != "first\nsecond" {
		t.Errorf("got %q", got)
	}
}

// TestAllFindsFaultsHoweverWrapped, and nothing in errors that are not the user's.
func TestAllFindsFaultsHoweverWrapped(t *testing.T) {
	one := fault.Fault{Wrong: "one"}
	list := fault.List{one, {Wrong: "two"}}
	for name, c := range map[string]struct {
		err  error
		want int
	}{
		"nothing": {nil, 0}, "one": {one, 1}, "list": {list, 2},
		"wrapped": {fmt.Errorf("settings of job 4711: %w", one), 1}, "wrapped list": {fmt.Errorf("reading: %w", list), 2},
		"internal": {errors.New("the disk is full"), 0},
	} {
		if got := fault.All(c.err); len(got) != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}
