package draw

import (
	"strconv"
	"strings"
	"time"

	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/words"
)

// BenchCard is what the bench needs to make one pattern of another on a pair of shafts.
type BenchCard struct {
	Shop            *shop.Shop
	Set             *tooling.Set
	Place           tooling.Place // of the set now
	Job             string        // what it is for
	Folder, Station string        // where it goes
	By              time.Time     // zero when no make-ready waits for it
	Frees           bool          // only stripped, to free its tools
	Work            time.Duration
	Have, Want      []tooling.Tool
	Steps           []tooling.Change // in the order of the hands
	Address         string           // what the QR code opens
}

// Pages lays out the card and, behind it, the full-scale strip of what is wanted.
func (c *BenchCard) Pages(paper Paper, say *words.Speaker) ([]*Picture, error) {
	code, err := NewQR(c.Address)
	if err != nil {
		return nil, err
	}
	p := &Picture{Width: paper.Width, Height: paper.Height, Title: say.Say("Bench card: set %s", c.Set.Label)}
	body := Box{cardMargin, cardMargin, paper.Width - 2*cardMargin, paper.Height - 2*cardMargin}
	c.head(p, body, code, say)
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
	if len(c.Want) == 0 {
		return pages, nil
	}
	return append(pages, c.shaft(c.Want).Strip(paper, say)...), nil
}

// head writes which set it is in letters for two metres, what for and by when, with the QR code of the set in the corner.
func (c *BenchCard) head(p *Picture, b Box, code *QR, say *words.Speaker) {
	side := code.Side(cardModule)
	p.QR(b.Right()-side+QuietZone*cardModule, b.Y-QuietZone*cardModule, cardModule, code)
	room := b.W - side
	p.Write(Text{X: b.X, Y: b.Y + 8, Size: fitSize(c.Set.Label, 10, room*0.6), Bold: true, String: c.Set.Label})
	p.Write(Text{X: b.X + room - 2, Y: b.Y + 8, Size: fitSize(c.Set.Class, 6, room*0.36), Anchor: End, String: c.Set.Class})
	p.Write(Text{X: b.X, Y: b.Y + 14.4, Size: 4, String: shortened(c.way(say), 4, room-4)})
	p.Write(Text{X: b.X, Y: b.Y + 20, Size: 3.2, Ink: Grey, String: shortened(c.when(say), 3.2, room-4)})
	p.Line(b.X, b.Y+23, b.X+room-4, b.Y+23, Pen{Width: Broad})
}

// way says where the set is, what it is for and where it goes.
func (c *BenchCard) way(say *words.Speaker) string {
	where := say.Say("now: %s", placeWords(c.Place, say))
	if c.Place.Folder != "" { // it may have come off since
		where = say.Say("last on %s", placeWords(c.Place, say))
	}
	parts := []string{where, say.Say("for job %s", c.Job)}
	if c.Frees {
		parts = append(parts, say.Say("only strip it: the job needs its tools"))
	} else {
		parts = append(parts, say.Say("goes to %s", c.Folder+" "+c.Station))
	}
	return strings.Join(parts, " · ")
}

func (c *BenchCard) when(say *words.Speaker) string {
	text := c.Shop.Name + " · " + say.Say("bench work %s", c.Work)
	if !c.By.IsZero() {
		text += " · " + say.Say("ready by %s", c.By.In(c.Shop.Zone).Format("2006-01-02 15:04"))
	}
	return text
}

func (c *BenchCard) shaft(tools []tooling.Tool) *Shaft {
	class, _ := c.Shop.Class(c.Set.Class)
	return &Shaft{
		Name: c.Set.Label, Class: *class, Usable: class.Usable(), Tools: tools, Body: bodiesOf(c.Shop, class.Name), Paper: tooling.Window{Lo: 1, Hi: 0},
	}
}

func (c *BenchCard) picture(tools []tooling.Tool, say *words.Speaker) block {
	if len(tools) == 0 {
		return paragraph{text: say.Say("no tools: plain shafts"), size: cardFigures}
	}
	shaft := c.shaft(tools)
	return sketch{shaft.Height(), func(p *Picture, b Box) { p.Elevation(b, shaft, say) }}
}

// steps lists the work with a box to tick.
func (c *BenchCard) steps(say *words.Speaker) block {
	list := stack{}
	for i, s := range c.Steps {
		text := StepWords(s, say)
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

// StepWords is a step of the bench as the hands are told.
func StepWords(s tooling.Change, say *words.Speaker) string {
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
	return stack{t, paragraph{text: say.Say("Every spacing within %s; check with the full-scale strip.", c.Shop.House.Tolerance), size: cardText}}
}

func benchCautions(say *words.Speaker) block {
	list := stack{heading{name: say.Say("Cautions")}}
	for _, text := range settings.BenchCautions() {
		list = append(list, paragraph{text: say.Say(text), size: cardText, indent: 3, mark: "!"})
	}
	return list
}
