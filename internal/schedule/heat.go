package schedule

import "math/rand/v2"

// slip is how much more a change may cost this time: exponentially distributed with the heat as its mean, in whole
// numbers (one × ln 2 = 710). Heat is times one.
func slip(rng *rand.Rand, heat int64) int64 {
	const width = 20
	bits := width*one - log2(1+rng.Int64N(1<<width))
	return heat * bits / one * 710 / one / one
}

// cool is the heat when a part of a round is spent, times one: it falls by the same factor in equal parts.
func cool(first, last, part int64) int64 {
	if first <= 0 {
		return 0
	}
	from, to := log2(first), log2(max(1, last))
	at := from + (to-from)*part/one
	return (one + at%one) << (at / one) / one
}
