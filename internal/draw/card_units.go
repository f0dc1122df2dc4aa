package draw

import (
	"slices"
	"strconv"

	"foldwright/internal/changeover"
	"foldwright/internal/machine"
	"foldwright/internal/plan"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// unitBlocks are the units in the order in which the operator walks along the folder; each keeps together with its
// stations as far as the page allows.
func (c cardSay) unitBlocks() []block {
	var list []block
	last := 0
	for i, u := range c.Task.Settings.Units {
		if u.Engaged {
			last = i
		}
	}
	for i := range c.Task.Settings.Units {
		u := &c.Task.Settings.Units[i]
		if i > last {
			list = append(list, c.unused(c.Task.Settings.Units[i:])...)
			break
		}
		list = append(list, c.unitHead(u))
		for k := range u.Stations {
			list = append(list, c.station(&u.Stations[k]), space(2))
		}
		list = append(list, space(1.2))
	}
	if slices.ContainsFunc(c.Task.Settings.Units, hasTools) {
		list = append(list, sketch{5, func(p *Picture, b Box) { p.shaftLegend(b, c.say) }})
	}
	return list
}

func hasTools(u settings.Unit) bool {
	return slices.ContainsFunc(u.Stations, func(st settings.Station) bool { return len(st.Tools) > 0 })
}

// unused names the units behind the last one that works.
func (c cardSay) unused(rest []settings.Unit) []block {
	text := c.say.Say("unit %d: not used, uncoupled", rest[0].Number)
	if n := len(rest); n > 1 {
		text = c.say.Say("units %d to %d: not used, uncoupled", rest[0].Number, rest[n-1].Number)
	}
	return []block{paragraph{text: text, size: cardText, ink: Grey}}
}

func (c cardSay) unitHead(u *settings.Unit) block {
	kind := c.say.Say("Unit %d, buckle", u.Number)
	if u.Kind == machine.Knife {
		kind = c.say.Say("Unit %d, knife", u.Number)
	}
	enters := map[machine.Entry]string{
		machine.Straight: c.say.Say("straight"), machine.TurnLeft: c.say.Say("left edge first"), machine.TurnRight: c.say.Say("right edge first"),
	}[u.Enters]
	return stack{heading{kind, enters + ", " + c.size(u)}, beside{c.stops(u), c.nips(u)}, space(1)}
}

// stops lists what is set: plates in order, closed ones gathered, and the side guide.
func (c cardSay) stops(u *settings.Unit) table {
	t := table{right: []bool{false, true, false}, bold: []bool{false, true, false}, size: cardFigures}
	if !u.Engaged {
		t.rows = append(t.rows, []string{c.say.Say("passes"), "", c.say.Say("no fold here")})
	}
	for _, p := range u.Plates {
		if !p.Closed {
			t.rows = append(t.rows, []string{c.say.Say("plate %d", p.Number), c.say.Length(p.Stop), c.foldWords(p.Fold, c.plateStays(u.Number, p))})
		}
	}
	if closed := c.closed(u); closed != "" {
		t.rows = append(t.rows, []string{closed, "", c.say.Say("closed")})
	}
	if u.Knife != nil && u.Engaged {
		t.rows = append(t.rows, []string{c.say.Say("knife stop"), c.say.Length(u.Knife.Stop), c.foldWords(u.Knife.Fold, c.knifeStays(u))})
	}
	guide := c.say.Say("side guide left")
	if u.Guide.Side == machine.RightSide {
		guide = c.say.Say("side guide right")
	}
	stays := ""
	if c.guideStays(u) {
		stays = c.say.Say("stays")
	}
	t.rows = append(t.rows, []string{guide, c.say.Length(u.Guide.At), stays})
	return t
}

func (c cardSay) size(u *settings.Unit) string {
	return c.say.Say("%s × %s", words.Bare(u.In.Length), u.In.Width)
}

func (c cardSay) foldWords(fold int, stays bool) string {
	text := c.say.Say("fold %d", fold)
	if stays {
		text += ", " + c.say.Say("stays")
	}
	return text
}

// unitBefore is how a unit stood for the job before; nil when it was not used or nobody knows.
func (c cardSay) unitBefore(unit int) *settings.Unit {
	if c.Task.Before == nil {
		return nil
	}
	if u := &c.Task.Before.Units[unit-1]; u.Engaged || u.Passes {
		return u
	}
	return nil
}

func (c cardSay) guideStays(u *settings.Unit) bool {
	was := c.unitBefore(u.Number)
	return was != nil && was.Guide.Side == u.Guide.Side && was.Guide.At == u.Guide.At
}

func (c cardSay) knifeStays(u *settings.Unit) bool {
	was := c.unitBefore(u.Number)
	return was != nil && was.Knife != nil && was.Engaged && sameStop(was.Knife.Stop, u.Knife.Stop)
}

// sameStop is the changeover's own measure of a stop that no hand need touch.
func sameStop(a, b units.Length) bool { return max(a-b, b-a) <= changeover.SameStop }

// plateStays tells whether the plate stood at this stop for the job before.
func (c cardSay) plateStays(unit int, now settings.Plate) bool {
	was := c.unitBefore(unit)
	return was != nil && slices.ContainsFunc(was.Plates, func(p settings.Plate) bool {
		return p.Number == now.Number && !p.Closed && sameStop(p.Stop, now.Stop)
	})
}

// closed gathers the closed plates: "plates 2–4, 6".
func (c cardSay) closed(u *settings.Unit) string {
	var numbers []int
	for _, p := range u.Plates {
		if p.Closed {
			numbers = append(numbers, p.Number)
		}
	}
	switch len(numbers) {
	case 0:
		return ""
	case 1:
		return c.say.Say("plate %d", numbers[0])
	}
	return c.say.Say("plates %s", words.Spans(numbers))
}

// nips lists what every roller pair must pass: as many strips of the stock go into the gap setter. Equal neighbours are
// gathered.
func (c cardSay) nips(u *settings.Unit) table {
	t := table{right: []bool{true, true, true}, size: cardText, head: []string{c.say.Say("nip"), c.say.Say("strips"), c.say.Say("gap")}}
	for i := 0; i < len(u.Nips); {
		k := i
		for k+1 < len(u.Nips) && u.Nips[k+1].Layers == u.Nips[i].Layers {
			k++
		}
		numbers := strconv.Itoa(u.Nips[i].Number)
		if k > i {
			numbers += "–" + strconv.Itoa(u.Nips[k].Number)
		}
		t.rows = append(t.rows, []string{numbers, strconv.Itoa(u.Nips[i].Layers), c.say.Micron(u.Nips[i].Thickness)})
		i = k + 1
	}
	return t
}

// station says what is to be fetched or done and draws the shafts where the job wants tools.
func (c cardSay) station(st *settings.Station) block {
	list := stack{paragraph{text: c.say.Say("Station %s: %s", st.Name, c.order(st)), size: cardFigures, bold: true}}
	if len(st.Tools) == 0 {
		return list
	}
	shaft := shaftOf(c.Shop, st)
	return append(list, sketch{shaft.Height(), func(p *Picture, b Box) { p.Elevation(b, shaft, c.say) }}, space(1.2), c.tools(st))
}

// order is what the operator does at a station, by mode.
func (c cardSay) order(st *settings.Station) string {
	i := slices.IndexFunc(c.Task.Stations, func(s plan.Station) bool { return s.Station == st.Name })
	if i < 0 {
		return c.say.Say("leave it as it is")
	}
	switch s := c.Task.Stations[i]; s.Mode {
	case changeover.Shift:
		return c.say.Say("%s stays, move the guide", s.Set)
	case changeover.Swap, changeover.Plain:
		return c.fetch(s.Set, c.Places[i])
	case changeover.Built:
		return c.say.Say("fetch %s from the bench, built for this job", s.Set)
	case changeover.InFolder:
		if c.Places[i] == (tooling.Place{}) {
			return c.say.Say("strip and fit at the folder, on %s", s.Set)
		}
		return c.fetch(s.Set, c.Places[i]) + "; " + c.say.Say("strip and fit it at the folder")
	default:
		if s.Set == "" {
			return c.say.Say("leave it as it is")
		}
		return c.say.Say("%s stays", s.Set)
	}
}

// fetch says where a set is. One that was on another station before may lie anywhere by now.
func (c cardSay) fetch(set string, at tooling.Place) string {
	if at.Folder != "" {
		return c.say.Say("fetch %s, last on %s", set, placeWords(at, c.say))
	}
	return c.say.Say("fetch %s from %s", set, placeWords(at, c.say))
}

// placeWords says where a set is.
func placeWords(at tooling.Place, say *words.Speaker) string {
	switch {
	case at.Slot != "":
		return say.Say("slot %s", at.Slot)
	case at.Folder != "":
		return at.Folder + " " + at.Station
	case at.Bench:
		return say.Say("the bench")
	}
	return say.Say("a place nobody has noted")
}

// bodiesOf gives the room that tools take on the shafts of a class.
func bodiesOf(s *shop.Shop, class string) func(tooling.Type) tooling.Body {
	return func(t tooling.Type) tooling.Body {
		if stock, ok := s.Tool(class, t); ok {
			return stock.Body
		}
		return tooling.Body{}
	}
}

// tools lists the tools by number: on the shaft, on the piece, what for.
func (c cardSay) tools(st *settings.Station) block {
	t := table{
		head:  []string{"", c.say.Say("on the shaft"), c.say.Say("on the piece"), ""},
		right: []bool{true, true, true, false}, bold: []bool{true, true, false, false}, size: cardText,
	}
	for i, tool := range st.Tools {
		t.rows = append(t.rows, []string{
			strconv.Itoa(i + 1), c.say.Length(tool.At), c.say.Bare(tool.T), c.say.Tool(tool.Type) + " · " + c.reason(tool),
		})
	}
	return t
}

func (c cardSay) reason(t settings.Tool) string { return c.say.Say("%s", t.For) }
