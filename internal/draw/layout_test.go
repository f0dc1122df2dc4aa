package draw

import (
	"fmt"
	"testing"

	"foldwright/internal/words"
)

// holdLayout checks that a picture can be read.
func holdLayout(t *testing.T, what string, p *Picture) {
	t.Helper()
	for _, fault := range layoutFaults(p) {
		t.Errorf("%s: %s", what, fault)
	}
}

// layoutFaults tells what keeps a picture from being read: everything drawn must lie on the page, the texts a little
// inside, and no two texts may share room.
func layoutFaults(p *Picture) (faults []string) {
	page := Box{0, 0, p.Width, p.Height}
	var texts []Text
	for _, m := range p.Marks {
		text, written := m.(Text)
		switch {
		case !written && !page.Contains(m.bounds()):
			faults = append(faults, fmt.Sprintf("a mark at %v lies off the page of %g × %g", m.bounds(), p.Width, p.Height))
		case written && !page.Inset(1).Contains(m.bounds()):
			faults = append(faults, fmt.Sprintf("%q at %v leaves the page of %g × %g", text.String, m.bounds(), p.Width, p.Height))
		}
		if written && text.String != "" {
			texts = append(texts, text)
		}
	}
	for i, a := range texts {
		for _, b := range texts[:i] {
			if a.bounds().Inset(0.02).Overlaps(b.bounds()) {
				faults = append(faults, fmt.Sprintf("%q and %q overlap", b.String, a.String))
			}
		}
	}
	return faults
}

// Goal: whoever reads whichever card, nothing overlaps. Method: all jobs of the demo as planned, every language, both
// papers, millimetres and inches, by the boxes of the letters.
func TestCardsCanBeRead(t *testing.T) {
	d := theDay(t)
	for reader, say := range readers() {
		for name, paper := range papers {
			for _, c := range d.cards {
				pages, err := c.Pages(paper, say)
				if err != nil {
					t.Fatal(err)
				}
				for i, p := range pages {
					holdLayout(t, fmt.Sprintf("card %s, %s, %s, page %d", c.Job.Name, reader, name, i+1), p)
				}
			}
		}
	}
}

// Texts that leave their column without meeting another one would still be wrong: every block keeps to its own room.
func TestBlocksKeepToTheirColumn(t *testing.T) {
	d := theDay(t)
	const left, right = (190 - cardGap) * cardLeft, (190 - cardGap) * (1 - cardLeft)
	for reader, say := range readers() {
		for _, c := range d.cards {
			s := cardSay{c, say}
			holdColumn(t, "card "+c.Job.Name+", "+reader, s.unitBlocks(), left)
			holdColumn(t, "card "+c.Job.Name+", "+reader, s.sideBlocks(), right)
		}
	}
}

func holdColumn(t *testing.T, what string, blocks []block, width float64) {
	t.Helper()
	for _, b := range blocks {
		room := Box{50, 50, width, b.height(width)}
		p := &Picture{Width: 300, Height: 300}
		b.draw(p, room)
		for _, m := range p.Marks {
			if text, ok := m.(Text); ok && !room.Contains(text.bounds()) {
				t.Errorf("%s: %q at %v leaves its block %v", what, text.String, text.bounds(), room)
			}
		}
	}
}

func TestBenchCardsCanBeRead(t *testing.T) {
	d := theDay(t)
	for reader, say := range readers() {
		for name, paper := range papers {
			for _, b := range d.builds {
				pages, err := b.Pages(paper, say)
				if err != nil {
					t.Fatal(err)
				}
				for i, p := range pages {
					holdLayout(t, fmt.Sprintf("bench card %s for %s, %s, %s, page %d", b.Set.Label, b.Job, reader, name, i+1), p)
				}
			}
		}
	}
}

// Labels: every set of the demo on every stock, and no text leaves its own label.
func TestLabelsCanBeRead(t *testing.T) {
	d := theDay(t)
	for reader, say := range readers() {
		for _, stock := range Stocks() {
			pages, err := Labels(d.labels, stock, 0, say)
			if err != nil {
				t.Fatal(err)
			}
			what := "labels on " + stock.Name + ", " + reader
			for _, p := range pages {
				holdLayout(t, what, p)
			}
			holdLabels(t, what, stock, pages)
		}
	}
}

func holdLabels(t *testing.T, what string, s Stock, pages []*Picture) {
	t.Helper()
	for _, p := range pages {
		for _, m := range p.Marks {
			b, inside := m.bounds(), false
			for place := range s.Columns * s.Rows {
				inside = inside || s.place(place).Inset(1).Contains(b)
			}
			if !inside {
				t.Errorf("%s: %v lies on no label, or too near to its edge", what, m)
			}
		}
	}
}

// Sheets of labels hold as many as they say, side by side and inside the page.
func TestStocksHoldTheirLabels(t *testing.T) {
	for _, s := range Stocks() {
		page := Box{0, 0, s.Page.Width, s.Page.Height}
		for i := range s.Columns * s.Rows {
			if !page.Contains(s.place(i)) {
				t.Errorf("%s: label %d at %v leaves the page", s.Name, i+1, s.place(i))
			}
			for k := range i {
				if s.place(i).Inset(1e-6).Overlaps(s.place(k)) {
					t.Errorf("%s: labels %d and %d overlap", s.Name, k+1, i+1)
				}
			}
		}
	}
}

func TestDrawingsCanBeRead(t *testing.T) {
	d := theDay(t)
	for reader, say := range readers() {
		for i, p := range Timeline(d.plan, d.shop, say) {
			holdLayout(t, fmt.Sprintf("day %d, %s", i+1, reader), p)
		}
		for _, c := range d.cards {
			holdLayout(t, "dummy of "+c.Job.Name+", "+reader, Dummy(c.Folded, c.Job.Operations, say))
			holdLayout(t, "steps of "+c.Job.Name+", "+reader, Sequence(c.Folded, say))
			holdLayout(t, "shafts of "+c.Job.Name+", "+reader, Shafts(c.Shop, c.Task.Settings, say))
		}
	}
}

// The check sees what is wrong: two texts on one another, one over the edge, a line off the page.
func TestLayoutChecksCatchOffenders(t *testing.T) {
	p := &Picture{Width: 100, Height: 50}
	p.Write(Text{X: 10, Y: 20, Size: 5, String: "first"})
	p.Write(Text{X: 12, Y: 22, Size: 5, String: "second"})
	p.Write(Text{X: 97, Y: 40, Size: 5, String: "off"})
	p.Line(10, 10, 10, 51, penEdge)
	if got := layoutFaults(p); len(got) != 3 {
		t.Errorf("want an overlap, a text and a line off the page; got %q", got)
	}
}

// What the operator sets stands on the first page of the card, whatever the language; only minutes and notes may go on
// behind it.
func TestSettingsStandOnTheFirstPage(t *testing.T) {
	d := theDay(t)
	for reader, say := range readers() {
		for name, paper := range papers {
			for _, c := range d.cards {
				for i, p := range pagesOf(t, c, paper, say)[1:] {
					for _, m := range p.Marks {
						if text, ok := m.(Text); ok && isUnitHead(text.String, say) {
							t.Errorf("card %s, %s, %s: %q stands on page %d", c.Job.Name, reader, name, text.String, i+2)
						}
					}
				}
			}
		}
	}
}

func isUnitHead(text string, say *words.Speaker) bool {
	for n := range 9 {
		if text == say.Say("Unit %d, buckle", n+1) || text == say.Say("Unit %d, knife", n+1) {
			return true
		}
	}
	return false
}

// What stands beside the nips is never broken, and never much smaller than it should be.
func TestStopsFitBesideTheNips(t *testing.T) {
	d := theDay(t)
	for reader, say := range readers() {
		for name, paper := range papers {
			wide := (paper.Width - 2*cardMargin - cardGap) * cardLeft
			for _, c := range d.cards {
				s := cardSay{c, say}
				for i := range c.Task.Settings.Units {
					u := &c.Task.Settings.Units[i]
					stops, room, _ := beside{s.stops(u), s.nips(u)}.parts(wide)
					if stops.size < 0.8*cardFigures || stops.natural() > room+1e-6 {
						t.Errorf("card %s, %s, %s: the stops of unit %d take %.1f mm of %.1f in letters of %.2f mm", c.Job.Name, reader, name, u.Number, stops.natural(), room, stops.size)
					}
				}
			}
		}
	}
}
