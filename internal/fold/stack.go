package fold

import "math/bits"

// stack is a sheet part way through a scheme.
type stack struct {
	strips [2]strip // by flat axis
	length int64    // along the travel
	width  int64
	along  Axis // the flat axis that lies along the travel
	folds  int  // made so far
}

// stackCap holds the pieces of most schemes without growing.
const stackCap = 16

// workspace is the memory of one folding; it can live on the caller's stack.
type workspace struct{ a, b, spare [stackCap]piece }

// flat lays the sheet down.
func (w *workspace) flat(length, width int64) stack {
	return stack{
		strips: [2]strip{append(strip(w.a[:0]), flatStrip(length)), append(strip(w.b[:0]), flatStrip(width))},
		length: length, width: width,
	}
}

// fold gives the stack folded at d, and the memory that the strip held before, to be used for the next fold. It works on a
// copy, so that a whole folding can live on the caller's stack.
func (s stack) fold(d int64, spare strip, made func(at int64)) (after stack, free strip) {
	free = s.strips[s.along]
	s.strips[s.along] = free.fold(d, 1<<s.folds, spare[:0], made)
	s.length = max(d, s.length-d)
	s.folds++
	return s, free
}

// turn makes a side edge the leading one: after left, s' = t and t' = length − s; after right, s' = width − t and t' = s.
func (s *stack) turn(op Op) {
	if op == Left {
		s.strips[s.along].mirror(s.length)
	} else {
		s.strips[other(s.along)].mirror(s.width)
	}
	s.along = other(s.along)
	s.length, s.width = s.width, s.length
}

// layers is the greatest number of layers anywhere: a layer is a pair of pieces, and the pairs over a point are all
// pairs of those over its two coordinates.
func (s *stack) layers() int { return s.strips[S].most() * s.strips[T].most() }

func parity(mask uint32) uint32 { return uint32(bits.OnesCount32(mask)) & 1 }

// key orders panels from the bottom of the stack to the top, wherever two of them overlap.
//
// Two overlapping panels came together at the last fold k that moved one of them and not the other; going up, the moved
// one lay above, going down below. Every later fold that moved them moved both and turned their order round. So bit k of
// the key is: moved at k, the other way round for a fold down, and again for each later move; and the higher fold decides.
func key(moved, down uint32, folds int) uint32 {
	var key uint32
	for k := range folds {
		key |= ((moved>>k ^ down>>k ^ parity(moved>>(k+1))) & 1) << k
	}
	return key
}
