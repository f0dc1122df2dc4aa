package fold

import (
	"cmp"
	"slices"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// Found is a scheme that gives a folio map, with the feeds under which it does. Its shares are of the sheet as fed.
type Found struct {
	Scheme Scheme
	Feeds  []Feed
}

// MostFolds is how many folds [Find] goes to.
const MostFolds = 8

// foundMost and nodesMost end a search that so many open pages leave without direction.
const (
	foundMost = 2000
	nodesMost = 500_000
)

// Find gives every scheme of at most [MostFolds] folds on the grid of the map that produces it, fewest folds first and
// the sheet fed as drawn first among these. There is at most one turn between two folds, and none before the first:
// feeding another edge says the same.
//
// The search folds piles of panels and goes on only while the faces that meet are pages that will lie face to face in
// the section. So few folds remain at each step that any full map is done in well under a millisecond.
func Find(want FolioMap) ([]Found, error) {
	if err := want.check().Err(); err != nil {
		return nil, err
	}
	want = want.ranks()
	var all finds
	for _, feed := range Feeds() {
		h := hunt{want: want.fed(feed), feed: feed, finds: &all}
		h.from(h.board(), nil, S)
		if len(all.list) > foundMost || all.nodes > nodesMost {
			return nil, bad(codeManyPages, "pages", "too many pages are left open to name every scheme", "more of the folios filled in")
		}
	}
	if all.list == nil {
		return nil, fault.Fault{Kind: fault.No, Code: codeNoScheme, Field: "pages",
			Wrong: "no scheme of folds right across the stack gives this folio map", Right: "check the map against a folded and numbered sheet"}
	}
	slices.SortStableFunc(all.list, func(a, b Found) int {
		return cmp.Or(cmp.Compare(a.Scheme.Folds(), b.Scheme.Folds()), b.asDrawn()-a.asDrawn(), cmp.Compare(a.Scheme.String(), b.Scheme.String()))
	})
	return all.list, nil
}

func (f Found) asDrawn() int { return index(f.Feeds[0] == Feed{}) }

// finds collects what the feeds give; the same scheme under several feeds is one find.
type finds struct {
	list  []Found
	nodes int
}

func (f *finds) add(s Scheme, feed Feed) {
	i := slices.IndexFunc(f.list, func(have Found) bool {
		return have.Scheme.First == s.First && slices.Equal(have.Scheme.Steps, s.Steps)
	})
	if i < 0 {
		i = len(f.list)
		s.Name = nameOf(s)
		f.list = append(f.list, Found{Scheme: s})
	}
	f.list[i].Feeds = append(f.list[i].Feeds, feed)
}

// hunt is the search under one feed.
type hunt struct {
	want  FolioMap // as fed, in ranks
	feed  Feed
	finds *finds
}

// pile is the panels over one place of the grid, told by the folios of its two outer faces.
type pile struct{ top, bottom int16 }

// board is the grid of piles as it lies: length along the travel, row by row.
type board struct {
	length, width int
	piles         [maxMapPanels]pile
}

func (h *hunt) board() *board {
	b := &board{length: h.want.AlongS, width: h.want.AlongT}
	for k := range h.want.Top {
		b.piles[k] = pile{int16(h.want.Top[k]), int16(h.want.Bottom[k])}
	}
	return b
}

// from tries every next step; along is the axis of the fed sheet that lies along the travel.
func (h *hunt) from(b *board, steps []Step, along Axis) {
	h.finds.nodes++
	if b.length*b.width == 1 {
		h.keep(steps)
		return
	}
	if len(h.finds.list) > foundMost || h.finds.nodes > nodesMost || (Scheme{Steps: steps}).Folds() == MostFolds {
		return
	}
	h.folds(b, steps, along)
	if len(steps) == 0 {
		return
	}
	for _, turn := range []Op{Left, Right} {
		h.folds(b.turned(turn), append(steps[:len(steps):len(steps)], Step{Op: turn}), other(along))
	}
}

// folds tries every fold across the travel.
func (h *hunt) folds(b *board, steps []Step, along Axis) {
	panels := h.want.AlongS
	if along == T {
		panels = h.want.AlongT
	}
	for d := 1; d < b.length; d++ {
		for _, op := range []Op{Up, Down} {
			if next, ok := h.folded(b, d, op); ok {
				step := Step{Op: op, Depth: Depth{Share: ratio(int64(d), int64(panels))}}
				h.from(next, append(steps[:len(steps):len(steps)], step), along)
			}
		}
	}
}

// folded is the board after a fold; ok is false when two pages meet that do not face each other in the section.
func (h *hunt) folded(b *board, d int, op Op) (*board, bool) {
	out := &board{length: max(d, b.length-d), width: b.width}
	for x := range out.length {
		for y := range b.width {
			var p pile
			switch rest, moved := x+d, d-1-x; {
			case rest >= b.length:
				p = b.at(moved, y).over()
			case moved < 0:
				p = b.at(rest, y)
			default:
				above, below := b.at(moved, y).over(), b.at(rest, y)
				if op == Down {
					above, below = below, above
				}
				if !h.face(above.bottom, below.top) {
					return nil, false
				}
				p = pile{above.top, below.bottom}
			}
			out.piles[x*b.width+y] = p
		}
	}
	return out, true
}

func (b *board) at(x, y int) pile { return b.piles[x*b.width+y] }

// over is the pile turned over.
func (p pile) over() pile { return pile{p.bottom, p.top} }

// face tells whether two pages may lie face to face: an even folio and the next one.
func (h *hunt) face(a, b int16) bool {
	a, b = min(a, b), max(a, b)
	if a == 0 { // open: it may be anything but the mate of an outer page
		return b != 1 && int(b) != 2*len(h.want.Top)
	}
	return a%2 == 0 && b == a+1
}

// turned is the board with a side edge leading; see stack.turn.
func (b *board) turned(op Op) *board {
	out := &board{length: b.width, width: b.length}
	for x := range out.length {
		for y := range out.width {
			if op == Left {
				out.piles[x*out.width+y] = b.at(b.length-1-y, x)
			} else {
				out.piles[x*out.width+y] = b.at(y, b.width-1-x)
			}
		}
	}
	return out
}

// keep folds the scheme that was found for good and keeps it if every folio and head comes out.
func (h *hunt) keep(steps []Step) {
	sheet := Sheet{units.Length(h.want.AlongS) * units.Millimetre, units.Length(h.want.AlongT) * units.Millimetre}
	for _, first := range []Face{FaceUp, FaceDown} {
		s := Scheme{Steps: steps, First: first}
		f, err := s.Apply(sheet)
		if err != nil {
			panic(err) // the board took every fold
		}
		if h.agrees(f) {
			h.finds.add(s, h.feed)
		}
	}
}

func (h *hunt) agrees(f *Folded) bool {
	for i, p := range f.Panels {
		if !open(h.want.Top[i], p.TopFolio) || !open(h.want.Bottom[i], p.BottomFolio) {
			return false
		}
		if h.want.Heads != nil && h.want.Heads[i] != HeadNone && h.want.Heads[i] != p.Head {
			return false
		}
	}
	return true
}

// open tells whether a wanted folio is the one that came out, or any will do.
func open(want, got int) bool { return want == 0 || want == got }

// nameOf is the catalogue name of a scheme, if it has one.
func nameOf(s Scheme) string {
	text := s.String()
	for _, e := range catalogue {
		if e.first == s.First && e.steps == text {
			return e.name
		}
	}
	return ""
}
