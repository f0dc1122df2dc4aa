package fold

import (
	"cmp"
	"slices"

	"foldwright/internal/units"
)

// Segment is an exact piece of a straight line on the flat sheet of one [Folded]: the line Axis = at, from from to to
// along the other axis. Segments come from [Folded.FoldLine] and [Folded.FlatLine] and go to [Folded.Trace].
type Segment struct {
	Axis         Axis
	at, from, to int64
	grain        int64
}

// At is the place of the line, to the nanometre.
func (s Segment) At() units.Length { return (&exact{grain: s.grain}).round(s.at) }

// Span is where the segment begins and ends along the other axis, to the nanometre.
func (s Segment) Span() (from, to units.Length) {
	e := exact{grain: s.grain}
	return e.round(s.from), e.round(s.to)
}

// Between is the part of the segment between two places along the other axis.
func (s Segment) Between(from, to units.Length) Segment {
	s.from = max(s.from, int64(from)*s.grain)
	s.to = min(s.to, int64(to)*s.grain)
	return s
}

// FoldLine gives the lines that a fold (from 1) makes on the flat sheet; none when there is no such fold.
func (f *Folded) FoldLine(fold int) []Segment {
	var segments []Segment
	for _, l := range f.exact.lines {
		if l.fold == fold {
			segments = append(segments, f.across(l.axis, l.at))
		}
	}
	return segments
}

// FlatLine gives the line Axis = at right across the flat sheet.
func (f *Folded) FlatLine(axis Axis, at units.Length) []Segment {
	return []Segment{f.across(axis, int64(at)*f.exact.grain)}
}

func (f *Folded) across(axis Axis, at int64) Segment {
	end := f.Sheet.Width
	if axis == T {
		end = f.Sheet.Length
	}
	return Segment{Axis: axis, at: at, to: int64(end) * f.exact.grain, grain: f.exact.grain}
}

// Trace tells where wanted lines of the flat sheet lie in the stack States[state], and what else lies there: one Track
// for each line of the stack, those along the travel first, then by place.
//
// A layer counts where the line of the stack crosses its inside. A layer that only ends there, at an edge of the sheet or
// at a fold already made, counts neither as wanted nor as foreign, since a wheel does nothing to it.
func (f *Folded) Trace(state int, want []Segment) []Track {
	var w workspace
	st := f.replay(&w, state)
	var seen [8]stackLine
	lines := seen[:0]
	for i := range want {
		at, ok := st.strips[want[i].Axis].locate(want[i].at)
		if l := (stackLine{want[i].Axis, at}); ok && !slices.Contains(lines, l) {
			lines = append(lines, l)
		}
	}
	tracks := make([]Track, len(lines))
	for i, l := range lines {
		tracks[i] = st.count(l, want)
		tracks[i].Axis, tracks[i].At = T, f.length(l.at)
		if l.flat == st.along {
			tracks[i].Axis = S
		}
	}
	slices.SortFunc(tracks, func(a, b Track) int {
		return cmp.Or(cmp.Compare(b.Axis, a.Axis), cmp.Compare(a.At, b.At))
	})
	return tracks
}

// stackLine is the line of a stack at the place at of the direction in which the flat axis lies.
type stackLine struct {
	flat Axis
	at   int64
}

// replay folds as far as a state.
func (f *Folded) replay(w *workspace, state int) stack {
	st := w.flat(int64(f.Sheet.Length)*f.exact.grain, int64(f.Sheet.Width)*f.exact.grain)
	spare := strip(w.spare[:0])
	for i, step := range f.Scheme.Steps[:state] {
		if step.Op.IsFold() {
			st, spare = st.fold(f.exact.depths[i], spare, noCrease)
		} else {
			st.turn(step.Op)
		}
	}
	return st
}

func noCrease(int64) {}

// locate gives the place of a point of the flat strip in the stack; ok is false outside the sheet.
func (s strip) locate(x int64) (at int64, ok bool) {
	for i := range s {
		if s[i].from <= x && x <= s[i].to {
			return s[i].place(x), true
		}
	}
	return 0, false
}

// count counts the wanted and the foreign layers on a line of the stack.
func (s *stack) count(l stackLine, want []Segment) Track {
	across := s.strips[other(l.flat)]
	whole, foreign, partly := 0, 0, false
	for _, p := range s.strips[l.flat] {
		lo, hi := p.span()
		if l.at <= lo || hi <= l.at {
			continue
		}
		switch covered(want, l.flat, p.flat(l.at), across) {
		case wantedWhole:
			whole++
		case wantedNowhere:
			foreign++
		default:
			partly = true
		}
	}
	if partly {
		return s.countPartly(l, want)
	}
	most := across.most()
	return Track{Wanted: whole * most, Foreign: foreign * most}
}

// flat is the point of the flat strip that lies at a place of the stack.
func (p *piece) flat(at int64) int64 { return (at - p.off) * p.sign }

const (
	wantedNowhere = iota
	wantedWhole
	wantedPartly
)

// covered tells how much of the flat line is wanted.
func covered(want []Segment, axis Axis, at int64, across strip) int {
	found := wantedNowhere
	for i := range want {
		if want[i].Axis != axis || want[i].at != at {
			continue
		}
		if want[i].from <= across[0].from && across[len(across)-1].to <= want[i].to {
			return wantedWhole
		}
		found = wantedPartly
	}
	return found
}

// countPartly counts where a line of the flat sheet is wanted on part of its way only: field by field along the line of
// the stack.
func (s *stack) countPartly(l stackLine, want []Segment) Track {
	across := s.strips[other(l.flat)]
	ends := across.edges()
	for i := range want {
		for j := range across {
			for _, x := range [2]int64{want[i].from, want[i].to} {
				if want[i].Axis == l.flat && across[j].from < x && x < across[j].to {
					ends = append(ends, across[j].place(x))
				}
			}
		}
	}
	slices.Sort(ends)
	ends = slices.Compact(ends)
	var most Track
	for i := range len(ends) - 1 {
		wanted, foreign := s.countField(l, want, ends[i], ends[i+1])
		most.Wanted, most.Foreign = max(most.Wanted, wanted), max(most.Foreign, foreign)
	}
	return most
}

// countField counts on the part of the line between two neighbouring ends.
func (s *stack) countField(l stackLine, want []Segment, from, to int64) (wanted, foreign int) {
	for _, p := range s.strips[l.flat] {
		if lo, hi := p.span(); l.at <= lo || hi <= l.at {
			continue
		}
		at := p.flat(l.at)
		for _, q := range s.strips[other(l.flat)] {
			if lo, hi := q.span(); to <= lo || hi <= from {
				continue
			}
			a, b := min(q.flat(from), q.flat(to)), max(q.flat(from), q.flat(to))
			if slices.ContainsFunc(want, func(w Segment) bool {
				return w.Axis == l.flat && w.at == at && w.from <= a && b <= w.to
			}) {
				wanted++
			} else {
				foreign++
			}
		}
	}
	return wanted, foreign
}
