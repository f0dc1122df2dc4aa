package job

import (
	"testing"

	"foldwright/internal/units"
	"foldwright/internal/words"

	"pgregory.net/rapid"
)

// In English and millimetres Words is what String writes, but for lengths of more than three decimals.
func TestWordsAreTheOperation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		op := randomOperation(t)
		op.At = op.At / units.Micrometre * units.Micrometre
		if got := op.Words().String(); got != op.String() {
			t.Fatalf("%q, should be %q", got, op)
		}
	})
}

func TestOperationInOtherWords(t *testing.T) {
	for _, c := range []struct {
		lang        words.Lang
		inch        bool
		text        string
		full, short string
	}{
		{words.English, false, "perforate fold 2 with 12 tpi", "perforate fold 2 with 12 tpi", "fold 2"},
		{words.English, false, "slit at t 305.25 strip 6 mm two-up", "slit at t 305.25 mm strip 6 mm two-up", "slit at t 305.25"},
		{words.English, true, "slit at s 317.5 mm", "slit at s 12 1/2 in", "slit at s 12 1/2"},
		{words.English, true, "trim 3.175 mm at the fore edge", "trim 1/8 in at the front", "trim front"},
		{words.German, false, "score fold 3 with 0.7 mm", "Rillen, Bruch 3, mit 0.7 mm", "Bruch 3"},
		{words.German, false, "trim 3.5 mm at the head", "Kopfbeschnitt 3,5 mm", "Kopfbeschnitt"},
		{words.Spanish, false, "perforate fold 2", "perforado, pliegue 2", "pliegue 2"},
		{words.French, false, "trim 3 mm at the fore edge", "rogne de gouttière 3 mm", "rogne de gouttière"},
	} {
		op, err := ParseOperation(c.text, mm)
		if err != nil {
			t.Fatal(err)
		}
		say := words.NewSpeaker(c.lang, c.inch)
		if full, short := say.Text(op.Words()), say.Text(op.Short()); full != c.full || short != c.short {
			t.Errorf("%s, %s: %q and %q, should be %q and %q", c.text, c.lang, full, short, c.full, c.short)
		}
	}
}
