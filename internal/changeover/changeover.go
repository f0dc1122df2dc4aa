// Package changeover tells the minutes from one setting to the next on a folder, line by line.
//
// A changeover is a docket change, then only what differs: sheet, stock, units coupled, plates, gaps, the trial sheets
// that follow such changes ([Base]); and for each unit a guide move, for each station its tooling ([Guides], [Swap],
// [InFolder] and their kin), which a planner chooses. Every line says what is done, why, and for how long; times are
// whole seconds, never negative, and the minutes of a changeover are the sum of its lines.
//
// From an unknown state everything is set anew, which never takes less than from any known state. The minutes themselves
// are [Standards], data of the shop; [Default] gives what is common in the trade.
package changeover

import (
	"time"

	"foldwright/internal/words"
)

// Line is one line of the explanation.
type Line struct {
	What words.Text // "plates", "gaps", "tooling 1A", …
	Why  words.Text // "2 stops set, 1 plate opened"
	Time time.Duration
}

// Sum is the time of all lines.
func Sum(lines []Line) time.Duration {
	var sum time.Duration
	for _, l := range lines {
		sum += l.Time
	}
	return sum
}

// Mode is how a station gets the tooling of the next job.
type Mode string

const (
	Keep     Mode = "keep"      // what is mounted serves, guide where it is
	Shift    Mode = "shift"     // what is mounted serves once the guide is moved
	Swap     Mode = "swap"      // a set from the rack serves
	Built    Mode = "built"     // a set built on the bench before, then swapped in
	InFolder Mode = "in_folder" // strip and fit at the machine
	Plain    Mode = "plain"     // the job wants no tools here: plain shafts go in
)
