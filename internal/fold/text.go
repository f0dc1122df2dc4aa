package fold

import (
	"strconv"
	"strings"

	"foldwright/internal/units"
)

// mm writes a length for people: millimetres with at most three decimals.
func mm(l units.Length) string { return units.FormatMM(l) + " mm" }

// String gives the op as the notation has it.
func (o Op) String() string {
	switch o {
	case Up:
		return "up"
	case Down:
		return "down"
	case Left:
		return "left"
	case Right:
		return "right"
	}
	return "op " + strconv.Itoa(int(o))
}

// String gives "up" or "down".
func (f Face) String() string {
	if f == FaceDown {
		return "down"
	}
	return "up"
}

// String gives the steps in the notation that [Parse] reads; what came from Parse reads back exactly. The first folio,
// the lap and the trims are not part of the notation.
func (s Scheme) String() string {
	var b strings.Builder
	for i, st := range s.Steps {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(st.String())
	}
	return b.String()
}

// String gives the step in the notation: "up 1/2 + 5 mm", "left".
func (st Step) String() string {
	if !st.Op.IsFold() {
		return st.Op.String()
	}
	return st.Op.String() + " " + st.Depth.String()
}

// String gives the depth in the notation: "1/2", "210 mm", "1/2 - 2/3 mm". Every digit is kept.
func (d Depth) String() string {
	share, plus := d.Share.norm(), d.Plus.norm()
	switch {
	case share.IsZero():
		return exactMM(plus)
	case plus.IsZero():
		return share.String()
	case plus.Num < 0:
		return share.String() + " - " + exactMM(Ratio{-plus.Num, plus.Den})
	}
	return share.String() + " + " + exactMM(plus)
}

// String gives "1/2"; a whole number too is written as a fraction, because a bare whole number means millimetres.
func (r Ratio) String() string {
	r = r.norm()
	return strconv.FormatInt(r.Num, 10) + "/" + strconv.FormatInt(r.Den, 10)
}

// exactMM writes nanometres as millimetres: as a decimal when it is whole nanometres, else as a fraction.
func exactMM(nm Ratio) string {
	if nm.Den == 1 {
		return units.Length(nm.Num).Exact()
	}
	g := gcd(nm.Num, int64(units.Millimetre)) // before multiplying: 10⁶ · 10⁶ would still fit, but only just look right
	return ratio(nm.Num/g, nm.Den*(int64(units.Millimetre)/g)).String() + " mm"
}

// String gives "s" or "t".
func (a Axis) String() string {
	if a == T {
		return "t"
	}
	return "s"
}

// String gives "s+", "s-", "t+" or "t-"; nothing when there are no heads.
func (h Head) String() string { return [...]string{"", "s+", "s-", "t+", "t-"}[h] }

// String gives "valley" or "mountain".
func (b Bend) String() string {
	if b == Mountain {
		return "mountain"
	}
	return "valley"
}

// String gives the edge in words.
func (e Edge) String() string { return [...]string{"leading", "trailing", "left", "right"}[e] }
