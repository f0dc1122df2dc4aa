package units

import (
	"fmt"
	"math/big"
	"strings"
)

// FormatMM gives the length in millimetres without the unit, to at most three decimals: 860, 215.9, 286.667.
func FormatMM(l Length) string { return decimalText(big.NewRat(int64(l), int64(Millimetre)), 3) }

// Format gives the length for people: millimetres to at most three decimals, or inches as a fraction when a multiple of
// 1/64 in says it exactly and else to three decimals, so that a fraction never hides a rounding.
func (l Length) Format(inch bool) string {
	if !inch {
		return FormatMM(l) + " mm"
	}
	if text, exact := l.Fraction(); exact {
		return text + " in"
	}
	return decimalText(big.NewRat(int64(l), int64(Inch)), 3) + " in"
}

// Exact gives the length in millimetres with as many decimals as it takes, so that it reads back as the same value.
func (l Length) Exact() string {
	return decimalText(big.NewRat(int64(l), int64(Millimetre)), 6) + " mm"
}

// Fraction gives the length in inches to the nearest 1/64, halves away from zero, in lowest terms and without the unit:
// 8 1/2, -3/8, 23. It is exact when nothing was rounded.
func (l Length) Fraction() (text string, exact bool) {
	const sixtyFourth = Inch / 64
	size, sign := l, ""
	if l < 0 {
		size, sign = -l, "-"
	}
	n := int64((size + sixtyFourth/2) / sixtyFourth)
	exact = Length(n)*sixtyFourth == size
	if n == 0 {
		return "0", exact
	}
	return sign + mixedText(n), exact
}

// mixedText writes a number of 64ths in lowest terms.
func mixedText(n int64) string {
	whole, top := n/64, n%64
	if top == 0 {
		return fmt.Sprint(whole)
	}
	part := big.NewRat(top, 64).String()
	if whole == 0 {
		return part
	}
	return fmt.Sprintf("%d %s", whole, part)
}

// FormatMicrons gives a thickness in whole micrometres, or in thousandths of an inch to one decimal.
func FormatMicrons(l Length, inch bool) string {
	if inch {
		return decimalText(big.NewRat(1000*int64(l), int64(Inch)), 1) + " pt"
	}
	return decimalText(big.NewRat(int64(l), int64(Micrometre)), 0) + " µm"
}

// decimalText writes a number to at most so many decimals, halves away from zero, without trailing zeros.
func decimalText(value *big.Rat, decimals int) string {
	text := value.FloatString(decimals)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}
