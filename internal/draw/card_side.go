package draw

import (
	"fmt"
	"strconv"

	"foldwright/internal/settings"
	"foldwright/internal/words"
)

// sideBlocks are docket, feed, minutes, notes and cautions.
func (c cardSay) sideBlocks() []block {
	list := []block{
		stack{heading{name: c.say.Say("Docket")}, c.docket(), space(2)},
		stack{heading{name: c.say.Say("Feed")}, c.feed()},
		c.cautions(),
	}
	list = append(list, c.minutes()...)
	for i, n := range c.Task.Settings.Notes {
		if i == 0 {
			list = append(list, stack{heading{name: c.say.Say("Notes")}, c.note(n)}) // the heading never stands alone
			continue
		}
		list = append(list, c.note(n))
	}
	return list
}

func (c cardSay) docket() block {
	j := c.Job
	caliper, estimated := j.Stock.Caliper()
	thick := c.say.Micron(caliper)
	if estimated {
		thick = c.say.Say("about %s, measure it", words.Micron(caliper))
	}
	done := c.Folded.Finished()
	t := table{right: []bool{false, false}, bold: []bool{false, true}, size: cardText}
	t.rows = [][]string{
		{c.say.Say("sheet"), c.say.Say("%s × %s", words.Bare(j.Sheet.Length), j.Sheet.Width)},
		{c.say.Say("stock"), fmt.Sprintf("%s, %s", j.Stock.Name, c.say.Grammage(j.Stock.Grammage))},
		{c.say.Say("caliper"), thick},
		{c.say.Say("scheme"), c.scheme()},
		{c.say.Say("folded"), c.say.Say("%s × %s, layers: %d", words.Bare(done.Length), words.Bare(done.Width), done.Layers)},
		{c.say.Say("sheets"), c.say.Say("%d", j.Sheets)},
		{c.say.Say("sheets/h"), c.say.Say("%d", c.Task.Settings.SheetsPerHour)},
	}
	if c.Task.Settings.Streams > 1 {
		t.rows = append(t.rows, []string{c.say.Say("pieces side by side"), strconv.Itoa(c.Task.Settings.Streams)})
	}
	return t
}

func (c cardSay) scheme() string {
	if c.Job.Scheme.Name != "" {
		return c.Job.Scheme.Name
	}
	return c.Job.Scheme.String()
}

// feed says which edge leads and which face looks up, over a sketch of the sheet as drawn with that edge marked.
func (c cardSay) feed() block {
	return stack{paragraph{text: c.feedWords(), size: cardText, bold: true}, sketch{38, c.feedSketch}}
}

func (c cardSay) feedWords() string {
	face := c.say.Say("front up")
	if c.Task.Settings.Feed.FaceUp == settings.Back {
		face = c.say.Say("back up")
	}
	edge := map[settings.Edge]string{
		settings.S0: c.say.Say("leading edge as drawn"), settings.S1: c.say.Say("tail as drawn"),
		settings.T0: c.say.Say("left edge as drawn"), settings.T1: c.say.Say("right edge as drawn"),
	}[c.Task.Settings.Feed.Leading]
	return c.say.Say("leads: %s", edge) + ", " + face
}

// feedSketch draws the front of the sheet as drawn, with creases and folios, and the leading edge thick with an arrow out
// of it.
func (c cardSay) feedSketch(p *Picture, b Box) {
	sc := fit(c.Folded.Sheet.Length, c.Folded.Sheet.Width, b.W-18, b.H-13)
	w, h := sc.mm(c.Folded.Sheet.Width), sc.mm(c.Folded.Sheet.Length)
	sheet := Box{b.X + (b.W-w)/2, b.Y + (b.H-h)/2, w, h}
	p.Outline(sheet, penEdge)
	v := &sheetView{p: p, f: c.Folded, side: FrontSide, scale: sc, x: sheet.X, y: sheet.Y}
	v.tools(c.Job.Operations)
	v.creases()
	v.folios()
	p.leads(sheet, c.Task.Settings.Feed.Leading)
}

// leads marks the edge that goes first, with an arrow out of it.
func (p *Picture) leads(sheet Box, edge settings.Edge) {
	const out = 5.0
	x, y := sheet.X+sheet.W*0.75, sheet.Y+sheet.H*0.75 // off the numbers of the creases
	line, tip, dx, dy := []Point(nil), Point{}, 0.0, 0.0
	switch edge {
	case settings.S0:
		line, tip, dy = []Point{{sheet.X, sheet.Y}, {sheet.Right(), sheet.Y}}, Point{x, sheet.Y - out}, -1
	case settings.S1:
		line, tip, dy = []Point{{sheet.X, sheet.Bottom()}, {sheet.Right(), sheet.Bottom()}}, Point{x, sheet.Bottom() + out}, 1
	case settings.T0:
		line, tip, dx = []Point{{sheet.X, sheet.Y}, {sheet.X, sheet.Bottom()}}, Point{sheet.X - out, y}, -1
	case settings.T1:
		line, tip, dx = []Point{{sheet.Right(), sheet.Y}, {sheet.Right(), sheet.Bottom()}}, Point{sheet.Right() + out, y}, 1
	}
	p.Path(line, Pen{Width: 1.2, Ink: Orange})
	p.arrow(tip, dx, dy, 4, Orange)
}

// minutes lists the expected make-ready line by line, and the run. The heading never stands alone, and the sums stay
// together.
func (c cardSay) minutes() []block {
	makeready, run := c.say.Number(c.Task.Makeready.Minutes(), 1), c.say.Number(c.Task.Run.Minutes(), 0)
	first := max(TextWidth(makeready, cardText, true), TextWidth(run, cardText, true))
	lines := make([]block, 0, len(c.Task.Lines)+1)
	for _, l := range c.Task.Lines {
		lines = append(lines, table{right: []bool{true, false}, size: cardSmall, first: first, rows: [][]string{
			{c.say.Number(l.Time.Minutes(), 1), c.say.Say("%s: %s", l.What, l.Why)},
		}})
	}
	head := stack{heading{name: c.say.Say("Minutes")}}
	if c.Task.Before != nil {
		head = append(head, paragraph{text: c.say.Say("after job %s", c.Task.Before.Job), size: cardText, ink: Grey})
	}
	if len(lines) > 0 {
		head, lines = append(head, lines[0]), lines[1:]
	}
	sums := table{right: []bool{true, false}, bold: []bool{true, true}, size: cardText, rows: [][]string{
		{makeready, c.say.Say("make-ready in all")}, {run, c.say.Say("run")},
	}}
	return append(append([]block{head}, lines...), stack{sums, space(2)})
}

func (c cardSay) note(n settings.Note) block {
	return stack{
		paragraph{text: c.say.Text(n.Text), size: cardSmall, indent: 3, mark: "•"},
		paragraph{text: c.say.Text(n.Source), size: cardSmall * 0.88, ink: Grey, indent: 3, mark: " "},
	}
}

// cautions stand on every card.
func (c cardSay) cautions() block {
	list := stack{heading{name: c.say.Say("Cautions")}}
	for _, text := range settings.Cautions() {
		list = append(list, paragraph{text: c.say.Say(text), size: cardSmall, indent: 3, mark: "!"})
	}
	return append(list, space(2))
}
