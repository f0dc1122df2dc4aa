package draw

import "strings"

// block is a piece of a page that knows how tall it is at a width and can draw itself there.
type block interface {
	height(width float64) float64
	draw(p *Picture, b Box)
}

// stack is blocks one below the other.
type stack []block

func (s stack) height(width float64) float64 {
	sum := 0.0
	for _, b := range s {
		sum += b.height(width)
	}
	return sum
}

func (s stack) draw(p *Picture, b Box) {
	for _, part := range s {
		h := part.height(b.W)
		part.draw(p, Box{b.X, b.Y, b.W, h})
		b.Y += h
	}
}

// beside is two tables next to each other. The right one gets the width it needs; the left one is set smaller where what
// is left would break its lines.
type beside struct{ left, right table }

func (s beside) parts(width float64) (left table, room, right float64) {
	right = s.right.natural()
	room = width - columnGap - right
	return s.left.fitted(room), room, right
}

func (s beside) height(width float64) float64 {
	left, room, right := s.parts(width)
	return max(left.height(room), s.right.height(right))
}

func (s beside) draw(p *Picture, b Box) {
	left, room, right := s.parts(b.W)
	left.draw(p, Box{b.X, b.Y, room, b.H})
	s.right.draw(p, Box{b.Right() - right, b.Y, right, b.H})
}

// space is a gap between blocks.
type space float64

func (s space) height(float64) float64 { return float64(s) }
func (s space) draw(*Picture, Box)     {}

// heading is a line that names what follows, with an aside at its right end, over a rule across its column.
type heading struct{ name, aside string }

const headingSize = 3.2

func (h heading) height(float64) float64 { return headingSize + 3.2 }

func (h heading) draw(p *Picture, b Box) {
	p.Write(Text{X: b.X, Y: b.Y + headingSize + 0.6, Size: headingSize, Bold: true, String: h.name})
	room := b.W - TextWidth(h.name, headingSize, true) - columnGap
	p.Write(Text{X: b.Right(), Y: b.Y + headingSize + 0.6, Size: fitSize(h.aside, headingSize, room), Anchor: End, String: h.aside})
	p.Line(b.X, b.Y+headingSize+1.8, b.Right(), b.Y+headingSize+1.8, Pen{Width: Medium})
}

// paragraph is text that is broken into lines at blanks.
type paragraph struct {
	text   string
	size   float64
	bold   bool
	ink    Ink
	indent float64 // of all lines but the first
	mark   string  // before the first line, in the indent
}

const leading = 1.32

func (t paragraph) lines(width float64) []string { return wrap(t.text, t.size, t.bold, width-t.indent) }

func (t paragraph) height(width float64) float64 {
	return float64(len(t.lines(width))) * t.size * leading
}

func (t paragraph) draw(p *Picture, b Box) {
	if t.mark != "" {
		p.Write(Text{X: b.X, Y: b.Y + t.size, Size: t.size, Bold: true, Ink: t.ink, String: t.mark})
	}
	for i, line := range t.lines(b.W) {
		p.Write(Text{X: b.X + t.indent, Y: b.Y + t.size + float64(i)*t.size*leading, Size: t.size, Bold: t.bold, Ink: t.ink, String: line})
	}
}

// wrap breaks a text into lines no wider than the room; a word that is wider than that is broken inside.
func wrap(text string, size float64, bold bool, room float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		for {
			next := word
			if line != "" {
				next = line + " " + word
			}
			if TextWidth(next, size, bold) <= room {
				line = next
				break
			}
			if line != "" {
				lines, line = append(lines, line), ""
				continue
			}
			head, tail := breakWord(word, size, bold, room)
			lines, word = append(lines, head), tail
			if word == "" {
				break
			}
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// breakWord cuts a word where it fills the room; at least one letter stays before the cut.
func breakWord(word string, size float64, bold bool, room float64) (head, tail string) {
	letters := []rune(word)
	n := 1
	for n < len(letters) && TextWidth(string(letters[:n+1]), size, bold) <= room {
		n++
	}
	return string(letters[:n]), string(letters[n:])
}

// table is rows of texts in columns. Figures align at the right, words at the left; the last column takes what is left of
// the width and wraps.
type table struct {
	head  []string
	rows  [][]string
	right []bool // which columns align right
	bold  []bool // which columns are bold
	size  float64
	first float64 // the least width of the first column
}

const columnGap = 3.0

// widths are the natural widths of the columns, but that of the last one is what remains.
func (t table) widths(width float64) []float64 {
	list := t.naturals()
	last := len(list) - 1
	list[last] = width
	for _, w := range list[:last] {
		list[last] -= w + columnGap
	}
	return list
}

// naturals are the widths of the columns at which nothing wraps.
func (t table) naturals() []float64 {
	list := make([]float64, len(t.right))
	list[0] = t.first
	for _, row := range t.allRows() {
		for c, text := range row {
			list[c] = max(list[c], TextWidth(text, t.size, true), TextWidth(text, t.size, false))
		}
	}
	return list
}

// natural is the width at which nothing wraps.
func (t table) natural() float64 {
	sum := -columnGap
	for _, w := range t.naturals() {
		sum += w + columnGap
	}
	return sum
}

// fitted is the table in letters small enough that nothing wraps.
func (t table) fitted(width float64) table {
	gaps := columnGap * float64(len(t.right)-1)
	if n := t.natural(); n > width {
		t.size *= 0.999 * (width - gaps) / (n - gaps) // so that no rounding breaks a line
	}
	return t
}

func (t table) allRows() [][]string {
	if t.head == nil {
		return t.rows
	}
	return append([][]string{t.head}, t.rows...)
}

// rowLines is how many lines a row takes: its last column may wrap.
func (t table) rowLines(row []string, widths []float64) []string {
	last := len(widths) - 1
	if len(row) <= last {
		return []string{""}
	}
	lines := wrap(row[last], t.size, t.bold != nil && t.bold[last], widths[last])
	if len(lines) == 0 {
		return []string{""}
	}
	return lines
}

func (t table) pitch() float64 { return t.size * leading * 1.06 }

func (t table) height(width float64) float64 {
	widths, n := t.widths(width), 0
	for _, row := range t.allRows() {
		n += len(t.rowLines(row, widths))
	}
	return float64(n) * t.pitch()
}

func (t table) draw(p *Picture, b Box) {
	widths := t.widths(b.W)
	y := b.Y
	for i, row := range t.allRows() {
		head := t.head != nil && i == 0
		lines := t.rowLines(row, widths)
		x := b.X
		for c, w := range widths {
			texts := []string{""}
			if c == len(widths)-1 {
				texts = lines
			} else if c < len(row) {
				texts = row[c : c+1]
			}
			for k, s := range texts {
				p.cell(t, c, head, Box{x, y + float64(k)*t.pitch(), w, t.pitch()}, s)
			}
			x += w + columnGap
		}
		y += float64(len(lines)) * t.pitch()
	}
}

func (p *Picture) cell(t table, column int, head bool, b Box, s string) {
	if s == "" {
		return
	}
	text := Text{X: b.X, Y: b.Y + t.size, Size: t.size, String: s}
	if head {
		text.Ink = Grey
	} else if t.bold != nil {
		text.Bold = t.bold[column]
	}
	if t.right[column] {
		text.X, text.Anchor = b.Right(), End
	}
	p.Write(text)
}

// sketch is a drawing of fixed height inside a column.
type sketch struct {
	tall  float64
	paint func(p *Picture, b Box)
}

func (s sketch) height(float64) float64 { return s.tall }
func (s sketch) draw(p *Picture, b Box) { s.paint(p, b) }

// flow fills a column of a page with blocks as long as they fit and returns those that did not, and the room that is left.
func flow(p *Picture, column Box, blocks []block) (rest []block, room Box) {
	for i, b := range blocks {
		h := b.height(column.W)
		if h > column.H {
			return blocks[i:], column
		}
		b.draw(p, Box{column.X, column.Y, column.W, h})
		column.Y += h
		column.H -= h
	}
	return nil, column
}

// scales are how far a column may shrink so that it need not go on on the next page, where nobody looks.
var scales = []float64{1, 0.93, 0.87, 0.81}

// flowScaled is flow at the largest scale at which all blocks fit; at full scale when none will do.
func flowScaled(p *Picture, column Box, blocks []block) (rest []block, room Box) {
	best := 1.0
	for _, scale := range scales {
		if stack(blocks).height(column.W/scale) <= column.H/scale {
			best = scale
			break
		}
	}
	q := &Picture{}
	rest, room = flow(q, Box{0, 0, column.W / best, column.H / best}, blocks)
	for _, m := range q.Marks {
		p.Marks = append(p.Marks, m.placed(column.X, column.Y, best))
	}
	return rest, Box{column.X, column.Y + room.Y*best, column.W, room.H * best}
}
