package settings

import (
	"cmp"
	"math"
	"slices"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/paper"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// Advice holds the thresholds of the notes. A shop changes what it knows better; a threshold of zero silences its note.
type Advice struct {
	ScoreAcross  units.Grammage // score folds across the grain from this grammage
	ScoreAlong   units.Grammage // and along the grain, or where the grain is not known
	ScoreCoated  units.Grammage // and on coated stock in any direction
	PierceLayers int            // perforate the closed head when so many layers or more go into the last fold
	MostLayers   []LayersLimit  // how many layers a stock folds to; ascending grammage
	Creep        units.Length   // speak of creep from so much
	CreepRound   float64        // between 1 for a dead-sharp fold and π/2 for a round one
	GrooveAlong  float64        // groove of a score = this × caliper + edge of the wheel, along the grain
	GrooveAcross float64        // and across it
}

// LayersLimit says that stock up to a grammage folds well to so many layers.
type LayersLimit struct {
	UpTo   units.Grammage
	Layers int
}

// DefaultAdvice gives the usual thresholds. Published guides for scoring disagree, from 115 to 200 g/m²; the numbers of
// layers and of layers to perforate are common practice, no source; the factor of creep lies between its two bounds.
func DefaultAdvice() Advice {
	const g = units.GramPerM2
	return Advice{
		ScoreAcross: 115 * g, ScoreAlong: 170 * g, ScoreCoated: 150 * g,
		PierceLayers: 4,
		MostLayers:   []LayersLimit{{90 * g, 16}, {150 * g, 8}, {200 * g, 4}, {math.MaxInt64, 2}},
		Creep:        units.Millimetre / 2, CreepRound: 1.25,
		GrooveAlong: 1.3, GrooveAcross: 1.5,
	}
}

// The sources of the notes.
const (
	commonPractice = "common practice"
	scoreSource    = "published trade guides, which name thresholds from 115 to 200 g/m²; a setting of the shop"
	grainSource    = "Roberts and Etherington, Bookbinding and the Conservation of Books, on grain"
	pierceSource   = "PrintWiki, Perforating; the number of layers is common practice"
	creepSource    = "geometry of nested leaves; the roundness of the fold is a setting of the shop"
	grooveSource   = "published trade guides; factors are a setting of the shop"
)

// Creep is how far the innermost of nested leaves, folded once each, stands out at the fore edge: each wraps round the ones
// within, so the outermost loses round × caliper for each of the others. Round is 1 for a dead-sharp fold and π/2 for a round one.
func Creep(folios int, caliper units.Length, round float64) units.Length {
	if folios < 2 {
		return 0
	}
	return units.Length(math.Round(float64(folios-1) * float64(caliper) * round))
}

// Groove is the width of the groove that a creasing wheel works into.
func Groove(caliper, edge units.Length, factor float64) units.Length {
	return units.Length(math.Round(float64(caliper)*factor)) + edge
}

// notes is the advice on a job. It does not depend on the folder.
func notes(j *job.Job, folded *fold.Folded, h *House) []Note {
	n := noted{job: j, folded: folded, house: h, advice: &h.Advice, lines: foldAxes(folded)}
	n.caliper, n.estimated = j.Stock.Caliper()
	n.thickness()
	n.scoring()
	n.piercing()
	n.layers()
	n.spine()
	n.creep()
	n.grooves()
	if n.list == nil {
		n.list = []Note{}
	}
	return n.list
}

type noted struct {
	job       *job.Job
	folded    *fold.Folded
	house     *House
	advice    *Advice
	lines     []fold.Axis // of each fold: the line is Axis = …
	caliper   units.Length
	estimated bool
	list      []Note
}

func (n *noted) say(source string, text words.Text) {
	n.list = append(n.list, Note{text, words.T(source)})
}

// foldAxes tells in which direction each fold line runs on the flat sheet: turns change the axis that is folded.
func foldAxes(folded *fold.Folded) []fold.Axis {
	var list []fold.Axis
	axis := fold.S
	for _, step := range folded.Scheme.Steps {
		if step.Op.IsFold() {
			list = append(list, axis)
			continue
		}
		axis = fold.S + fold.T - axis
	}
	return list
}

// withGrain tells whether fold k (from 0) runs along the fibres: the line s = … runs along t.
func (n *noted) withGrain(k int) (along, known bool) {
	switch n.job.Stock.Grain {
	case paper.GrainAlongS:
		return n.lines[k] == fold.T, true
	case paper.GrainAlongT:
		return n.lines[k] == fold.S, true
	}
	return false, false
}

func (n *noted) wants(kind tooling.Kind, k int) bool {
	return slices.ContainsFunc(n.job.Operations, func(o job.Operation) bool {
		return o.Kind == kind && o.Target == job.OnFold && o.Fold == k+1
	})
}

func (n *noted) thickness() {
	if n.estimated {
		n.say(commonPractice, words.T("the thickness of %s is an estimate from grammage and volume: measure the stock before the gaps are set",
			words.Micron(n.caliper)))
	}
}

// scoring names the folds that should be scored and are not.
func (n *noted) scoring() {
	g, finish := n.job.Stock.Grammage, n.job.Stock.Finish
	var across, other []int
	for k := range n.lines {
		if n.wants(tooling.Score, k) {
			continue
		}
		along, known := n.withGrain(k)
		crossing := known && !along
		switch {
		case crossing && reached(g, n.advice.ScoreAcross):
			across = append(across, k+1)
		case reached(g, n.advice.ScoreAlong), finish == paper.Coated && reached(g, n.advice.ScoreCoated), finish == paper.Laminated:
			other = append(other, k+1)
		}
	}
	if len(across) > 0 {
		n.say(scoreSource, words.T("%s across the grain of stock of %s: score first", foldNames(across), g))
	}
	if len(other) > 0 {
		n.say(scoreSource, words.T("%s of stock of %s: score first", foldNames(other), g))
	}
}

func reached(is, threshold units.Grammage) bool { return threshold > 0 && is >= threshold }

// foldNames is "fold 1" or "folds 1 and 2".
func foldNames(folds []int) words.Text {
	if len(folds) == 1 {
		return words.T("fold %d", folds[0])
	}
	return words.T("folds %s", words.Numbers(folds))
}

// piercing speaks of a closed head: the last fold at right angles to the spine shuts in the air between its layers, and
// the spine fold must squeeze it out.
func (n *noted) piercing() {
	last := len(n.lines) - 1
	k := last - 1
	for k >= 0 && n.lines[k] == n.lines[last] {
		k--
	}
	if k < 1 || n.wants(tooling.Perforate, k) || n.advice.PierceLayers == 0 || !n.section() {
		return // the first fold cannot be perforated before it is made, and shuts in least
	}
	if into := n.layersBefore(last); into >= n.advice.PierceLayers {
		n.say(pierceSource, words.T("fold %d closes an edge and %d layers go into fold %d: perforate fold %d to let the air out", k+1, into, last+1, k+1))
	}
}

// section tells whether the last fold is a spine: every layer runs through it, so that it doubles them. A letter, a
// concertina or a map has none.
func (n *noted) section() bool {
	return n.folded.Folios && n.folded.Finished().Layers == 2*n.layersBefore(len(n.lines)-1)
}

// layersBefore is the layers that go into fold k (from 0).
func (n *noted) layersBefore(k int) int {
	for i, step := range n.folded.Scheme.Steps {
		if !step.Op.IsFold() {
			continue
		}
		if k == 0 {
			return n.folded.States[i].Layers
		}
		k--
	}
	return 0
}

// layers compares the folding with what the stock bears.
func (n *noted) layers() {
	g, layers := n.job.Stock.Grammage, n.folded.Finished().Layers
	i, _ := slices.BinarySearchFunc(n.advice.MostLayers, g, func(l LayersLimit, g units.Grammage) int { return cmp.Compare(l.UpTo, g) })
	if i == len(n.advice.MostLayers) || layers <= n.advice.MostLayers[i].Layers {
		return
	}
	n.say(commonPractice, words.T("stock of %s folds well to %d layers, and this is %d: look out for wrinkles and loose folds",
		g, n.advice.MostLayers[i].Layers, layers))
}

// spine wants the grain along the last fold.
func (n *noted) spine() {
	last := len(n.lines) - 1
	if along, known := n.withGrain(last); known && !along && n.section() {
		n.say(grainSource, words.T("the spine, fold %d, runs across the grain: the leaves may cockle and will not lie open", last+1))
	}
}

// creep speaks of push-out where folios are nested in one another.
func (n *noted) creep() {
	if n.advice.Creep == 0 || !n.section() {
		return
	}
	folios := n.folded.Finished().Layers / 2
	if out := Creep(folios, n.caliper, n.advice.CreepRound); out >= n.advice.Creep {
		n.say(creepSource, words.T("the innermost of %d nested leaves stands out by about %s at the fore edge", folios, out))
	}
}

// grooves gives the groove for every score.
func (n *noted) grooves() {
	for i, o := range n.job.Operations {
		edge, err := units.ParseLength(o.Spec, units.Millimetre)
		if o.Kind != tooling.Score || err != nil || slices.Contains(n.job.Operations[:i], o) {
			continue
		}
		factor := n.advice.GrooveAcross
		if o.Target == job.OnFold && o.Fold <= len(n.lines) {
			if along, known := n.withGrain(o.Fold - 1); known && along {
				factor = n.advice.GrooveAlong
			}
		}
		n.say(grooveSource, words.T("%s: a groove about %s wide", o.Words(), Groove(n.caliper, edge, factor)))
	}
}
