package fold

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/units"
)

// This file holds a second folding, built another way round: it never cuts a sheet. It asks what lies over one spot of
// the finished stack and follows the spot back, fold by fold, to the points of the flat sheet that came to lie there:
//
//	over a spot at s of a stack folded up at d lie, from below, what lay over s + d, and then, turned over and in
//	reverse, what lay over d − s
//
// and so on, with big rationals for lengths. It shares with the code under test only the words Up, Down, Left, Right.

// spot is a layer over a spot: the point of the flat sheet, and whether its top face looks up.
type spot struct {
	s, t *big.Rat
	up   bool
}

// rule is a step with its depth in nanometres and the length and width of the stack before it.
type rule struct {
	op                   Op
	depth, length, width *big.Rat
}

func num(n int64) *big.Rat       { return big.NewRat(n, 1) }
func sum(a, b *big.Rat) *big.Rat { return new(big.Rat).Add(a, b) }
func gap(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }

// rules works out the depths by the definition: a share of the unfolded extent, a length, half the lap on the last fold.
func rules(sheet Sheet, s Scheme) []rule {
	extent := [2]*big.Rat{num(int64(sheet.Length)), num(int64(sheet.Width))}
	length, width := extent[0], extent[1]
	turned := 0
	var out []rule
	last := -1
	for i, st := range s.Steps {
		if st.Op.IsFold() {
			last = i
		}
	}
	for i, st := range s.Steps {
		r := rule{op: st.Op, length: length, width: width}
		if st.Op.IsFold() {
			share, plus := st.Depth.Share.norm(), st.Depth.Plus.norm()
			r.depth = sum(new(big.Rat).Mul(extent[turned], big.NewRat(share.Num, share.Den)), big.NewRat(plus.Num, plus.Den))
			if i == last {
				r.depth = sum(r.depth, big.NewRat(int64(s.Lap), 2))
			}
			length = gap(length, r.depth)
			if r.depth.Cmp(length) > 0 {
				length = r.depth
			}
		} else {
			turned = 1 - turned
			length, width = width, length
		}
		out = append(out, r)
	}
	return out
}

// over lists what lies over the spot (s, t) of the stack after the rules, from the bottom up.
func over(sheet Sheet, rules []rule, s, t *big.Rat) []spot {
	if len(rules) == 0 {
		if s.Sign() < 0 || t.Sign() < 0 || s.Cmp(num(int64(sheet.Length))) > 0 || t.Cmp(num(int64(sheet.Width))) > 0 {
			return nil
		}
		return []spot{{s, t, true}}
	}
	before, r := rules[:len(rules)-1], rules[len(rules)-1]
	switch r.op {
	case Left: // s' = t, t' = length − s
		return over(sheet, before, gap(r.length, t), s)
	case Right: // s' = width − t, t' = s
		return over(sheet, before, t, gap(r.width, s))
	}
	if s.Sign() < 0 {
		return nil // ahead of the fold, which leads, there is nothing
	}
	rest := over(sheet, before, sum(s, r.depth), t)
	moved := over(sheet, before, gap(r.depth, s), t)
	slices.Reverse(moved)
	for i := range moved {
		moved[i].up = !moved[i].up
	}
	if r.op == Up {
		return append(rest, moved...)
	}
	return append(moved, rest...)
}

// land says where a flat point comes to lie: mirrored at every fold that its side of the line makes.
func land(rules []rule, s, t *big.Rat) (*big.Rat, *big.Rat) {
	for _, r := range rules {
		switch r.op {
		case Left:
			s, t = t, gap(r.length, s)
		case Right:
			s, t = gap(r.width, t), s
		default:
			s = new(big.Rat).Abs(gap(s, r.depth))
		}
	}
	return s, t
}

// panelAt is the panel that holds a flat point, by its exact edges.
func (f *Folded) panelAt(s, t *big.Rat) int {
	find := func(pieces strip, x *big.Rat) int {
		return slices.IndexFunc(pieces, func(p piece) bool {
			return x.Cmp(big.NewRat(p.from, f.exact.grain)) > 0 && x.Cmp(big.NewRat(p.to, f.exact.grain)) < 0
		})
	}
	final := f.exact.final.strips
	i, j := find(final[S], s), find(final[T], t)
	if i < 0 || j < 0 {
		return -1
	}
	return i*len(final[T]) + j
}

// agree compares a folding with the second one, over a spot inside every field of the finished stack.
func agree(f *Folded) error {
	rules := rules(f.Sheet, f.Scheme)
	xs, ys := fieldsOf(f, rules)
	highest := make([]int, len(f.Panels)) // layer under each panel
	layers := 0
	for _, x := range xs {
		for _, y := range ys {
			column := over(f.Sheet, rules, x, y)
			layers = max(layers, len(column))
			seen := map[int]bool{}
			below := 0
			for i, c := range column {
				at := f.panelAt(c.s, c.t)
				if at < 0 {
					return fmt.Errorf("the flat point %v, %v lies on a crease or off the sheet", c.s, c.t)
				}
				p := f.Panels[at]
				if seen[at] {
					return fmt.Errorf("panel %d lies over one spot twice", at)
				}
				seen[at] = true
				if p.TopFaceUp != c.up {
					return fmt.Errorf("panel %d: top face up is %v", at, p.TopFaceUp)
				}
				if p.Layer <= below {
					return fmt.Errorf("panel %d is number %d over %v, %v and says layer %d, like the one below", at, i+1, x, y, p.Layer)
				}
				highest[at] = max(highest[at], below)
				below = p.Layer
			}
		}
	}
	for i, p := range f.Panels {
		if highest[i]+1 != p.Layer {
			return fmt.Errorf("panel %d says layer %d and covers nothing above layer %d", i, p.Layer, highest[i])
		}
	}
	if end := f.Finished(); end.Layers != layers {
		return fmt.Errorf("%d layers, over the spots at most %d", end.Layers, layers)
	}
	return landing(f, rules)
}

// fieldsOf gives the middles between neighbouring edges of the finished stack, from where the panels' corners land.
func fieldsOf(f *Folded, rules []rule) (xs, ys []*big.Rat) {
	g := f.exact.grain
	for _, p := range f.exact.final.strips[S] {
		for _, q := range f.exact.final.strips[T] {
			for _, corner := range [][2]int64{{p.from, q.from}, {p.to, q.to}} {
				x, y := land(rules, big.NewRat(corner[0], g), big.NewRat(corner[1], g))
				xs, ys = append(xs, x), append(ys, y)
			}
		}
	}
	return middles(xs), middles(ys)
}

func middles(edges []*big.Rat) []*big.Rat {
	slices.SortFunc(edges, (*big.Rat).Cmp)
	edges = slices.CompactFunc(edges, func(a, b *big.Rat) bool { return a.Cmp(b) == 0 })
	var out []*big.Rat
	for i := 1; i < len(edges); i++ {
		out = append(out, new(big.Rat).Mul(sum(edges[i-1], edges[i]), big.NewRat(1, 2)))
	}
	return out
}

// landing follows the middle of every panel forward and finds it again over the spot where it lands.
func landing(f *Folded, rules []rule) error {
	g := f.exact.grain
	for i, p := range f.exact.final.strips[S] {
		for j, q := range f.exact.final.strips[T] {
			s, t := big.NewRat(p.from+p.to, 2*g), big.NewRat(q.from+q.to, 2*g)
			x, y := land(rules, s, t)
			if !slices.ContainsFunc(over(f.Sheet, rules, x, y), func(c spot) bool { return c.s.Cmp(s) == 0 && c.t.Cmp(t) == 0 }) {
				return fmt.Errorf("the middle of panel %d, %d is not where it lands", i, j)
			}
		}
	}
	return nil
}

// anyScheme draws a scheme that folds on the sheet: each depth lies inside the stack as it is then.
func anyScheme(t *rapid.T, sheet Sheet, folds int) Scheme {
	var s Scheme
	for range folds {
		if len(s.Steps) > 0 {
			if turn := rapid.SampledFrom([]Op{0, Left, Right}).Draw(t, "turn"); turn != 0 {
				s.Steps = append(s.Steps, Step{Op: turn})
			}
		}
		f, err := s.Apply(sheet)
		if err != nil {
			t.Fatal(err)
		}
		if len(f.Panels) > 40 {
			break
		}
		s.Steps = append(s.Steps, anyFold(t, f))
	}
	return s
}

// anyFold draws a fold inside the stack: at a simple share where one fits, or anywhere, thirds of a micrometre included.
func anyFold(t *rapid.T, f *Folded) Step {
	st := Step{Op: rapid.SampledFrom([]Op{Up, Down}).Draw(t, "op")}
	length := int64(f.Finished().Length)
	extent := int64(f.Sheet.Length)
	if f.exact.final.along == T {
		extent = int64(f.Sheet.Width)
	}
	den := rapid.SampledFrom([]int64{2, 3, 4, 5, 6, 8}).Draw(t, "den")
	share := ratio(rapid.Int64Range(1, den-1).Draw(t, "num"), den)
	if rapid.Bool().Draw(t, "share") && share.Num*extent/share.Den < length-1000 {
		st.Depth.Share = share
		return st
	}
	st.Depth.Plus = ratio(1000*rapid.Int64Range(1, 3*length/1000-2).Draw(t, "thirds of a micrometre"), 3)
	return st
}

var anySheet = rapid.Custom(func(t *rapid.T) Sheet {
	// Whole micrometres, so that no two lines of a random scheme come closer than a nanometre without being one.
	side := rapid.Int64Range(50_000, 1_200_000)
	return Sheet{units.Length(side.Draw(t, "length")) * units.Micrometre, units.Length(side.Draw(t, "width")) * units.Micrometre}
})

func TestAgainstTheSecondFolding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sheet := anySheet.Draw(t, "sheet")
		s := anyScheme(t, sheet, rapid.IntRange(1, 5).Draw(t, "folds"))
		f, err := s.Apply(sheet)
		if err != nil {
			t.Fatalf("%s: %v", s, err)
		}
		if err := agree(f); err != nil {
			t.Fatalf("%v: %s: %v", sheet, s, err)
		}
	})
}

// Every scheme of up to four folds at the lines of small grids, with every turn. The counts keep the worlds from shrinking
// unseen.
func TestEverySmallScheme(t *testing.T) {
	for _, world := range []struct{ length, width, folds, want int }{{3, 2, 4, 225}, {4, 2, 4, 1431}, {3, 3, 4, 3589}, {4, 4, 3, 3271}} {
		sheet := Sheet{units.Length(world.length), units.Length(world.width)}
		n := 0
		everyScheme(sheet, world.folds, func(s Scheme) {
			n++
			f, err := s.Apply(sheet)
			if err != nil {
				t.Fatalf("%s: %v", s, err)
			}
			if err := agree(f); err != nil {
				t.Fatalf("%v: %s: %v", sheet, s, err)
			}
		})
		if n != world.want {
			t.Errorf("%d × %d: %d schemes, not %d", world.length, world.width, n, world.want)
		}
	}
}

// everyScheme visits every scheme of at most so many folds at whole nanometres of a tiny sheet, with no turn, a left or a
// right one before each fold.
func everyScheme(sheet Sheet, folds int, visit func(Scheme)) {
	var from func(steps []Step, length, width, left int)
	from = func(steps []Step, length, width, left int) {
		visit(Scheme{Steps: slices.Clone(steps)})
		if left == 0 {
			return
		}
		for _, turn := range []Op{0, Left, Right} {
			next, long, wide := slices.Clone(steps), length, width
			if turn != 0 {
				next, long, wide = append(next, Step{Op: turn}), width, length
			}
			for d := 1; d < long; d++ {
				for _, op := range []Op{Up, Down} {
					step := Step{Op: op, Depth: Depth{Plus: Ratio{int64(d), 1}}}
					from(append(slices.Clone(next), step), max(d, long-d), wide, left-1)
				}
			}
		}
	}
	from(nil, int(sheet.Length), int(sheet.Width), folds)
}
