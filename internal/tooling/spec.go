package tooling

import (
	"fmt"
	"math/big"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// The codes of what can be wrong with the text of a tool.
const (
	CodeKind fault.Code = "tool-kind"
	CodeSpec fault.Code = "tool-spec"
	CodeTool fault.Code = "tool"
)

// Kinds lists the kinds of tool.
func Kinds() []Kind { return []Kind{Slit, Strip, Perforate, Score} }

// Limits of what a spec can be; beyond them a figure is a slip of the pen.
const (
	minTeeth, maxTeeth = 1, 200 // to the inch

	maxStrip  = 200 * units.Millimetre
	maxEdge   = 10 * units.Millimetre
	maxCutTie = 100 * units.Millimetre
)

// ParseSpec reads the spec of a tool and writes it in one way, so that equal tools compare equal: teeth to the inch or
// cut/tie for [Perforate] ("12 tpi", "10/6 mm"), the thickness of the edge for [Score] ("0.7 mm", "2 pt": here pt is
// 1/72 in, as creasing edges are sold), the width of the strip for [Strip]; none for [Slit]. Only a strip must have one:
// a shop with one sort of perforating wheel need not name it. A bare length is in the unit bare.
func ParseSpec(kind Kind, text string, bare units.Length) (string, error) {
	text = strings.ToLower(strings.Join(strings.Fields(text), " "))
	switch {
	case text == "" && kind == Strip:
		return "", badSpec("a strip without a width", "write the width, such as strip 6 mm")
	case text == "":
		return "", nil
	case kind == Slit:
		return "", badSpec(fmt.Sprintf("a slit has no spec, and %q is one", clip(text)), "write slit alone")
	case kind == Perforate:
		return parseTeeth(text, bare)
	case kind == Score:
		return parseWidth("edge", text, bare, maxEdge)
	default:
		return parseWidth("strip", text, bare, maxStrip)
	}
}

func parseWidth(what, text string, bare, most units.Length) (string, error) {
	l, err := units.ParseLength(text, bare)
	if err != nil {
		return "", err
	}
	if l <= 0 || l > most {
		return "", badSpec(fmt.Sprintf("%s of %s", what, units.FormatMM(l)+" mm"),
			fmt.Sprintf("more than 0 and at most %s mm", units.FormatMM(most)))
	}
	return l.Exact(), nil
}

// parseTeeth reads "12 tpi" or "10/6 mm". A slash always parts cut and tie; fractions of an inch are written as decimals
// there.
func parseTeeth(text string, bare units.Length) (string, error) {
	if number, ok := strings.CutSuffix(text, "tpi"); ok {
		return parseCount(strings.TrimSpace(number))
	}
	cut, tie, ok := strings.Cut(text, "/")
	if !ok {
		return "", badSpec(fmt.Sprintf("%q is no perforation", clip(text)), "write teeth to the inch or cut/tie, such as 12 tpi or 10/6 mm")
	}
	tieLength, err := units.ParseLength(tie, bare)
	if err != nil {
		return "", err
	}
	cutLength, err := units.ParseLength(withUnitOf(cut, tie), bare)
	if err != nil {
		return "", err
	}
	if min(cutLength, tieLength) <= 0 || max(cutLength, tieLength) > maxCutTie {
		return "", badSpec(fmt.Sprintf("cut and tie of %s", text), fmt.Sprintf("each more than 0 and at most %s mm", units.FormatMM(maxCutTie)))
	}
	return strings.TrimSuffix(cutLength.Exact(), " mm") + "/" + tieLength.Exact(), nil
}

// withUnitOf gives the cut the unit that stands once, after the tie: 10/6 mm is 10 mm / 6 mm.
func withUnitOf(cut, tie string) string {
	if strings.ContainsFunc(cut, isLetter) {
		return cut
	}
	return cut + " " + strings.TrimLeftFunc(tie, func(r rune) bool { return !isLetter(r) })
}

func isLetter(r rune) bool { return r >= 'a' && r <= 'z' || r == '"' || r == 'µ' || r == 'μ' }

func parseCount(text string) (string, error) {
	n, ok := new(big.Rat).SetString(strings.Replace(text, ",", ".", 1))
	if !ok || len(text) > 12 || strings.ContainsFunc(text, func(r rune) bool { return (r < '0' || r > '9') && r != '.' && r != ',' }) {
		return "", badSpec(fmt.Sprintf("%q is no number of teeth", clip(text)), "write teeth to the inch, such as 12 tpi")
	}
	if n.Cmp(big.NewRat(minTeeth, 1)) < 0 || n.Cmp(big.NewRat(maxTeeth, 1)) > 0 {
		return "", badSpec(fmt.Sprintf("%s teeth to the inch", clip(text)), fmt.Sprintf("%d to %d", minTeeth, maxTeeth))
	}
	decimals := n.FloatString(3)
	return strings.TrimRight(strings.TrimRight(decimals, "0"), ".") + " tpi", nil
}

func badSpec(wrong, right string) fault.Fault {
	return fault.Fault{Kind: fault.Input, Code: CodeSpec, Wrong: wrong, Right: right}
}

// clip keeps a message short whatever was typed.
func clip(text string) string {
	if r := []rune(text); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return text
}
