package draw

import (
	"time"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/words"
)

// Paper is a size of page that cards are printed on.
type Paper struct{ Width, Height float64 }

// The papers of the office, mm.
var (
	A4     = Paper{210, 297}
	Letter = Paper{215.9, 279.4}
)

// Card is everything a set-up card says.
type Card struct {
	Shop    *shop.Shop
	Job     *job.Job
	Folded  *fold.Folded
	Folder  *machine.Folder
	Task    plan.Task       // settings, minutes, sets, and what the folder was set for before
	Planned bool            // the times of the task are to be kept
	Places  []tooling.Place // where the set of each station of the task is fetched from
	Address string          // what the QR code opens
}

// The measures of a card, mm. Columns: units on the left, everything else on the right.
const (
	cardMargin   = 10.0
	cardHead     = 26.0
	cardFoot     = 24.0
	cardGap      = 6.0
	cardLeft     = 0.635 // share of the left column
	cardModule   = 0.5   // of the QR code: 4 dots of a 203 dpi printer
	cardText     = 2.9
	cardSmall    = 2.4
	cardFigures  = 3.6
	cardOverhead = 6.0 // the line at the top of pages after the first
)

// Pages lays the card out, on one page where it fits.
func (c *Card) Pages(paper Paper, say *words.Speaker) ([]*Picture, error) {
	code, err := NewQR(c.Address)
	if err != nil {
		return nil, err
	}
	s := cardSay{c, say}
	left, right := s.unitBlocks(), s.sideBlocks()
	var pages []*Picture
	for len(left)+len(right) > 0 || pages == nil {
		p := &Picture{Width: paper.Width, Height: paper.Height, Title: say.Say("Set-up card: job %s on %s", c.Job.Name, c.Folder.Name)}
		body := Box{cardMargin, cardMargin, paper.Width - 2*cardMargin, paper.Height - 2*cardMargin}
		if pages == nil {
			s.head(p, body, code)
			s.asRun(p, Box{body.X, body.Bottom() - cardFoot, body.W, cardFoot})
			body = Box{body.X, body.Y + cardHead, body.W, body.H - cardHead - cardFoot - 2}
		} else {
			s.runningHead(p, body, len(pages)+1)
			body = Box{body.X, body.Y + cardOverhead, body.W, body.H - cardOverhead}
		}
		before := len(left) + len(right)
		wide := (body.W - cardGap) * cardLeft
		var room Box
		left, room = flowScaled(p, Box{body.X, body.Y, wide, body.H}, left)
		right, _ = flow(p, Box{body.X + wide + cardGap, body.Y, body.W - cardGap - wide, body.H}, right)
		if len(left) == 0 {
			right, _ = flow(p, room, right) // what found no room on the right goes below the units
		}
		if pages != nil && len(left)+len(right) == before {
			panic("draw: a block of the set-up card is taller than a page")
		}
		pages = append(pages, p)
	}
	return pages, nil
}

// cardSay is a card with the words of its reader.
type cardSay struct {
	*Card
	say *words.Speaker
}

// head writes who and where in letters for two metres, with the QR code in the corner.
func (c cardSay) head(p *Picture, b Box, code *QR) {
	side := code.Side(cardModule)
	p.QR(b.Right()-side+QuietZone*cardModule, b.Y-QuietZone*cardModule, cardModule, code)
	room := b.W - side
	p.Write(Text{X: b.X, Y: b.Y + 8, Size: fitSize(c.Job.Name, 10, room*0.6), Bold: true, String: c.Job.Name})
	p.Write(Text{X: b.X + room - 2, Y: b.Y + 8, Size: fitSize(c.Folder.Name, 10, room*0.36), Bold: true, Anchor: End, String: c.Folder.Name})
	p.Write(Text{X: b.X, Y: b.Y + 14.4, Size: 4, String: shortened(c.title(), 4, room-4)})
	p.Write(Text{X: b.X, Y: b.Y + 20, Size: 3.2, Ink: Grey, String: shortened(c.when(), 3.2, room-4)})
	p.Line(b.X, b.Y+23, b.X+room-4, b.Y+23, Pen{Width: Broad})
}

func (c cardSay) title() string {
	if c.Job.Customer == "" {
		return c.Job.Title
	}
	return c.Job.Title + " · " + c.Job.Customer
}

// when says the shop, when it starts and when it is due.
func (c cardSay) when() string {
	text := c.Shop.Name
	if c.Planned {
		text += " · " + c.say.Say("make-ready from %s", c.clock(c.Task.MakereadyStart))
	}
	if !c.Job.Due.IsZero() {
		text += " · " + c.say.Say("due %s", c.clock(c.Job.Due))
	}
	return text
}

func (c cardSay) clock(t time.Time) string { return t.In(c.Shop.Zone).Format("2006-01-02 15:04") }

func (c cardSay) runningHead(p *Picture, b Box, page int) {
	p.Write(Text{X: b.X, Y: b.Y + 3, Size: 3.2, Bold: true, String: shortened(c.Job.Name+" · "+c.Folder.Name, 3.2, b.W*0.8)})
	p.Write(Text{X: b.Right(), Y: b.Y + 3, Size: 3.2, Anchor: End, Ink: Grey, String: c.say.Say("page %d", page)})
}

// asRun leaves room for what it really was, by hand.
func (c cardSay) asRun(p *Picture, b Box) {
	p.Write(Text{X: b.X, Y: b.Y + 4, Size: headingSize, Bold: true, String: c.say.Say("As run, by hand")})
	fields := []string{
		c.say.Say("make-ready from – to"), c.say.Say("plate stops"), c.say.Say("side guides"), c.say.Say("tools"), c.say.Say("sheets/h"), c.say.Say("good sheets"), c.say.Say("name"),
	}
	weights := []float64{1.6, 1.6, 1.3, 1.6, 0.9, 1, 1}
	total := 0.0
	for _, w := range weights {
		total += w
	}
	x := b.X
	for i, f := range fields {
		w := b.W * weights[i] / total
		cell := Box{x, b.Y + 6, w, b.H - 6}
		p.Outline(cell, penRuler)
		p.Write(Text{X: x + 1, Y: cell.Y + 3, Size: fitSize(f, 2.4, w-2), Ink: Grey, String: f})
		x += w
	}
}
