package ledger_test

import (
	"fmt"
	"math/bits"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/ledger"
)

// Goal: the moves give the order that is wanted, and no fewer could. Method: do them on a list; of a short list try every
// part that might stay.
func TestReorderingIsRightAndShort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 9).Draw(t, "things")
		have := make([]ledger.Tag, n)
		for i := range have {
			have[i] = ledger.Tag{Kind: ledger.OfJob, ID: fmt.Sprint("id ", i)}
		}
		want := rapid.Permutation(have).Draw(t, "wanted")
		edits := ledger.Reordering(have, want)
		list := slices.Clone(have)
		for _, e := range edits {
			list = slices.DeleteFunc(list, func(t ledger.Tag) bool { return t == e.Tag })
			at := len(list)
			if e.Ahead.ID != "" {
				at = slices.Index(list, e.Ahead)
			}
			list = slices.Insert(list, at, e.Tag)
		}
		if !slices.Equal(list, want) {
			t.Fatalf("got %v, want %v", list, want)
		}
		if most := mostStaying(have, want); len(edits) != n-most {
			t.Fatalf("%d moves where %d of %d things can stay", len(edits), most, n)
		}
	})
}

// mostStaying tries every set of things that might not be moved.
func mostStaying(have, want []ledger.Tag) (most int) {
	for set := range 1 << len(want) {
		last, rising := -1, true
		for i, t := range want {
			if set>>i&1 == 1 {
				at := slices.Index(have, t)
				rising = rising && at > last
				last = at
			}
		}
		if rising {
			most = max(most, bits.OnesCount(uint(set)))
		}
	}
	return most
}
