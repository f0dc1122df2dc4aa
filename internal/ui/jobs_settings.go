package ui

import (
	"net/url"
	"slices"
	"strconv"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/machine"
	"foldwright/internal/plan"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// answerView is what a folder says to a job, as it stands beside those of the others.
type answerView struct {
	desk.Answer
	Best, Chosen bool
	Link         string // shows its settings in full
	Sets         []stationLine
}

// stationLine is a station of a folder with where its tools would come from.
type stationLine struct {
	Station string
	How     words.Text
	Serves  []words.Text
	Nearest *words.Text
	Bench   string // address of the bench card, when something is to be built
}

// viewAnswers puts the answers of all folders beside each other. Chosen is the folder whose settings are shown in full.
func viewAnswers(answers []desk.Answer, page, chosen string, kept bool) []answerView {
	list := make([]answerView, len(answers))
	for i, a := range answers {
		v := answerView{Answer: a, Best: i == 0 && a.Miss == nil, Chosen: a.Folder.Name == chosen && a.Miss == nil}
		v.Link = page + "?folder=" + url.QueryEscape(a.Folder.Name) + "#settings"
		for _, st := range a.Stations {
			v.Sets = append(v.Sets, viewStation(a, st, kept))
		}
		list[i] = v
	}
	return list
}

// viewStation tells of a station. Bench cards are for jobs that are kept.
func viewStation(a desk.Answer, st desk.Station, kept bool) stationLine {
	v := stationLine{Station: st.Name, How: stationWords(plan.Station{Station: st.Name, Mode: st.Mode, Set: st.Set})}
	for _, s := range st.Serves {
		if s.Shift == 0 {
			v.Serves = append(v.Serves, words.T("serves: %s, %s", s.Set.Label, placeText(s.Set.Place)))
			continue
		}
		v.Serves = append(v.Serves, words.T("serves: %s, %s, guide moved by %s", s.Set.Label, placeText(s.Set.Place), words.Fine(s.Shift)))
	}
	build := ""
	if near := st.Nearest; near != nil {
		text := words.T("nearest: %s, %s, %s of bench work: %s", near.Set.Label, placeText(near.Set.Place), near.Time, changeover.EditWords(near.Edit))
		v.Nearest, build = &text, near.Set.Label
	}
	if st.Mode == changeover.Built {
		build = st.Set
	}
	if kept && build != "" {
		q := url.Values{"set": {build}, "folder": {a.Folder.Name}, "station": {st.Name}}
		v.Bench = jobPath(a.Job.Name) + "/bench.pdf?" + q.Encode()
	}
	return v
}

// placeText says where a set is.
func placeText(at tooling.Place) words.Text {
	switch {
	case at.Slot != "":
		return words.T("slot %s", at.Slot)
	case at.Folder != "":
		return words.Plain(at.Folder + " " + at.Station)
	case at.Bench:
		return words.T("the bench")
	}
	return words.T("a place nobody has noted")
}

// setView is everything that is set on a folder for a job, in the order in which one walks along it.
type setView struct {
	*settings.Settings
	FeedEdge, FeedFace words.Text
	Units              []setUnit
	Shafts             *draw.Picture // nil when there is nothing to see
}

// setUnit is what is set on a unit.
type setUnit struct {
	Number   int
	Kind     words.Text
	Used     bool
	Folds    bool
	Enters   words.Text
	Size     words.Text
	Rows     []setRow
	Stations []setStation
}

// setRow is one thing to set.
type setRow struct {
	What   words.Text
	Value  words.Text
	For    words.Text
	Stays  bool
	Main   bool // a place to go to with the hand, not what follows from it
	Closed bool
}

// setStation is what stands on the shafts of a station.
type setStation struct {
	Name, Class string
	How         words.Text
	Stays       bool
	Tools       []setTool
	Rings       words.List
}

type setTool struct {
	Number int
	settings.Tool
}

// feedEdges are the edges of the sheet as drawn that may lead.
var feedEdges = map[settings.Edge]words.Text{
	settings.S0: words.T("leading edge as drawn"), settings.S1: words.T("tail as drawn"),
	settings.T0: words.T("left edge as drawn"), settings.T1: words.T("right edge as drawn"),
}

var unitEntries = map[machine.Entry]words.Text{
	machine.Straight: words.T("straight"), machine.TurnLeft: words.T("left edge first"), machine.TurnRight: words.T("right edge first"),
}

// viewSettings lays settings out; before are those that the folder stands at, nil when nobody knows. How says what is done at
// a station, and whether it stays.
func viewSettings(s *shop.Shop, w, before *settings.Settings, say *words.Speaker, how func(station string) (words.Text, bool)) *setView {
	v := &setView{Settings: w, FeedEdge: feedEdges[w.Feed.Leading], FeedFace: w.Feed.FaceUp.Words()}
	tools := false
	for i := range w.Units {
		u := viewSetUnit(&w.Units[i], unitBefore(before, w.Units[i].Number))
		for k := range w.Units[i].Stations {
			st := &w.Units[i].Stations[k]
			tools = tools || len(st.Tools) > 0
			u.Stations = append(u.Stations, viewSetStation(st, how))
		}
		v.Units = append(v.Units, u)
	}
	if tools {
		v.Shafts = draw.Shafts(s, w, say)
	}
	return v
}

// unitBefore is how a unit stood for the job before; nil when it was not used or nobody knows.
func unitBefore(before *settings.Settings, number int) *settings.Unit {
	if before == nil || number > len(before.Units) {
		return nil
	}
	if u := &before.Units[number-1]; u.Engaged || u.Passes {
		return u
	}
	return nil
}

func viewSetUnit(u, was *settings.Unit) setUnit {
	v := setUnit{Number: u.Number, Used: u.Engaged || u.Passes, Folds: u.Engaged, Enters: unitEntries[u.Enters], Kind: words.T("Unit %d, buckle", u.Number)}
	if u.Kind == machine.Knife {
		v.Kind = words.T("Unit %d, knife", u.Number)
	}
	if !v.Used {
		return v
	}
	v.Size = words.T("%s × %s", words.Bare(u.In.Length), u.In.Width)
	v.Rows = append(v.Rows, guideRow(u, was))
	v.Rows = append(v.Rows, plateRows(u, was)...)
	if u.Knife != nil && u.Engaged {
		stays := was != nil && was.Knife != nil && sameStop(was.Knife.Stop, u.Knife.Stop)
		v.Rows = append(v.Rows, setRow{What: words.T("knife stop"), Value: words.T("%s", u.Knife.Stop), For: words.T("fold %d", u.Knife.Fold), Stays: stays, Main: true})
	}
	v.Rows = append(v.Rows, nipRows(u)...)
	return v
}

func guideRow(u, was *settings.Unit) setRow {
	row := setRow{What: words.T("side guide left"), Value: words.T("%s", u.Guide.At), Main: true}
	if u.Guide.Side == machine.RightSide {
		row.What = words.T("side guide right")
	}
	row.Stays = was != nil && was.Guide.Side == u.Guide.Side && was.Guide.At == u.Guide.At
	return row
}

// plateRows are the plates with a stop, then the closed ones together.
func plateRows(u, was *settings.Unit) (rows []setRow) {
	var closed []int
	closedStay := was != nil
	for _, p := range u.Plates {
		if p.Closed {
			closed = append(closed, p.Number)
			closedStay = closedStay && slices.ContainsFunc(was.Plates, func(q settings.Plate) bool { return q.Number == p.Number && q.Closed })
			continue
		}
		stays := was != nil && slices.ContainsFunc(was.Plates, func(q settings.Plate) bool {
			return q.Number == p.Number && !q.Closed && sameStop(q.Stop, p.Stop)
		})
		rows = append(rows, setRow{What: words.T("plate %d", p.Number), Value: words.T("%s", p.Stop), For: words.T("fold %d", p.Fold), Stays: stays, Main: true})
	}
	switch len(closed) {
	case 0:
		return rows
	case 1:
		return append(rows, setRow{What: words.T("plate %d", closed[0]), Value: words.T("closed"), Stays: closedStay, Main: true, Closed: true})
	}
	return append(rows, setRow{What: words.T("plates %s", words.Spans(closed)), Value: words.T("closed"), Stays: closedStay, Main: true, Closed: true})
}

// nipRows are the nips; neighbours that are alike stand together.
func nipRows(u *settings.Unit) (rows []setRow) {
	for i := 0; i < len(u.Nips); {
		k := i
		for k+1 < len(u.Nips) && u.Nips[k+1].Layers == u.Nips[i].Layers && u.Nips[k+1].Thickness == u.Nips[i].Thickness {
			k++
		}
		what := words.T("nip %s", strconv.Itoa(u.Nips[i].Number))
		if k > i {
			what = words.T("nips %s", strconv.Itoa(u.Nips[i].Number)+"–"+strconv.Itoa(u.Nips[k].Number))
		}
		rows = append(rows, setRow{What: what, Value: words.T("%s", words.Micron(u.Nips[i].Thickness)), For: words.Count(u.Nips[i].Layers, "%d layer", "%d layers")})
		i = k + 1
	}
	return rows
}

func viewSetStation(st *settings.Station, how func(string) (words.Text, bool)) setStation {
	v := setStation{Name: st.Name, Class: st.Class}
	v.How, v.Stays = how(st.Name)
	for i, t := range st.Tools {
		v.Tools = append(v.Tools, setTool{i + 1, t})
	}
	for _, at := range st.DriveRings {
		v.Rings = append(v.Rings, words.Fine(at))
	}
	return v
}

// sameStop is the changeover's own measure of a stop that no hand need touch.
func sameStop(a, b units.Length) bool { return max(a-b, b-a) <= changeover.SameStop }

// Total is the time to the last sheet.
func (v answerView) Total() time.Duration { return v.Makeready + v.Run }
