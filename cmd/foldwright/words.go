package main

import (
	"fmt"
	"strings"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/tooling"
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

// counted writes "1 layer", "2 layers".
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// modeWords says how a station gets its tools.
func modeWords(mode changeover.Mode, set string) string {
	switch mode {
	case changeover.Keep:
		return "leave " + set + " in"
	case changeover.Shift:
		return "leave " + set + " in and move the guide"
	case changeover.Swap:
		return "swap " + set + " in from the rack"
	case changeover.Built:
		return "swap " + set + " in once the bench has built it"
	case changeover.InFolder:
		return "strip and fit " + set + " in the folder"
	case changeover.Plain:
		return "swap plain shafts " + set + " in"
	}
	return "not decided"
}

// placeWords says where a set is.
func placeWords(p tooling.Place) string {
	switch {
	case p.Slot != "":
		return "slot " + p.Slot
	case p.Folder != "":
		return p.Folder + " " + p.Station
	case p.Bench:
		return "bench"
	}
	return "nowhere"
}

// toolWords lists the tools of a set.
func toolWords(tools []tooling.Tool, inch bool) string {
	if len(tools) == 0 {
		return "plain"
	}
	out := make([]string, len(tools))
	for i, t := range tools {
		out[i] = t.Format(inch)
	}
	return strings.Join(out, ", ")
}
