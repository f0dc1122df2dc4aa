package fold

import (
	"fmt"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// Apply folds the sheet. The cost grows with the number of panels; a 16-page section takes a few microseconds.
func (s Scheme) Apply(sheet Sheet) (*Folded, error) {
	if err := s.check(sheet); err != nil {
		return nil, err
	}
	grain, err := s.grain()
	if err != nil {
		return nil, err
	}
	f := &Folded{Sheet: sheet, Scheme: s, exact: exact{grain: grain}}
	f.exact.depths = s.depths(sheet, grain)
	if err := f.fold(); err != nil {
		return nil, err
	}
	f.panels()
	f.creases()
	f.number()
	if err := f.checkTrims(); err != nil {
		return nil, err
	}
	return f, nil
}

// grain is the number of exact parts of a nanometre: the least common multiple of all denominators. See decision 001.
func (s Scheme) grain() (int64, error) {
	grain := int64(1)
	if s.Lap%2 != 0 {
		grain = 2
	}
	for i, st := range s.Steps {
		if !st.Op.IsFold() {
			continue
		}
		for _, den := range [2]int64{st.Depth.Share.norm().Den, st.Depth.Plus.norm().Den} {
			if grain = lcm(grain, den); grain > maxDenominator {
				return 0, bad(codeLimit, stepField(i), "the shares of the scheme have no common denominator to reckon with",
					fmt.Sprintf("a common denominator of at most %d, such as that of 1/2, 1/3 and 1/8", maxDenominator))
			}
		}
	}
	return grain, nil
}

// depths gives the depth of every step in exact parts; 0 for turns. The lap moves the last fold.
func (s Scheme) depths(sheet Sheet, grain int64) []int64 {
	depths := make([]int64, len(s.Steps))
	extent := [2]int64{int64(sheet.Length) * grain, int64(sheet.Width) * grain}
	axis, last := S, -1
	for i, st := range s.Steps {
		if !st.Op.IsFold() {
			axis = other(axis)
			continue
		}
		share := st.Depth.Share.norm()
		depths[i] = extent[axis]/share.Den*share.Num + st.Depth.Plus.times(grain)
		last = i
	}
	if last >= 0 {
		depths[last] += int64(s.Lap) * grain / 2
	}
	return depths
}

// fold runs the steps, keeps every state and every new crease, and leaves the final stack in f.exact.
func (f *Folded) fold() error {
	var w workspace
	steps := f.Scheme.Steps
	st := w.flat(int64(f.Sheet.Length)*f.exact.grain, int64(f.Sheet.Width)*f.exact.grain)
	spare := strip(w.spare[:0])
	f.States = make([]State, 1, len(steps)+1)
	f.States[0] = State{Length: f.Sheet.Length, Width: f.Sheet.Width, Layers: 1}
	f.exact.lines = make([]line, 0, stackCap)
	for i, step := range steps {
		if step.Op.IsFold() {
			d := f.exact.depths[i]
			if d <= 0 || d >= st.length {
				return f.tooDeep(i, d, st.length)
			}
			made := line{step: i + 1, fold: st.folds + 1, axis: st.along}
			st, spare = st.fold(d, spare, func(at int64) {
				made.at = at
				f.exact.lines = append(f.exact.lines, made)
			})
			if step.Op == Down {
				f.exact.down |= 1 << (st.folds - 1)
			}
			if n := len(st.strips[S]) * len(st.strips[T]); n > maxPanels {
				return bad(codeLimit, stepField(i), fmt.Sprintf("%d panels", n), fmt.Sprintf("at most %d", maxPanels))
			}
		} else {
			st.turn(step.Op)
		}
		f.States = append(f.States, State{Length: f.length(st.length), Width: f.length(st.width), Layers: st.layers()})
	}
	f.exact.keep(&st)
	return nil
}

// tooDeep is the fault of a fold line outside the stack.
func (f *Folded) tooDeep(step int, d, length int64) fault.Fault {
	long := mm(f.length(length))
	return bad(codeDepth, stepField(step), "depth "+mm(f.length(d))+"; the stack is "+long+" long",
		"more than 0 and less than "+long)
}

// length rounds exact parts to the nearest nanometre; what is compared is compared before.
func (f *Folded) length(n int64) units.Length { return f.exact.round(n) }

// FoldDepth is the plate stop of a step (from 1) as drawn: the distance of its line from the leading edge. It is 0 for a
// turn.
func (f *Folded) FoldDepth(step int) units.Length { return f.length(f.exact.depths[step-1]) }
