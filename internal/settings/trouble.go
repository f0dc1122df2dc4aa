package settings

import (
	"foldwright/internal/machine"
	"foldwright/internal/units"
	"foldwright/internal/words"
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
	text       words.Text // of kind told
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
func (t trouble) say() words.Text {
	have, need := words.Fine(t.have), words.Fine(t.need)
	switch t.kind {
	case sheetLong:
		return words.T("the feeder takes sheets up to %s along the travel, this one is %s", have, need)
	case sheetShort:
		return words.T("the feeder takes sheets from %s along the travel, this one is %s", have, need)
	case sheetWide:
		return words.T("the feeder takes sheets up to %s across the travel, this one is %s", have, need)
	case sheetNarrow:
		return words.T("the feeder takes sheets from %s across the travel, this one is %s", have, need)
	case stackWide:
		return words.T("unit %d takes a stack up to %s wide, this one is %s", t.unit, have, need)
	case stackThick:
		return words.T("the nips of unit %d pass %s, %d layers are %s", t.unit, have, t.layers, need)
	case plateFar:
		return words.T("plate %d of unit %d reaches %s, fold %d needs %s", t.plate, t.unit, have, t.fold, need)
	case plateNear:
		return words.T("plate %d of unit %d stops no nearer than %s, fold %d needs %s", t.plate, t.unit, have, t.fold, need)
	case plateNone:
		return t.noPlate()
	case knifeFar:
		return words.T("the knife stop of unit %d reaches %s, fold %d needs %s", t.unit, have, t.fold, need)
	case knifeNear:
		return words.T("the knife stop of unit %d stops no nearer than %s, fold %d needs %s", t.unit, have, t.fold, need)
	case knifeDown:
		return words.T("unit %d is a knife and folds up only, fold %d goes down there", t.unit, t.fold)
	case knifeTwice:
		return words.T("unit %d is a knife and makes one fold, fold %d would be its second", t.unit, t.fold)
	case noPass:
		return words.T("the stack cannot pass unit %d without being folded there", t.unit)
	case noUnit:
		return words.T("fold %d needs a turn into a unit after unit %d, and the folder has none", t.fold, t.unit)
	}
	return t.text
}

// noPlate says which plate a fold lacks.
func (t trouble) noPlate() words.Text {
	switch {
	case t.up && t.plate == 0:
		return words.T("unit %d has no plate for fold %d: it needs one above, to fold it up", t.unit, t.fold)
	case t.up:
		return words.T("unit %d has no plate for fold %d: it needs one after plate %d above, to fold it up", t.unit, t.fold, t.plate)
	case t.plate == 0:
		return words.T("unit %d has no plate for fold %d: it needs one below, to fold it down", t.unit, t.fold)
	}
	return words.T("unit %d has no plate for fold %d: it needs one after plate %d below, to fold it down", t.unit, t.fold, t.plate)
}

// tell is the words for the troubles of a way; where the sheet is not fed as drawn the first says how.
func tell(feed Feed, list []trouble) words.Series {
	whys := make(words.Series, len(list))
	for i, t := range list {
		whys[i] = t.say()
	}
	if feed != (Feed{S0, Front}) {
		whys[0] = words.T("fed with edge %s leading, %s: %s", string(feed.Leading), feed.FaceUp.Words(), whys[0])
	}
	return whys
}

// overweight is the trouble of a stock that the feeder is not made for.
func overweight(f *machine.Feeder, is units.Grammage) trouble {
	limit, text := f.MinGrammage, words.T("the feeder takes stock from %s, this is %s", f.MinGrammage, is)
	if is > f.MinGrammage {
		limit, text = f.MaxGrammage, words.T("the feeder takes stock up to %s, this is %s", f.MaxGrammage, is)
	}
	return trouble{bad: short(units.Length(limit), units.Length(is)), text: text}
}
