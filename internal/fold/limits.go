package fold

import (
	"fmt"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// The limits below keep every sum inside 64 bits and every answer inside a second. They are far beyond any folder.
const (
	maxSide        = 10 * units.Metre // of a sheet; ten metres in nm × maxDenominator = 10¹⁶, below 2⁶³ ≈ 9·10¹⁸
	maxDenominator = 1_000_000        // of a depth, and of all depths of a scheme together
	maxSteps       = 64
	maxFolds       = 16
	maxPanels      = 1024
)

// Codes of the faults of this room.
const (
	codeSheet     fault.Code = "sheet-size"       // a side of the sheet is nothing or absurd
	codeDepth     fault.Code = "fold-depth"       // the fold line is not inside the stack
	codeShare     fault.Code = "fold-share"       // a share or allowance that is no number to reckon with
	codeLimit     fault.Code = "fold-limit"       // more steps, folds or panels than are reckoned with
	codeNotation  fault.Code = "fold-notation"    // the text is no scheme
	codeName      fault.Code = "fold-name"        // no such name in the catalogue
	codeDirection fault.Code = "fold-direction"   // a name whose up and down nobody knows
	codeTrim      fault.Code = "fold-trim"        // trims that leave nothing
	codePages     fault.Code = "fold-pages"       // a folio map that is none
	codeNoScheme  fault.Code = "fold-none"        // no scheme gives this folio map
	codeManyPages fault.Code = "fold-pages-vague" // a folio map with too many answers
)

func bad(code fault.Code, field, wrong, right string) fault.Fault {
	return fault.Fault{Kind: fault.Input, Code: code, Field: field, Wrong: wrong, Right: right}
}

func stepField(i int) string { return fmt.Sprintf("step %d", i+1) }

// check refuses what cannot be reckoned with at all; whether a depth is inside the stack is for Apply to see.
func (s Scheme) check(sheet Sheet) error {
	var faults fault.List
	for _, side := range []struct {
		name string
		l    units.Length
	}{{"length", sheet.Length}, {"width", sheet.Width}} {
		if side.l <= 0 || side.l > maxSide {
			faults.Add(bad(codeSheet, "sheet "+side.name, mm(side.l)+" is no side of a sheet", "more than 0 and at most "+mm(maxSide)))
		}
	}
	if n := len(s.Steps); n > maxSteps {
		faults.Add(bad(codeLimit, "scheme", fmt.Sprintf("%d steps", n), fmt.Sprintf("at most %d", maxSteps)))
		return faults
	}
	if n := s.Folds(); n > maxFolds {
		faults.Add(bad(codeLimit, "scheme", fmt.Sprintf("%d folds", n), fmt.Sprintf("at most %d", maxFolds)))
	}
	for i, st := range s.Steps {
		if f, ok := st.check(); !ok {
			f.Field = stepField(i)
			faults.Add(f)
		}
	}
	if s.Lap < -maxSide || s.Lap > maxSide {
		faults.Add(bad(codeShare, "lap", mm(s.Lap)+" is no lap", "a few millimetres; negative when the other half is to stand out"))
	}
	return faults.Err()
}

func (st Step) check() (f fault.Fault, ok bool) {
	if st.Op < Up || st.Op > Right {
		return bad(codeShare, "", "neither a fold nor a turn", "up, down, left or right"), false
	}
	if !st.Op.IsFold() {
		return f, true
	}
	return st.Depth.check()
}

func (d Depth) check() (f fault.Fault, ok bool) {
	share, plus := d.Share.norm(), d.Plus.norm()
	switch {
	case share.Den < 1 || share.Den > maxDenominator || share.Num < 0 || share.Num > share.Den:
		return bad(codeShare, "", fmt.Sprintf("share %d/%d", share.Num, share.Den),
			fmt.Sprintf("a fraction between 0 and 1 with a denominator of at most %d", maxDenominator)), false
	case plus.Den < 1 || plus.Den > maxDenominator || plus.Num > int64(maxSide)*plus.Den || plus.Num < -int64(maxSide)*plus.Den:
		return bad(codeShare, "", "a depth of absurd size", "at most "+mm(maxSide)), false
	}
	return f, true
}
