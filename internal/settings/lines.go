package settings

import (
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// lines knows where the wanted lines and the fold lines of a job lie in every state of the stack. It asks the folding
// once for each line and state and keeps the answer, since all ways share it.
type lines struct {
	job    *job.Job
	folded *fold.Folded
	types  []tooling.Type   // of each operation
	strip  []units.Length   // width of the strip that an operation takes out
	flat   [][]fold.Segment // of each operation; nil for trims
	traces []trace          // [operation × state], then [fold × state]
	folds  int
	short  words.Joined // what stands beside the tool of an operation
}

type trace struct {
	done   bool
	tracks []fold.Track
}

func newLines(j *job.Job, folded *fold.Folded, h *House) *lines {
	l := &lines{job: j, folded: folded, folds: folded.Scheme.Folds()}
	l.traces = make([]trace, (len(j.Operations)+l.folds)*len(folded.States))
	l.types = make([]tooling.Type, len(j.Operations))
	l.strip = make([]units.Length, len(j.Operations))
	l.flat = make([][]fold.Segment, len(j.Operations))
	l.short = make(words.Joined, len(j.Operations))
	for i, op := range j.Operations {
		l.types[i] = tooling.Type{Kind: op.Kind, Spec: op.Spec}
		if op.Spec == "" {
			l.types[i].Spec = h.Usual[op.Kind]
		}
		if op.Kind == tooling.Strip {
			// A width that cannot be read is job.Check's fault to tell; here it takes no room.
			l.strip[i], _ = units.ParseLength(l.types[i].Spec, units.Millimetre)
		}
		l.flat[i], l.short[i] = l.segments(op), op.Short()
	}
	return l
}

// segments is the line of an operation on the flat sheet.
func (l *lines) segments(op job.Operation) []fold.Segment {
	switch op.Target {
	case job.OnFold:
		return l.folded.FoldLine(op.Fold)
	case job.OnLine:
		return l.folded.FlatLine(op.Axis, op.At)
	}
	return nil
}

// operation is where the line of an operation lies in a state.
func (l *lines) operation(op, state int) []fold.Track {
	t := &l.traces[op*len(l.folded.States)+state]
	if !t.done {
		t.done, t.tracks = true, l.alone(op, state)
		l.excuse(op, state, t.tracks)
	}
	return t.tracks
}

func (l *lines) alone(op, state int) []fold.Track {
	if l.job.Operations[op].Target == job.OnEdge {
		return l.trim(l.job.Operations[op])
	}
	return l.folded.Trace(state, l.flat[op])
}

// excuse looks again at layers that a wheel would hit beside its own: when another operation of the same wheel wants them
// hit at that very place, they are not in the way. Pieces are parted by slit, strip and trim alike.
func (l *lines) excuse(op, state int, tracks []fold.Track) {
	if unhindered(tracks) {
		return
	}
	together := append([]fold.Segment(nil), l.flat[op]...)
	for other, o := range l.job.Operations {
		alike := l.types[other] == l.types[op] || (o.Separates() && l.job.Operations[op].Separates())
		if other != op && alike {
			together = append(together, l.flat[other]...)
		}
	}
	for _, all := range l.folded.Trace(state, together) {
		for i := range tracks {
			if tracks[i].Axis == all.Axis && tracks[i].At == all.At {
				tracks[i].Foreign = all.Foreign
			}
		}
	}
}

func unhindered(tracks []fold.Track) bool {
	for _, t := range tracks {
		if t.Foreign > 0 {
			return false
		}
	}
	return true
}

// fold is where the line of fold k (from 1) lies in a state before it.
func (l *lines) fold(k, state int) []fold.Track {
	t := &l.traces[(len(l.job.Operations)+k-1)*len(l.folded.States)+state]
	if !t.done {
		t.done, t.tracks = true, l.folded.Trace(state, l.folded.FoldLine(k))
	}
	return t.tracks
}

// trim is where a trim lies in the finished stack, in its own travel; no track when the edge is not known. It cuts all
// layers, and is meant to.
func (l *lines) trim(op job.Operation) []fold.Track {
	edge, known := l.edge(op.Edge)
	if !known {
		return nil
	}
	stack := l.folded.Finished()
	track := fold.Track{Axis: fold.S, At: op.At, Wanted: stack.Layers}
	switch edge {
	case fold.Trailing:
		track.At = stack.Length - op.At
	case fold.LeftEdge:
		track.Axis = fold.T
	case fold.RightEdge:
		track.Axis, track.At = fold.T, stack.Width-op.At
	}
	return []fold.Track{track}
}

// edge finds an edge of the pages on the finished stack. Without folios nobody knows head from foot, but the fore edge is
// opposite the spine all the same.
func (l *lines) edge(e job.Edge) (fold.Edge, bool) {
	if e == job.Front {
		return opposite(l.folded.SpineEdge()), true
	}
	head, known := l.folded.HeadEdge()
	if e == job.Foot {
		head = opposite(head)
	}
	return head, known
}

func opposite(e fold.Edge) fold.Edge {
	return [...]fold.Edge{
		fold.Leading: fold.Trailing, fold.Trailing: fold.Leading, fold.LeftEdge: fold.RightEdge, fold.RightEdge: fold.LeftEdge,
	}[e]
}
