package main

import (
	"iter"
	"strings"

	"foldwright/internal/changeover"
	"foldwright/internal/desk"
	"foldwright/internal/machine"
	"foldwright/internal/settings"
	"foldwright/internal/units"
	speech "foldwright/internal/words"
)

// unit is what is set on one unit, in the order in which one walks along it.
func (p sheet) unit(u *settings.Unit, stations []desk.Station) {
	kind := speech.T("Unit %d, buckle", u.Number)
	if u.Kind == machine.Knife {
		kind = speech.T("Unit %d, knife", u.Number)
	}
	switch {
	case u.Engaged:
		p.head("%s", kind)
	case u.Passes:
		p.head("%s: passed without a fold", kind)
	default:
		p.head("%s: not used", kind)
		return
	}
	t := newTable(words(""), words(""), figures(""), words(""))
	t.row("  "+p.in("enters"), p.words.Text(enters[u.Enters]), "", p.size(u.In.Length, u.In.Width))
	t.row("  "+p.in("side guide"), p.words.Text(sides[u.Guide.Side]), p.length(u.Guide.At))
	for first, last := range runs(u.Plates, bothClosed) {
		p.plates(t, u.Plates[first], u.Plates[last])
	}
	if u.Knife != nil {
		t.row("  "+p.in("knife"), p.in("stop"), p.length(u.Knife.Stop), p.in("fold %d", u.Knife.Fold))
	}
	for first, last := range runs(u.Nips, alikeNips) {
		nip := u.Nips[first]
		name := p.numbered("nip %s", "nips %s", nip.Number, u.Nips[last].Number)
		t.row("  "+name, p.words.Text(speech.Count(nip.Layers, "%d layer", "%d layers")), p.words.Micron(nip.Thickness))
	}
	t.write(p.streams)
	for i := range u.Stations {
		p.station(&u.Stations[i], found(stations, u.Stations[i].Name))
	}
}

var (
	enters = map[machine.Entry]speech.Text{
		machine.Straight: speech.T("straight"), machine.TurnLeft: speech.T("left edge first"), machine.TurnRight: speech.T("right edge first"),
	}
	sides = map[machine.Side]speech.Text{machine.LeftSide: speech.T("left"), machine.RightSide: speech.T("right")}
)

// plates is one line for a plate with a stop, or for a run of closed ones.
func (p sheet) plates(t *table, first, last settings.Plate) {
	name := "  " + p.numbered("plate %s", "plates %s", first.Number, last.Number)
	if first.Closed {
		t.row(name, p.in("closed"))
		return
	}
	t.row(name, p.in("stop"), p.length(first.Stop), p.in("fold %d", first.Fold))
}

func bothClosed(a, b settings.Plate) bool { return a.Closed && b.Closed }

func alikeNips(a, b settings.Nip) bool { return a.Layers == b.Layers && a.Thickness == b.Thickness }

// runs gives the first and last place of every run of neighbours that are alike.
func runs[T any](list []T, alike func(a, b T) bool) iter.Seq2[int, int] {
	return func(yield func(int, int) bool) {
		for first := 0; first < len(list); {
			last := first
			for last+1 < len(list) && alike(list[first], list[last+1]) {
				last++
			}
			if !yield(first, last) {
				return
			}
			first = last + 1
		}
	}
}

func found(list []desk.Station, name string) desk.Station {
	for _, s := range list {
		if s.Name == name {
			return s
		}
	}
	return desk.Station{}
}

// station is what stands on the shafts, and where it comes from.
func (p sheet) station(st *settings.Station, how desk.Station) {
	if len(st.Tools) == 0 {
		p.line("  ", "station %s (%s): no tools; %s", st.Name, st.Class, modeWords(how.Mode, how.Set))
		return
	}
	p.line("  ", "station %s (%s): %s", st.Name, st.Class, modeWords(how.Mode, how.Set))
	t := newTable(words("    "+p.in("tool")), figures(p.in("on the shaft")), figures(p.in("on the piece")), words(p.in("for")))
	for _, tool := range st.Tools {
		t.row("    "+p.words.Tool(tool.Type), p.length(tool.At), p.length(tool.T), p.in("%s", tool.For))
	}
	t.write(p.streams)
	if len(st.DriveRings) > 0 {
		rings := make(speech.List, len(st.DriveRings))
		for i, at := range st.DriveRings {
			rings[i] = speech.Fine(at)
		}
		p.line("    ", "drive rings at %s", rings)
	}
	p.match(how.Match)
}

func (p sheet) match(m desk.Match) {
	for _, s := range m.Serves {
		if s.Shift == 0 {
			p.line("    ", "serves: %s, %s", s.Set.Label, placeWords(s.Set.Place))
			continue
		}
		p.line("    ", "serves: %s, %s, guide moved by %s", s.Set.Label, placeWords(s.Set.Place), speech.Fine(s.Shift))
	}
	if m.Nearest != nil {
		p.line("    ", "nearest: %s, %s, %s of bench work: %s", m.Nearest.Set.Label, placeWords(m.Nearest.Set.Place),
			m.Nearest.Time, changeover.EditWords(m.Nearest.Edit))
	}
}

// makeready is the changeover line by line.
func (p sheet) makeready(a desk.Answer) {
	p.head("Make-ready from what stands on %s now", a.Folder.Name)
	t := newTable(words(""), figures("min"), words(""))
	for _, line := range a.Lines {
		t.row("  "+p.words.Text(line.What), p.minutes(line.Time), p.words.Text(line.Why))
	}
	t.row("  "+p.in("in all"), p.minutes(a.Makeready))
	t.row("  "+p.in("run"), p.minutes(a.Run), p.in("%d sheets at %d/h", a.Job.Sheets, a.Settings.SheetsPerHour))
	t.write(p.streams)
}

func (p sheet) notes(notes []settings.Note) {
	if len(notes) == 0 {
		return
	}
	p.gap()
	p.head("Notes")
	for _, n := range notes {
		p.say("  %s (%s)", p.words.Text(n.Text), p.words.Text(n.Source))
	}
}

func (p sheet) cautions() {
	p.gap()
	p.head("Cautions")
	for _, text := range settings.Cautions() {
		p.line("  ", text)
	}
}

func (p sheet) length(l units.Length) string { return p.words.Fine(l) }

// size is length × width; the unit stands once when both have the same.
func (p sheet) size(length, width units.Length) string {
	return p.bare(length) + " × " + p.length(width)
}

// bare is a length whose unit is named beside it.
func (p sheet) bare(l units.Length) string {
	return strings.TrimSuffix(p.length(l), " "+p.words.Unit())
}
