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
// the section. So few folds remain at each step that a map without open pages is done in well under a millisecond.
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
		return nil, fault.Fault{
			Kind: fault.No, Code: codeNoScheme, Field: "pages",
			Wrong: "no scheme of folds right across the stack gives this folio map", Right: "check the map against a folded and numbered sheet",
		}
	}
	return all.sorted(), nil
}

// finds collects what the feeds give; the same scheme under several feeds is one find.
type finds struct {
	list  []find
	nodes int
}

// find is a scheme with what it is told apart and sorted by.
type find struct {
	Found
	text    string
	folds   int
	asDrawn bool // the sheet fed as drawn is among its feeds
}

func (f *finds) add(s Scheme, feed Feed) {
	text := s.String()
	i := slices.IndexFunc(f.list, func(have find) bool { return have.Scheme.First == s.First && have.text == text })
	if i < 0 {
		i = len(f.list)
		s.Name = nameOf(text, s.First)
		f.list = append(f.list, find{Found: Found{Scheme: s}, text: text, folds: s.Folds(), asDrawn: feed == Feed{}})
	}
	f.list[i].Feeds = append(f.list[i].Feeds, feed)
}

func (f *finds) sorted() []Found {
	slices.SortStableFunc(f.list, func(a, b find) int {
		return cmp.Or(a.folds-b.folds, index(b.asDrawn)-index(a.asDrawn), cmp.Compare(a.text, b.text))
	})
	out := make([]Found, len(f.list))
	for i := range f.list {
		out[i] = f.list[i].Found
	}
	return out
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
		h.keep(steps, b.piles[0])
		return
	}
	if len(h.finds.list) > foundMost || h.finds.nodes > nodesMost || (Scheme{Steps: steps}).Folds() == MostFolds {
		return
	}
	h.folds(b, steps, along)
	if len(steps) == 0 || b.width == 1 {
		return
	}
	for _, turn := range [2]Op{Left, Right} {
		var turned board
		b.turn(turn, &turned)
		h.folds(&turned, append(steps[:len(steps):len(steps)], Step{Op: turn}), other(along))
	}
}

// folds tries every fold across the travel.
func (h *hunt) folds(b *board, steps []Step, along Axis) {
	panels := h.want.AlongS
	if along == T {
		panels = h.want.AlongT
	}
	var next board
	for d := 1; d < b.length; d++ {
		for _, op := range [2]Op{Up, Down} {
			if h.fold(b, d, op, &next) {
				step := Step{Op: op, Depth: Depth{Share: ratio(int64(d), int64(panels))}}
				h.from(&next, append(steps[:len(steps):len(steps)], step), along)
			}
		}
	}
}

// fold makes out the board after a fold; it gives up, with false, when two pages meet that do not face each other in the
// section.
func (h *hunt) fold(b *board, d int, op Op, out *board) bool {
	out.length, out.width = max(d, b.length-d), b.width
	for x := range out.length {
		rest, moved := x+d, d-1-x
		for y := range b.width {
			p := &out.piles[x*b.width+y]
			switch {
			case rest >= b.length:
				*p = b.at(moved, y).over()
				continue
			case moved < 0:
				*p = b.at(rest, y)
				continue
			}
			above, below := b.at(moved, y).over(), b.at(rest, y)
			if op == Down {
				above, below = below, above
			}
			if !h.face(above.bottom, below.top) {
				return false
			}
			*p = pile{above.top, below.bottom}
		}
	}
	return true
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

// turn makes out the board with a side edge leading; see stack.turn.
func (b *board) turn(op Op, out *board) {
	out.length, out.width = b.width, b.length
	for x := range out.length {
		for y := range out.width {
			if op == Left {
				out.piles[x*out.width+y] = b.at(b.length-1-y, x)
			} else {
				out.piles[x*out.width+y] = b.at(y, b.width-1-x)
			}
		}
	}
}

// keep folds the scheme that was found for good and keeps it if every folio and head comes out. An outer page that is
// known tells which face carries folio 1.
func (h *hunt) keep(steps []Step, outer pile) {
	sheet := Sheet{units.Length(h.want.AlongS) * units.Millimetre, units.Length(h.want.AlongT) * units.Millimetre}
	for first, page := range [2]int16{FaceUp: outer.top, FaceDown: outer.bottom} {
		if page > 1 {
			continue
		}
		s := Scheme{Steps: steps, First: Face(first)}
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
func nameOf(steps string, first Face) string {
	for _, e := range catalogue {
		if e.first == first && e.steps == steps {
			return e.name
		}
	}
	return ""
}
