package settings

import (
	"fmt"
	"strings"

	"foldwright/internal/machine"
	"foldwright/internal/units"
)

// trouble is one limit that a way does not fit. Figures come first and words are only made for the way that is told,
// because most ways fail early and often.
type trouble struct {
	kind       troubleKind
	bad        float64 // how far from fitting; 1 = nothing like it is there
	unit       int     // from 1
	plate      int
	fold       int
	layers     int
	up         bool
	have, need units.Length
	text       string // of kind told
}

type troubleKind uint8

const (
	told troubleKind = iota
	sheetLong
	sheetShort
	sheetWide
	sheetNarrow
	stackWide
	stackThick
	plateFar
	plateNear
	plateNone
	knifeFar
	knifeNear
	knifeDown
	knifeTwice
	noPass
	noUnit
)

// nothingLike is the badness of a missing thing; a thing that is there but does not reach is better than none.
const nothingLike = 1

// short is the badness of a limit that is missed by some figures: little when little is missing, never as bad as nothing.
func short(have, need units.Length) float64 {
	out := have - need
	if out < 0 {
		out = -out
	}
	return 0.1 + 0.8*min(1, float64(out)/float64(max(have, need, 1)))
}

// say gives the words.
func (t trouble) say(h *House) string {
	have, need := h.say(t.have), h.say(t.need)
	hand := "below, to fold it down"
	if t.up {
		hand = "above, to fold it up"
	}
	switch t.kind {
	case sheetLong:
		return fmt.Sprintf("the feeder takes sheets up to %s along the travel, this one is %s", have, need)
	case sheetShort:
		return fmt.Sprintf("the feeder takes sheets from %s along the travel, this one is %s", have, need)
	case sheetWide:
		return fmt.Sprintf("the feeder takes sheets up to %s across the travel, this one is %s", have, need)
	case sheetNarrow:
		return fmt.Sprintf("the feeder takes sheets from %s across the travel, this one is %s", have, need)
	case stackWide:
		return fmt.Sprintf("unit %d takes a stack up to %s wide, this one is %s", t.unit, have, need)
	case stackThick:
		return fmt.Sprintf("the nips of unit %d pass %s, %d layers are %s", t.unit, have, t.layers, need)
	case plateFar:
		return fmt.Sprintf("plate %d of unit %d reaches %s, fold %d needs %s", t.plate, t.unit, have, t.fold, need)
	case plateNear:
		return fmt.Sprintf("plate %d of unit %d stops no nearer than %s, fold %d needs %s", t.plate, t.unit, have, t.fold, need)
	case plateNone:
		after := ""
		if t.plate > 0 {
			after = fmt.Sprintf(" after plate %d", t.plate)
		}
		return fmt.Sprintf("unit %d has no plate for fold %d: it needs one%s %s", t.unit, t.fold, after, hand)
	case knifeFar:
		return fmt.Sprintf("the knife stop of unit %d reaches %s, fold %d needs %s", t.unit, have, t.fold, need)
	case knifeNear:
		return fmt.Sprintf("the knife stop of unit %d stops no nearer than %s, fold %d needs %s", t.unit, have, t.fold, need)
	case knifeDown:
		return fmt.Sprintf("unit %d is a knife and folds up only, fold %d goes down there", t.unit, t.fold)
	case knifeTwice:
		return fmt.Sprintf("unit %d is a knife and makes one fold, fold %d would be its second", t.unit, t.fold)
	case noPass:
		return fmt.Sprintf("the stack cannot pass unit %d without being folded there", t.unit)
	case noUnit:
		return fmt.Sprintf("fold %d needs a turn into a unit after unit %d, and the folder has none", t.fold, t.unit)
	}
	return t.text
}

// tell strings the troubles of a way together; where the sheet is not fed as drawn it says how.
func tell(h *House, feed Feed, list []trouble) string {
	words := make([]string, len(list))
	for i, t := range list {
		words[i] = t.say(h)
	}
	text := strings.Join(words, "; ")
	if feed != (Feed{S0, Front}) {
		text = fmt.Sprintf("fed with edge %s leading, %s up: %s", feed.Leading, feed.FaceUp, text)
	}
	return text
}

// overweight is the trouble of a stock that the feeder is not made for.
func overweight(f *machine.Feeder, is units.Grammage) trouble {
	limit, text := f.MinGrammage, "the feeder takes stock from %g g/m², this is %g g/m²"
	if is > f.MinGrammage {
		limit, text = f.MaxGrammage, "the feeder takes stock up to %g g/m², this is %g g/m²"
	}
	return trouble{bad: short(units.Length(limit), units.Length(is)), text: fmt.Sprintf(text, limit.G(), is.G())}
}
