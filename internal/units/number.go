package units

import (
	"math/big"
	"regexp"
	"strings"
)

// The grammar of numbers. A mixed number takes its fraction after a space or a hyphen, as inches are written.
var (
	mixed   = regexp.MustCompile(`^(?:(\d+)(?: |- ?))?(\d+) ?/ ?(\d+)`)
	decimal = regexp.MustCompile(`^(\d*)(?:([.,])(\d+))?`)
)

// plain turns the signs that keyboards, spreadsheets and word processors produce into the ones of the grammar.
var plain = strings.NewReplacer(
	"½", " 1/2 ", "⅓", " 1/3 ", "⅔", " 2/3 ", "¼", " 1/4 ", "¾", " 3/4 ", "⅕", " 1/5 ", "⅖", " 2/5 ", "⅗", " 3/5 ",
	"⅘", " 4/5 ", "⅙", " 1/6 ", "⅚", " 5/6 ", "⅛", " 1/8 ", "⅜", " 3/8 ", "⅝", " 5/8 ", "⅞", " 7/8 ",
	"⁄", "/", "−", "-", "µ", "u", "μ", "u", "²", "2", "″", `"`, "”", `"`, "''", `"`,
)

// digitsMost is the most digits one part of a number may have: more is a slip of the keyboard, and the bound keeps
// hostile input cheap.
const digitsMost = 12

// tidy prepares a text for reading: plain signs, lower case, single spaces.
func tidy(text string) string {
	return strings.Join(strings.Fields(strings.ToLower(plain.Replace(text))), " ")
}

// number reads an unsigned number at the start of a tidy text and returns what follows it. When there is none, or it can
// be read two ways, wrong says so.
func number(text string) (value *big.Rat, rest, wrong string) {
	if m := mixed.FindStringSubmatch(text); m != nil {
		value, wrong = fraction(m[1], m[2], m[3])
		return value, strings.TrimSpace(text[len(m[0]):]), wrong
	}
	m := decimal.FindStringSubmatch(text)
	value, wrong = decimals(m[1], m[2], m[3])
	return value, strings.TrimSpace(text[len(m[0]):]), wrong
}

// fraction makes a number of the parts of a mixed number; whole may be empty.
func fraction(whole, numerator, denominator string) (*big.Rat, string) {
	if max(len(whole), len(numerator), len(denominator)) > digitsMost {
		return nil, "has too many digits"
	}
	top, bottom := integer(numerator), integer(denominator)
	if bottom.Sign() == 0 {
		return nil, "divides by zero"
	}
	if whole != "" && top.Cmp(bottom) >= 0 {
		return nil, "has a fraction that is not below one"
	}
	value := new(big.Rat).SetFrac(top, bottom)
	return value.Add(value, new(big.Rat).SetInt(integer(whole))), ""
}

// decimals makes a number of its parts. A decimal comma before exactly three digits might part thousands just as well.
func decimals(whole, mark, parts string) (*big.Rat, string) {
	switch {
	case whole == "" && parts == "":
		return nil, "does not start with a number"
	case max(len(whole), len(parts)) > digitsMost:
		return nil, "has too many digits"
	case mark == "," && len(parts) == 3 && strings.Trim(whole, "0") != "":
		return nil, "can be read two ways, as " + whole + parts + " or as " + whole + "." + parts
	}
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(parts))), nil)
	return new(big.Rat).SetFrac(integer(whole+parts), scale), ""
}

// integer reads digits; none are zero.
func integer(digits string) *big.Int {
	n, ok := new(big.Int).SetString("0"+digits, 10)
	if !ok {
		panic("units: the grammar let something through that is no digit: " + digits)
	}
	return n
}

// nearest rounds to a whole number, halves away from zero; ok is false when its size exceeds most.
func nearest(value *big.Rat, most int64) (n int64, ok bool) {
	size := new(big.Rat).Abs(value)
	if size.Cmp(new(big.Rat).SetInt64(most)) > 0 {
		return 0, false
	}
	size.Add(size, big.NewRat(1, 2))
	n = new(big.Int).Quo(size.Num(), size.Denom()).Int64()
	if value.Sign() < 0 {
		n = -n
	}
	return n, true
}
