package schedule

import "slices"

// filter learns from the moves that paid how much more set-up such moves cost, and then refuses to look at moves that cost
// more than nine in ten of them did (the idea: Subramanian and Farias 2017). Few moves are left to be priced.
type filter struct {
	most    Time // what passes
	samples []Time
}

const enoughSamples = 200

func newFilter() filter { return filter{most: Forever} }

// note takes a move that paid.
func (f *filter) note(setups Time) {
	if f.most < Forever {
		return
	}
	if f.samples = append(f.samples, setups); len(f.samples) == enoughSamples {
		slices.Sort(f.samples)
		f.most, f.samples = f.samples[enoughSamples*9/10], nil
	}
}
