package settings

import (
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/units"
)

// drawnFold is a fold of the scheme with what the walk needs of it.
type drawnFold struct {
	op            fold.Op
	depth, length units.Length // of the stack as drawn before the fold
	turns         []fold.Op    // drawn between the fold before and this one
	step          int          // States[step] is the stack after it
}

// made is a fold as a unit makes it.
type made struct {
	fold  int // from 1
	stop  units.Length
	up    bool
	state int // index of the drawn state after it
}

// leg is what becomes of the stack in one unit. Its shafts stand after its folds, where the stack is States[out] and lies
// as now says.
type leg struct {
	enters  machine.Entry
	engaged bool // it folds; otherwise the stack only passes
	in, out int
	came    relation // to the drawn stack States[in], on entering
	now     relation // to States[out]
	folds   []made
}

// path is one way through the folder but for the plates: a feed, and a leg for every unit from the first to the last one
// needed.
type path struct {
	feed   Feed
	number int // in the order they are tried, which puts what is as drawn and as usual first
	legs   []leg
}

// walk finds paths. First it goes strictly, dropping whatever does not fit; when nothing is found at all, it goes again to
// find the way that comes nearest, and every misfit only adds a trouble.
type walk struct {
	job     *job.Job
	folder  *machine.Folder
	folded  *fold.Folded
	drawn   []drawnFold
	ending  []fold.Op // turns drawn after the last fold
	caliper units.Length

	nearest  bool
	troubles []trouble // of the legs so far
	feed     Feed
	legs     []leg
	number   int
	found    func(p path, troubles []trouble)
	best     float64 // badness of the best so far; worse ways are dropped
}

func newWalk(j *job.Job, folded *fold.Folded, f *machine.Folder) *walk {
	w := &walk{job: j, folder: f, folded: folded, legs: make([]leg, 0, len(f.Units)), best: 1e9}
	w.caliper, _ = j.Stock.Caliper()
	var turns []fold.Op
	for i, step := range folded.Scheme.Steps {
		if !step.Op.IsFold() {
			turns = append(turns, step.Op)
			continue
		}
		w.drawn = append(w.drawn, drawnFold{step.Op, folded.FoldDepth(i + 1), folded.States[i].Length, turns, i + 1})
		turns = nil
	}
	w.ending = turns
	return w
}

// feeds are all ways to lay the sheet on the table, the one as drawn first.
var feeds = [8]struct {
	Feed
	relation
}{
	{Feed{S0, Front}, relation{leading, false}},
	{Feed{S1, Front}, relation{tail, false}},
	{Feed{T0, Front}, relation{left, false}},
	{Feed{T1, Front}, relation{right, false}},
	{Feed{S0, Back}, relation{leading, true}},
	{Feed{S1, Back}, relation{tail, true}},
	{Feed{T0, Back}, relation{left, true}},
	{Feed{T1, Back}, relation{right, true}},
}

// run tries every feed.
func (w *walk) run() {
	if len(w.folder.Units) == 0 || len(w.drawn) == 0 {
		return
	}
	for _, f := range feeds {
		w.feed = f.Feed
		mark := len(w.troubles)
		if w.feeder(f.relation) && w.enter(0, machine.Straight, f.relation, 0) {
			w.from(0, f.relation, 0)
			w.leave()
		}
		w.troubles = w.troubles[:mark]
	}
}

// misfit notes a trouble and tells whether to go on in spite of it.
func (w *walk) misfit(t trouble) bool {
	if !w.nearest {
		return false
	}
	sum := t.bad
	for _, other := range w.troubles {
		sum += other.bad
	}
	if sum >= w.best {
		return false
	}
	w.troubles = append(w.troubles, t)
	return true
}

// enter begins a leg in unit u (from 0), holding the stack to the width that the unit takes.
func (w *walk) enter(u int, how machine.Entry, r relation, at int) bool {
	most, wide := w.widest(u), r.extent(w.folded.States[at]).Width
	if most > 0 && wide > most &&
		!w.misfit(trouble{kind: stackWide, unit: u + 1, have: most, need: wide, bad: short(most, wide)}) {
		return false
	}
	w.legs = append(w.legs, leg{enters: how, in: at, out: at, came: r, now: r})
	return true
}

// leave ends the last leg.
func (w *walk) leave() { w.legs = w.legs[:len(w.legs)-1] }

// from goes on at fold k (from 0) with the stack States[at] in the last leg's unit, not yet folded there.
func (w *walk) from(k int, r relation, at int) {
	mark := len(w.troubles)
	if across := w.drawnTurns(k, r); across.across() {
		if w.group(k, r) {
			next := k + len(w.last().folds)
			if next == len(w.drawn) {
				w.arrive()
			} else {
				w.onward(next, w.last().now, w.last().out)
			}
		}
		w.undo()
		w.troubles = w.troubles[:mark]
	}
	// The unit may also be passed, whether or not the fold could be made here.
	if w.pass(at) {
		w.onward(k, r, at)
	}
	w.troubles = w.troubles[:mark]
}

// pass holds the stack to what it takes to go through the last leg's unit unfolded.
func (w *walk) pass(at int) bool {
	u := len(w.legs) - 1
	if !w.folder.Units[u].Passable && !w.misfit(trouble{kind: noPass, unit: u + 1, bad: nothingLike}) {
		return false
	}
	return w.thin(u, w.folded.States[at].Layers)
}

func (w *walk) last() *leg { return &w.legs[len(w.legs)-1] }

// undo takes the folds of the last leg back.
func (w *walk) undo() {
	l := w.last()
	*l = leg{enters: l.enters, in: l.in, out: l.in, came: l.came, now: l.came, folds: l.folds[:0]}
}

// drawnTurns is the relation after the turns that are drawn before fold k.
func (w *walk) drawnTurns(k int, r relation) relation {
	for _, op := range w.drawn[k].turns {
		r = r.redrawn(op)
	}
	return r
}

// group makes fold k and all that follow it without a turn in the last leg's unit: those belong to one unit.
func (w *walk) group(k int, r relation) bool {
	l := w.last()
	l.folds = nil // handed out with the path
	for ; k < len(w.drawn); k++ {
		here := w.drawnTurns(k, r)
		if !here.across() {
			break
		}
		d := &w.drawn[k]
		stop, up, after := here.folded(d.op, d.depth, d.length)
		l.folds = append(l.folds, made{k + 1, stop, up, d.step})
		l.out, l.now, r = d.step, after, after
	}
	l.engaged = true
	u := len(w.legs) - 1
	if !w.thin(u, w.folded.States[l.out].Layers) {
		return false
	}
	if w.folder.Units[u].Kind == machine.Knife {
		return w.knife(u, l.folds)
	}
	return w.plates(u, l.folds)
}

// onward takes the stack into the next unit by every entry that it has.
func (w *walk) onward(k int, r relation, at int) {
	u := len(w.legs)
	if u == len(w.folder.Units) {
		w.stranded(k)
		return
	}
	for _, how := range entries(&w.folder.Units[u]) {
		mark := len(w.troubles)
		now := r.entered(how)
		if w.enter(u, how, now, at) {
			w.from(k, now, at)
			w.leave()
		}
		w.troubles = w.troubles[:mark]
	}
}

var straightOnly = []machine.Entry{machine.Straight}

func entries(u *machine.Unit) []machine.Entry {
	if len(u.Enters) == 0 {
		return straightOnly
	}
	return u.Enters
}

// stranded is a way that runs out of units with folds left: no way at all, but perhaps the nearest. Every group of folds
// that lacks a unit is told, and weighs as many missing things as it has folds.
func (w *walk) stranded(k int) {
	mark := len(w.troubles)
	for k < len(w.drawn) {
		group := 1
		for k+group < len(w.drawn) && len(w.drawn[k+group].turns) == 0 {
			group++
		}
		if !w.misfit(trouble{kind: noUnit, unit: len(w.folder.Units), fold: k + 1, bad: nothingLike * float64(group)}) {
			w.troubles = w.troubles[:mark]
			return
		}
		k += group
	}
	w.arrive()
	w.troubles = w.troubles[:mark]
}

// arrive hands a complete path out.
func (w *walk) arrive() {
	legs := make([]leg, len(w.legs))
	copy(legs, w.legs)
	w.number++
	end := &legs[len(legs)-1]
	for _, op := range w.ending {
		end.now = end.now.redrawn(op)
	}
	end.out += len(w.ending)
	w.found(path{w.feed, w.number, legs}, w.troubles)
}
