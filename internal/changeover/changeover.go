// Package changeover tells the minutes from one setting to the next on a folder, line by line.
package changeover

import "time"

// Line is one line of the explanation.
type Line struct {
	What string // "plates", "gaps", "tooling 1A", …
	Why  string // "2 stops moved, 1 plate opened"
	Time time.Duration
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

// Standards are the shop's standard minutes.
type Standards struct{}
