package draw

import (
	"fmt"
	"math"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/tooling"
	"foldwright/internal/words"
)

// Label is what stands on the label of a set.
type Label struct {
	Set     string
	Class   tooling.Class
	Tools   []tooling.Tool
	Jobs    []string // it serves or served
	Address string   // what the QR code opens
}

// Stock is what labels are printed on: sheets of equal labels, or a roll with one label a page. All in mm.
type Stock struct {
	Name          string
	Page          Paper   // of a sheet; for a roll the label itself
	Label         Paper   // one label
	Left, Top     float64 // of the first label on the sheet
	StepX, StepY  float64 // from one label to the next
	Columns, Rows int
}

// Stocks lists the common sizes, by their dimensions alone.
func Stocks() []Stock {
	sheet := func(page Paper, name string, w, h float64, columns, rows int, left, top, stepX, stepY float64) Stock {
		return Stock{name, page, Paper{w, h}, left, top, stepX, stepY, columns, rows}
	}
	roll := func(w, h float64) Stock {
		return Stock{fmt.Sprintf("roll %g x %g", w, h), Paper{w, h}, Paper{w, h}, 0, 0, w, h, 1, 1}
	}
	return []Stock{
		sheet(A4, "A4 105 x 74", 105, 74, 2, 4, 0, 0.5, 105, 74),
		sheet(A4, "A4 99.1 x 67.7", 99.1, 67.7, 2, 4, 4.65, 13.1, 101.6, 67.7),
		sheet(A4, "A4 99.1 x 38.1", 99.1, 38.1, 2, 7, 4.65, 15.15, 101.6, 38.1),
		sheet(Letter, "Letter 4 x 3 1/3 in", 101.6, 84.667, 2, 3, 3.97, 12.7, 106.36, 84.667),
		sheet(Letter, "Letter 4 x 2 in", 101.6, 50.8, 2, 5, 3.97, 12.7, 106.36, 50.8),
		roll(101.6, 50.8),
		roll(100, 60),
		roll(76, 51),
	}
}

// place is where a label lies on the sheet, counted from 0 row by row.
func (s Stock) place(i int) Box {
	return Box{s.Left + float64(i%s.Columns)*s.StepX, s.Top + float64(i/s.Columns)*s.StepY, s.Label.Width, s.Label.Height}
}

// StockNames lists their names.
func StockNames() []string {
	var list []string
	for _, s := range Stocks() {
		list = append(list, s.Name)
	}
	return list
}

// StockNamed finds a stock by its name.
func StockNamed(name string) (Stock, error) {
	for _, s := range Stocks() {
		if strings.EqualFold(s.Name, strings.TrimSpace(name)) {
			return s, nil
		}
	}
	return Stock{}, fault.Fault{
		Kind: fault.Input, Code: "label-stock", Field: "stock",
		Wrong: fmt.Sprintf("there is no label stock %q", name), Right: "known: " + strings.Join(StockNames(), ", "),
	}
}

// Labels lays labels out on a stock, leaving out the first skip places of the first sheet, which were used before.
func Labels(labels []Label, s Stock, skip int, say *words.Speaker) ([]*Picture, error) {
	each := s.Columns * s.Rows
	if skip < 0 || skip >= each {
		return nil, fault.Fault{
			Kind: fault.Input, Code: "label-skip", Field: "skip",
			Wrong: fmt.Sprintf("%d places to leave out", skip), Right: fmt.Sprintf("0 to %d: a sheet of %s has %d", each-1, s.Name, each),
		}
	}
	var pages []*Picture
	for i := range labels {
		place := (skip + i) % each
		if place == 0 || pages == nil {
			pages = append(pages, &Picture{Width: s.Page.Width, Height: s.Page.Height, Title: say.Say("Labels of shaft sets")})
		}
		if err := labels[i].draw(pages[len(pages)-1], s.place(place).Inset(3), say); err != nil {
			return nil, err
		}
	}
	return pages, nil
}

// measures are the sizes of what stands on a label, mm.
type measures struct {
	module float64 // of the QR code: whole dots of printers with 203 and 300 dpi
	name   float64 // height of a capital of the set's name
	class  float64 // letters of the class
	text   float64 // letters of tools and jobs
}

// The height of a capital that is read at a distance of one metre, mm: five minutes of arc are 1.5 mm, and three times
// that is comfortable (common practice, no source). So 9 mm are read from two metres.
var (
	smallLabel = measures{0.5, 9, 3.4, 3.2}
	largeLabel = measures{0.75, 12, 4.4, 4.2}
)

// measuresFor picks the larger letters where the label is tall enough for them.
func measuresFor(b Box) measures {
	if b.H >= 50 {
		return largeLabel
	}
	return smallLabel
}

// draw fills a label: the name for two metres, the code beside it, then class, tools and jobs as far as they fit.
func (l *Label) draw(p *Picture, b Box, say *words.Speaker) error {
	code, err := NewQR(l.Address)
	if err != nil {
		return err
	}
	m := measuresFor(b)
	side := code.Side(m.module)
	edge := b.Right() - side + 2*m.module // half the quiet zone lies on the label's own margin
	p.QR(edge, b.Y-2*m.module, m.module, code)
	room := edge - b.X - 1
	size := fitSize(l.Set, m.name/CapHeight, room)
	y := b.Y - 1.5 + ascent*size // no accent reaches higher than the label's own margin
	p.Write(Text{X: b.X, Y: y, Size: size, Bold: true, String: l.Set})
	class := fitSize(l.className(say), m.class, room)
	y += descent*size + ascent*class
	p.Write(Text{X: b.X, Y: y, Size: class, String: l.className(say)})
	y += descent*class + 0.6
	below := max(y, b.Y+side-2*m.module+0.5)
	rest := writeLines(p, Box{b.X, y, room, below - y}, m.text, l.lines(say))
	l.overflow(p, Box{b.X, below, b.W, b.Bottom() - below}, m.text, rest, say)
	return nil
}

// className tells class and diameter, since bores must never be mixed up, and the least that one shaft weighs, so that
// people think before they lift. The kilograms are of bare steel; tools come on top.
func (l *Label) className(say *words.Speaker) string {
	return say.Say("%s · Ø %s · each shaft over %s kg", l.Class.Name, l.Class.Diameter, say.Number(math.Floor(l.Class.Mass()*10)/10, 1))
}

// labelLine is a line of the label.
type labelLine struct {
	text string
	bold bool
}

// lines are tools with their places, then jobs.
func (l *Label) lines(say *words.Speaker) []labelLine {
	var list []labelLine
	if len(l.Tools) == 0 {
		list = append(list, labelLine{say.Say("no tools: plain shafts"), true})
	}
	for _, t := range l.Tools {
		list = append(list, labelLine{say.Length(t.At) + "  " + say.Tool(t.Type), true})
	}
	if len(l.Jobs) > 0 {
		list = append(list, labelLine{say.Say("jobs: %s", strings.Join(l.Jobs, ", ")), false})
	}
	return list
}

// jobsWithin names as many jobs as fit into the room, and how many more there are.
func (l *Label) jobsWithin(size, room float64, say *words.Speaker) string {
	for n := len(l.Jobs) - 1; n > 0; n-- {
		text := say.Say("jobs: %s and %d more", strings.Join(l.Jobs[:n], ", "), len(l.Jobs)-n)
		if TextWidth(text, size, false) <= room {
			return text
		}
	}
	return shortened(say.Say("jobs: %s", l.Jobs[0]), size, room)
}

// writeLines writes lines into a box as long as they fit in height and width, and returns the others.
func writeLines(p *Picture, b Box, size float64, lines []labelLine) []labelLine {
	y := b.Y
	for i, line := range lines {
		if y+size*(1+descent) > b.Bottom() || TextWidth(line.text, size, line.bold) > b.W {
			return lines[i:]
		}
		p.Write(Text{X: b.X, Y: y + size, Size: size, Bold: line.bold, String: line.text})
		y += size * leading
	}
	return nil
}

// overflow writes what found no room beside the code below it, over the whole width. When even that is too little, tools
// are never dropped silently: the last line says how many more there are.
func (l *Label) overflow(p *Picture, b Box, size float64, lines []labelLine, say *words.Speaker) {
	y := b.Y
	for i, line := range lines {
		last := y+2*size*leading > b.Bottom()
		text, bold := line.text, line.bold
		more := last && i+1 < len(lines)
		if more {
			text, bold = say.Say("and %d more: scan the code", len(lines)-i), false
		}
		if y+size*(1+descent) <= b.Bottom() {
			if !bold && !more && TextWidth(text, size, false) > b.W {
				text = l.jobsWithin(size, b.W, say)
			}
			p.Write(Text{X: b.X, Y: y + size, Size: fitSize(text, size, b.W), Bold: bold, String: text})
		}
		if last {
			return
		}
		y += size * leading
	}
}
