package plan

import (
	"slices"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/words"
)

// side is whose make-ready a move changes.
type side int

const (
	itself side = iota // of the job that moved
	joined             // of the job that now stands behind it
	left               // of the job that stood behind it in the order given
	sides
)

// account is what is put down to one move, or to none.
type account struct {
	kinds  []kind
	bySide [sides]time.Duration // saved
}

// saves is what the whole account comes to.
func (a *account) saves() time.Duration {
	var sum time.Duration
	for _, d := range a.bySide {
		sum += d
	}
	return sum
}

// kind is one kind of line over all make-readies of an account.
type kind struct {
	what       words.Text
	given, now time.Duration
}

// accounts puts what differs in every task down to a move, as told at [Move], or to the rest.
func (c *comparison) accounts() (byJob []account, rest account) {
	byJob = make([]account, len(c.jobs))
	for j := range c.jobs {
		owner, of := c.owner(j)
		a := &rest
		if owner >= 0 {
			a = &byJob[owner]
		}
		a.add(of, c.was[j].task, c.is[j].task)
	}
	return byJob, rest
}

// owner is the moved job to whose account the make-ready of a job goes, -1 when to none.
func (c *comparison) owner(j int) (owner int, of side) {
	was, is := c.was[j], c.is[j]
	switch {
	case c.moved[j]:
		return j, itself
	case was.place == 0 || is.place == 0:
		return -1, itself
	case is.before >= 0 && c.moved[is.before]:
		return is.before, joined
	case was.before >= 0 && c.moved[was.before]:
		return was.before, left
	}
	return -1, itself
}

// add enters the lines of a job in the order given and now; a day in which it has no place has none.
func (a *account) add(of side, given, now *Task) {
	if given != nil {
		for _, l := range given.Lines {
			a.kind(l).given += l.Time
		}
		a.bySide[of] += given.Makeready
	}
	if now != nil {
		for _, l := range now.Lines {
			a.kind(l).now += l.Time
		}
		a.bySide[of] -= now.Makeready
	}
}

// kind finds the kind of a line. Tooling is one, whatever the station: the two days may be on two folders.
func (a *account) kind(l changeover.Line) *kind {
	what := l.What
	if what.Key == toolingKey {
		what = words.T("tooling")
	}
	i := slices.IndexFunc(a.kinds, func(k kind) bool { return k.what.Key == what.Key })
	if i < 0 {
		i = len(a.kinds)
		a.kinds = append(a.kinds, kind{what: what})
	}
	return &a.kinds[i]
}

// toolingKey is how the lines of the stations begin.
const toolingKey = "tooling %s"

// lineOrder is the order of the lines of a make-ready.
var lineOrder = []string{"docket", "sheet", "stock", "units", "plates", "gaps", "trial", "guides", "tooling", "reserve"}

// gains are the kinds that differ, in the order of the lines of a make-ready.
func (a *account) gains() []Gain {
	var out []Gain
	slices.SortStableFunc(a.kinds, func(k, l kind) int {
		return slices.Index(lineOrder, k.what.Key) - slices.Index(lineOrder, l.what.Key)
	})
	for _, k := range a.kinds {
		if k.given != k.now {
			out = append(out, Gain{k.what, k.given, k.now})
		}
	}
	return out
}
