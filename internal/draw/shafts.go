package draw

import (
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

// Shafts draws every pair of shafts that a job wants tools on, in order of travel, each to scale with its name.
func Shafts(s *shop.Shop, w *settings.Settings, say *words.Speaker) *Picture {
	const margin, name, gap = 10.0, 6.0, 6.0
	p := &Picture{Width: 210, Title: say.Say("Shafts of %s for job %s", w.Folder, w.Job)}
	y := margin
	for i := range w.Units {
		for k := range w.Units[i].Stations {
			st := &w.Units[i].Stations[k]
			if len(st.Tools) == 0 {
				continue
			}
			shaft := shaftOf(s, st)
			box := Box{margin, y + name, p.Width - 2*margin, shaft.Height()}
			scale := p.Elevation(box, shaft, say)
			p.Write(Text{X: margin, Y: y + 4, Size: headingSize, Bold: true, String: say.Say("Station %s", st.Name)})
			p.Write(Text{X: box.Right(), Y: y + 4, Size: cardText, Anchor: End, Ink: Grey, String: say.Say("scale") + " " + scale})
			y = box.Bottom() + gap
		}
	}
	if len(p.Marks) > 0 {
		p.shaftLegend(Box{margin, y, p.Width - 2*margin, 5}, say)
	} else {
		p.Write(Text{X: margin, Y: y + 4, Size: headingSize, String: say.Say("no tools: plain shafts")})
	}
	p.Height = y + name + margin
	return p
}

// shaftOf is a station as it is to be drawn.
func shaftOf(s *shop.Shop, st *settings.Station) *Shaft {
	class, _ := s.Class(st.Class)
	shaft := &Shaft{
		Name: st.Name, Class: *class, Usable: class.Usable(), Rings: st.DriveRings, RingWidth: s.House.Rings.Width, Paper: st.Paper,
		Body: bodiesOf(s, st.Class),
	}
	for _, t := range st.Tools {
		shaft.Tools = append(shaft.Tools, t.Tool)
	}
	return shaft
}

// shaftLegend says in words what stands on the shafts.
func (p *Picture) shaftLegend(b Box, say *words.Speaker) {
	items := []struct {
		word  string
		paint func(Box)
	}{
		{say.Say("datum shoulder"), func(b Box) { p.Area(b, Black) }},
		{say.Say("tool, numbered"), func(b Box) { p.Outline(b, penTool) }},
		{say.Say("drive ring, suggested"), func(b Box) { p.Area(b, Pale); p.Outline(b, penRing) }},
		{say.Say("the sheet between its dashed edges"), func(b Box) { p.Area(Box{b.X, b.Y + 0.9, b.W, 1}, Green) }},
	}
	const mark, near, far = 2.4, 1.2, 4.0
	wide := -far
	for _, it := range items {
		wide += mark + near + TextWidth(it.word, cardSmall, false) + far
	}
	f, x := min(1, b.W/wide), b.X
	for _, it := range items {
		it.paint(Box{x, b.Y + 1, mark * f, 2.6})
		p.Write(Text{X: x + (mark+near)*f, Y: b.Y + 3.2, Size: cardSmall * f, Ink: Grey, String: it.word})
		x += (mark + near + TextWidth(it.word, cardSmall, false) + far) * f
	}
}
