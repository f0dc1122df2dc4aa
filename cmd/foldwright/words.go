package main

import (
	"fmt"
	"strings"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/tooling"
	speech "foldwright/internal/words"
)

// minutes writes a duration in minutes to a tenth, always with that tenth, so that figures line up: "24.0", "-1.5".
func minutes(d time.Duration) string {
	sign := ""
	if d <= -3*time.Second {
		sign, d = "-", -d
	}
	tenths := int64((d + 3*time.Second) / (6 * time.Second))
	return fmt.Sprintf("%s%d.%d", sign, tenths/10, tenths%10)
}

// minutes writes them with the reader's decimal mark.
func (p sheet) minutes(d time.Duration) string {
	if p.words.Lang == speech.English {
		return minutes(d)
	}
	return strings.Replace(minutes(d), ".", ",", 1)
}

// counted writes "1 set", "2 sets".
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// numbered names one of several things by its number, or a run of them.
func (p sheet) numbered(one, many string, first, last int) string {
	if first == last {
		return p.in(one, fmt.Sprint(first))
	}
	return p.in(many, fmt.Sprintf("%d–%d", first, last))
}

// hour is a moment within a week.
func (p sheet) hour(t time.Time) string {
	return p.words.Text(weekdays[t.Weekday()]) + t.Format(" 15:04")
}

var weekdays = [...]speech.Text{
	speech.T("Sun"), speech.T("Mon"), speech.T("Tue"), speech.T("Wed"), speech.T("Thu"), speech.T("Fri"), speech.T("Sat"),
}

// day is a moment of the plan's days: as the English write it, or with the date of ISO 8601.
func (p sheet) day(t time.Time) string {
	if p.words.Lang == speech.English {
		return t.Format("Mon 2 Jan 15:04")
	}
	return p.words.Text(weekdays[t.Weekday()]) + t.Format(" 2006-01-02 15:04")
}

// modeWords says how a station gets its tools.
func modeWords(mode changeover.Mode, set string) speech.Text {
	switch mode {
	case changeover.Keep:
		return speech.T("leave %s in", set)
	case changeover.Shift:
		return speech.T("leave %s in and move the guide", set)
	case changeover.Swap:
		return speech.T("swap %s in from the rack", set)
	case changeover.Built:
		return speech.T("swap %s in once the bench has built it", set)
	case changeover.InFolder:
		return speech.T("strip and fit %s in the folder", set)
	case changeover.Plain:
		return speech.T("swap plain shafts %s in", set)
	}
	return speech.T("not decided")
}

// placeWords says where a set is.
func placeWords(p tooling.Place) speech.Text {
	switch {
	case p.Slot != "":
		return speech.T("slot %s", p.Slot)
	case p.Folder != "":
		return speech.Plain(p.Folder + " " + p.Station)
	case p.Bench:
		return speech.T("the bench")
	}
	return speech.T("a place nobody has noted")
}

// toolWords lists the tools of a set.
func toolWords(tools []tooling.Tool) speech.Text {
	if len(tools) == 0 {
		return speech.T("plain")
	}
	out := make(speech.Joined, len(tools))
	for i, t := range tools {
		out[i] = speech.T("%s @ %s", t.Type, speech.Fine(t.At))
	}
	return speech.T("%s", out)
}
