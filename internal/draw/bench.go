package draw

import (
	"strconv"
	"time"

	"foldwright/internal/settings"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// BenchCard is what the bench needs to make one pattern of another on a pair of shafts.
type BenchCard struct {
	Shop   string
	Set    string
	Class  tooling.Class
	Job    string // what it is for; empty when not for one job
	Goes   string // to which folder and station; empty when to the rack
	Place  string // where the set is now
	By     time.Time
	Zone   *time.Location
	Work   time.Duration
	Have   []tooling.Tool
	Want   []tooling.Tool
	Steps  []tooling.Change // in the order of the hands
	Body   func(tooling.Type) tooling.Body
	Margin units.Length // how far a tool may stand from its place
}

// Pages lays out the card and, behind it, the full-scale strip of what is wanted.
func (c *BenchCard) Pages(paper Paper, say *words.Speaker) ([]*Picture, error) {
	p := &Picture{Width: paper.Width, Height: paper.Height, Title: say.Say("Bench card: set %s", c.Set)}
	body := Box{cardMargin, cardMargin, paper.Width - 2*cardMargin, paper.Height - 2*cardMargin}
	c.head(p, body, say)
	blocks := []block{
		stack{heading{name: say.Say("Now on the shafts")}, c.picture(c.Have, say), space(3)},
		stack{heading{name: say.Say("To do, in this order")}, c.steps(say), space(3)},
		stack{heading{name: say.Say("Wanted on the shafts")}, c.picture(c.Want, say), c.positions(say), space(3)},
		benchCautions(say),
	}
	rest, _ := flow(p, Box{body.X, body.Y + cardHead, body.W, body.H - cardHead}, blocks)
	pages := []*Picture{p}
	for len(rest) > 0 {
		next := &Picture{Width: paper.Width, Height: paper.Height, Title: p.Title}
		before := len(rest)
		if rest, _ = flow(next, body, rest); len(rest) == before {
			panic("draw: a block of the bench card is taller than a page")
		}
		pages = append(pages, next)
	}
	return append(pages, c.shaft(c.Want).Strip(paper, say)...), nil
}

func (c *BenchCard) head(p *Picture, b Box, say *words.Speaker) {
	p.Write(Text{X: b.X, Y: b.Y + 8, Size: fitSize(c.Set, 10, b.W*0.6), Bold: true, String: c.Set})
	p.Write(Text{X: b.Right(), Y: b.Y + 8, Size: 4, Anchor: End, String: c.Class.Name})
	line := say.Say("now: %s", c.Place)
	if c.Job != "" {
		line += " · " + say.Say("for job %s", c.Job)
	}
	if c.Goes != "" {
		line += " · " + say.Say("goes to %s", c.Goes)
	}
	p.Write(Text{X: b.X, Y: b.Y + 14.4, Size: fitSize(line, 4, b.W), String: line})
	second := c.Shop + " · " + say.Say("bench work %s", c.Work)
	if !c.By.IsZero() {
		second += " · " + say.Say("ready by %s", c.By.In(c.Zone).Format("2006-01-02 15:04"))
	}
	p.Write(Text{X: b.X, Y: b.Y + 20, Size: fitSize(second, 3.2, b.W), Ink: Grey, String: second})
	p.Line(b.X, b.Y+23, b.Right(), b.Y+23, Pen{Width: Broad})
}

func (c *BenchCard) shaft(tools []tooling.Tool) *Shaft {
	return &Shaft{Name: c.Set, Class: c.Class, Usable: c.Class.Usable(), Tools: tools, Body: c.Body, Paper: tooling.Window{Lo: 1, Hi: 0}}
}

func (c *BenchCard) picture(tools []tooling.Tool, say *words.Speaker) block {
	if len(tools) == 0 {
		return paragraph{text: say.Say("no tools: plain shafts"), size: cardFigures}
	}
	return sketch{ElevationHeight, func(p *Picture, b Box) { p.Elevation(b, c.shaft(tools), say) }}
}

// steps lists the work with a box to tick.
func (c *BenchCard) steps(say *words.Speaker) block {
	list := stack{}
	for i, s := range c.Steps {
		text := stepWords(s, say)
		n := strconv.Itoa(i + 1)
		list = append(list, sketch{7, func(p *Picture, b Box) {
			p.Outline(Box{b.X, b.Y + 1, 4.4, 4.4}, Pen{Width: Medium})
			p.Write(Text{X: b.X + 7, Y: b.Y + 4.8, Size: 4, Bold: true, String: n})
			p.Write(Text{X: b.X + 14, Y: b.Y + 4.8, Size: fitSize(text, 4, b.W-14), String: text})
		}})
	}
	if len(list) == 0 {
		return paragraph{text: say.Say("nothing: it stands as wanted"), size: cardFigures}
	}
	return list
}

func stepWords(s tooling.Change, say *words.Speaker) string {
	switch s.Do {
	case tooling.Removing:
		return say.Say("take off %s at %s", say.Tool(s.Type), s.From)
	case tooling.Sliding:
		return say.Say("slide %s from %s to %s", say.Tool(s.Type), s.From, s.To)
	case tooling.Adding:
		return say.Say("fit %s at %s", say.Tool(s.Type), s.To)
	}
	return say.Say("leave %s at %s", say.Tool(s.Type), s.From)
}

// positions lists what must stand where in the end, with the spacing to the tool before.
func (c *BenchCard) positions(say *words.Speaker) block {
	t := table{
		head:  []string{"", say.Say("on the shaft"), say.Say("from the tool before"), ""},
		right: []bool{true, true, true, false}, bold: []bool{true, true, false, false}, size: cardFigures,
	}
	for i, tool := range c.Want {
		spacing := ""
		if i > 0 {
			spacing = say.Bare(tool.At - c.Want[i-1].At)
		}
		t.rows = append(t.rows, []string{strconv.Itoa(i + 1), say.Length(tool.At), spacing, say.Tool(tool.Type)})
	}
	if len(c.Want) == 0 {
		return space(0)
	}
	return stack{t, paragraph{text: say.Say("Every spacing within %s; check with the full-scale strip.", c.Margin), size: cardText}}
}

func benchCautions(say *words.Speaker) block {
	list := stack{heading{name: say.Say("Cautions")}}
	for _, text := range settings.BenchCautions() {
		list = append(list, paragraph{text: say.Say(text), size: cardText, indent: 3, mark: "!"})
	}
	return list
}
