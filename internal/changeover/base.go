package changeover

import (
	"time"

	"foldwright/internal/settings"
	"foldwright/internal/units"
)

// What differs by no more than this needs no hand (common practice, no source).
const (
	SameSheet = units.Millimetre      // either side of the sheet as fed
	SameStop  = 50 * units.Micrometre // a plate stop or knife stop
	SameGap   = 10 * units.Micrometre // what a nip must pass
	SameStock = 5                     // caliper, in per cent of the former
)

// Base explains the change from one setting to another on the same folder, all but guides and tooling. From nil is the unknown
// state. The lines come in the order of the work; one whose time is nothing is left out.
func Base(std *Standards, from, to *settings.Settings) []Line { return Compare(from, to).Lines(std) }

// Change is what has to be done between two settings, counted.
type Change struct {
	Anew                       bool // from the unknown state
	From, To                   Sheet
	Sheet, Stock               bool
	Coupled, Uncoupled, Turned []int // unit numbers
	Stops, Opened, Closed      int
	Gaps                       int
	Folds                      int // of the job to come
}

// Sheet is the sheet as fed.
type Sheet struct{ Length, Width, Caliper units.Length }

// Compare counts what has to be done between two settings of one folder; from nil is the unknown state.
//
// A unit that the stack passes without a fold is in use as well. What an unused unit was set to earlier is not remembered:
// coming into use it is set anew.
func Compare(from, to *settings.Settings) Change {
	c := Change{Anew: from == nil, To: sheetOf(to)}
	if from != nil {
		c.From = sheetOf(from)
	}
	c.Sheet = c.Anew || apart(c.From.Length, c.To.Length) > SameSheet || apart(c.From.Width, c.To.Width) > SameSheet
	c.Stock = c.Anew || 100*apart(c.From.Caliper, c.To.Caliper) > SameStock*c.From.Caliper
	for i := range to.Units {
		var before *settings.Unit
		if from != nil && used(&from.Units[i]) {
			before = &from.Units[i]
		}
		c.unit(i, before, &to.Units[i])
	}
	return c
}

func used(u *settings.Unit) bool { return u.Engaged || u.Passes }

// unit adds what has to be done on unit i; before is nil when it was not used or nothing is known. Unit 1 stands at the
// feeder and is always coupled.
func (c *Change) unit(i int, before, now *settings.Unit) {
	if !used(now) {
		if i > 0 && (c.Anew || before != nil) {
			c.Uncoupled = append(c.Uncoupled, now.Number)
		}
		return
	}
	switch {
	case before == nil && i > 0:
		c.Coupled = append(c.Coupled, now.Number)
	case before != nil && before.Enters != now.Enters:
		c.Turned = append(c.Turned, now.Number)
	}
	c.stops(before, now)
	for _, n := range now.Nips {
		if was, ok := nip(before, n.Number); !ok || apart(was.Thickness, n.Thickness) > SameGap {
			c.Gaps++
		}
	}
}

// stops compares plates and knife. A plate that was closed, or of which nothing is known, has no stop to keep.
func (c *Change) stops(before, now *settings.Unit) {
	for _, p := range now.Plates {
		was, known := plate(before, p.Number)
		switch {
		case p.Closed && (!known || !was.Closed):
			c.Closed++
		case !p.Closed && (!known || was.Closed):
			c.Opened++
			c.Stops++
		case !p.Closed && apart(was.Stop, p.Stop) > SameStop:
			c.Stops++
		}
		if !p.Closed {
			c.Folds++
		}
	}
	if k := now.Knife; k != nil && now.Engaged {
		c.Folds++
		if before == nil || before.Knife == nil || !before.Engaged || apart(before.Knife.Stop, k.Stop) > SameStop {
			c.Stops++
		}
	}
}

// Same tells whether nothing differs: then only the docket changes.
func (c Change) Same() bool {
	return !c.Sheet && !c.Stock && len(c.Coupled)+len(c.Uncoupled)+len(c.Turned)+c.Stops+c.Opened+c.Closed+c.Gaps == 0
}

// Time is the sum of the lines, without writing them.
func (c Change) Time(std *Standards) time.Duration {
	t := std.Docket
	if c.Sheet {
		t += std.Sheet
	}
	if c.Stock {
		t += std.Stock
	}
	return t + c.unitTime(std) + c.stopTime(std) + times(c.Gaps, std.Gap) + c.trialTime(std)
}

func (c Change) unitTime(std *Standards) time.Duration {
	return times(len(c.Coupled), std.Couple) + times(len(c.Uncoupled), std.Uncouple) + times(len(c.Turned), std.Turn)
}

func (c Change) stopTime(std *Standards) time.Duration {
	return times(c.Stops, std.Stop) + times(c.Opened+c.Closed, std.Deflector)
}

func (c Change) trialTime(std *Standards) time.Duration {
	if c.Same() {
		return 0
	}
	return std.Trial + times(c.Folds, std.TrialFold)
}

func times(n int, t time.Duration) time.Duration { return time.Duration(n) * t }

func apart(a, b units.Length) units.Length { return max(a-b, b-a) }

// sheetOf is the sheet as it enters unit 1. Its caliper is told by any nip that says what it must pass.
func sheetOf(s *settings.Settings) Sheet {
	sheet := Sheet{Length: s.Units[0].In.Length, Width: s.Units[0].In.Width}
	for _, u := range s.Units {
		for _, n := range u.Nips {
			if n.Layers > 0 {
				sheet.Caliper = n.Thickness / units.Length(n.Layers)
				return sheet
			}
		}
	}
	return sheet
}

func nip(u *settings.Unit, number int) (settings.Nip, bool) {
	if u != nil {
		for _, n := range u.Nips {
			if n.Number == number {
				return n, true
			}
		}
	}
	return settings.Nip{}, false
}

func plate(u *settings.Unit, number int) (settings.Plate, bool) {
	if u != nil {
		for _, p := range u.Plates {
			if p.Number == number {
				return p, true
			}
		}
	}
	return settings.Plate{}, false
}
