package fold

import "cmp"

// Ratios here stay small: numerators of shares below a million, lengths below ten metres in nanometres, denominators
// below a million (see limits.go). Products of two such numbers fit in 64 bits; nothing below needs more.

// ratio makes a fraction in lowest terms with a positive denominator.
func ratio(num, den int64) Ratio {
	if den < 0 {
		num, den = -num, -den
	}
	if g := gcd(num, den); g > 1 {
		num, den = num/g, den/g
	}
	return Ratio{num, den}
}

// norm gives the zero value of a Ratio its meaning, 0/1.
func (r Ratio) norm() Ratio {
	if r.Den == 0 && r.Num == 0 {
		return Ratio{0, 1}
	}
	return r
}

// IsZero tells whether the ratio is 0.
func (r Ratio) IsZero() bool { return r.Num == 0 }

func (r Ratio) add(o Ratio) Ratio {
	r, o = r.norm(), o.norm()
	g := gcd(r.Den, o.Den)
	return ratio(r.Num*(o.Den/g)+o.Num*(r.Den/g), r.Den/g*o.Den)
}

func (r Ratio) sub(o Ratio) Ratio { return r.add(Ratio{-o.Num, o.Den}) }

func (r Ratio) mul(o Ratio) Ratio {
	r, o = r.norm(), o.norm()
	// Cross-cancelling first keeps the products small.
	g, h := max(gcd(r.Num, o.Den), 1), max(gcd(o.Num, r.Den), 1)
	return ratio((r.Num/g)*(o.Num/h), (r.Den/h)*(o.Den/g))
}

func (r Ratio) cmp(o Ratio) int {
	r, o = r.norm(), o.norm()
	return cmp.Compare(r.Num*o.Den, o.Num*r.Den)
}

// times gives r·n; n must be a multiple of the denominator.
func (r Ratio) times(n int64) int64 {
	r = r.norm()
	return r.Num * (n / r.Den)
}

func gcd(a, b int64) int64 {
	if a < 0 {
		a = -a
	}
	if b < 0 {
		b = -b
	}
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func lcm(a, b int64) int64 { return a / gcd(a, b) * b }
