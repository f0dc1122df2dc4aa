package main

import (
	"fmt"
	"iter"
	"strings"

	"foldwright/internal/changeover"
	"foldwright/internal/desk"
	"foldwright/internal/settings"
	"foldwright/internal/units"
)

// unit is what is set on one unit, in the order in which one walks along it.
func (p sheet) unit(u *settings.Unit, stations []desk.Station) {
	switch {
	case u.Engaged:
		p.title("Unit %d, %s", u.Number, u.Kind)
	case u.Passes:
		p.title("Unit %d, %s: passed without a fold", u.Number, u.Kind)
	default:
		p.title("Unit %d, %s: not used", u.Number, u.Kind)
		return
	}
	t := newTable(words(""), words(""), figures(""), words(""))
	t.row("  enters", string(u.Enters), "", p.size(u.In.Length, u.In.Width))
	t.row("  side guide", string(u.Guide.Side), p.length(u.Guide.At))
	for first, last := range runs(u.Plates, bothClosed) {
		p.plates(t, u.Plates[first], u.Plates[last])
	}
	if u.Knife != nil {
		t.row("  knife", "stop", p.length(u.Knife.Stop), fmt.Sprintf("fold %d", u.Knife.Fold))
	}
	for first, last := range runs(u.Nips, alikeNips) {
		nip := u.Nips[first]
		t.row(numbered("  nip", nip.Number, u.Nips[last].Number), counted(nip.Layers, "layer"), p.words.Micron(nip.Thickness))
	}
	t.write(p.streams)
	for i := range u.Stations {
		p.station(&u.Stations[i], found(stations, u.Stations[i].Name))
	}
}

// plates is one line for a plate with a stop, or for a run of closed ones.
func (p sheet) plates(t *table, first, last settings.Plate) {
	name := numbered("  plate", first.Number, last.Number)
	if first.Closed {
		t.row(name, "closed")
		return
	}
	t.row(name, "stop", p.length(first.Stop), fmt.Sprintf("fold %d", first.Fold))
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

// numbered writes "plate 2" or "plates 2–4".
func numbered(what string, first, last int) string {
	if first == last {
		return fmt.Sprintf("%s %d", what, first)
	}
	return fmt.Sprintf("%ss %d–%d", what, first, last)
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
		p.say("  station %s (%s): no tools; %s", st.Name, st.Class, modeWords(how.Mode, how.Set))
		return
	}
	p.say("  station %s (%s): %s", st.Name, st.Class, modeWords(how.Mode, how.Set))
	t := newTable(words("    tool"), figures("on the shaft"), figures("on the piece"), words("for"))
	for _, tool := range st.Tools {
		t.row("    "+tool.Type.String(), p.length(tool.At), p.length(tool.T), p.words.Say("%s", tool.For))
	}
	t.write(p.streams)
	if len(st.DriveRings) > 0 {
		p.say("    drive rings at %s", p.lengths(st.DriveRings))
	}
	p.match(how.Match)
}

func (p sheet) match(m desk.Match) {
	for _, s := range m.Serves {
		p.say("    serves: %s, %s%s", s.Set.Label, placeWords(s.Set.Place), p.shifted(s.Shift))
	}
	if m.Nearest != nil {
		p.say("    nearest: %s, %s, %s min of bench work: %s", m.Nearest.Set.Label, placeWords(m.Nearest.Set.Place),
			minutes(m.Nearest.Time), p.words.Text(changeover.EditWords(m.Nearest.Edit)))
	}
}

func (p sheet) shifted(shift units.Length) string {
	if shift == 0 {
		return ""
	}
	return ", guide moved by " + p.length(shift)
}

// minutes is the changeover line by line.
func (p sheet) minutes(a desk.Answer) {
	p.title("Make-ready from what stands on %s now", a.Folder.Name)
	t := newTable(words(""), figures("min"), words(""))
	for _, line := range a.Lines {
		t.row("  "+p.words.Text(line.What), minutes(line.Time), p.words.Text(line.Why))
	}
	t.row("  in all", minutes(a.Makeready))
	t.row("  run", minutes(a.Run), fmt.Sprintf("%d sheets at %d/h", a.Job.Sheets, a.Settings.SheetsPerHour))
	t.write(p.streams)
}

func (p sheet) notes(notes []settings.Note) {
	if len(notes) == 0 {
		return
	}
	p.gap()
	p.title("Notes")
	for _, n := range notes {
		p.say("  %s (%s)", p.words.Text(n.Text), p.words.Text(n.Source))
	}
}

func (p sheet) cautions() {
	p.gap()
	p.title("Cautions")
	for _, text := range settings.Cautions() {
		p.say("  %s", p.words.Say(text))
	}
}

func (p sheet) length(l units.Length) string { return p.words.Fine(l) }

// size is length × width; the unit stands once when both have the same.
func (p sheet) size(length, width units.Length) string {
	a, b := p.length(length), p.length(width)
	for _, unit := range []string{" mm", " in"} {
		a = strings.TrimSuffix(a, unit)
	}
	return a + " × " + b
}

func (p sheet) lengths(list []units.Length) string {
	out := make([]string, len(list))
	for i, l := range list {
		out[i] = p.length(l)
	}
	return strings.Join(out, ", ")
}
