package settings

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"foldwright/internal/fold"
	"foldwright/internal/machine"
	"foldwright/internal/units"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// brute finds the ways of a job by trying everything an operator could set: every feed, every entry, every unit passed or
// folding, every plate, every stop at which a line of the next fold lies. What gives the product as drawn within the
// limits is a way. It knows no relation between drawing and machine.
type brute struct {
	folder *machine.Folder
	folded *fold.Folded
	feed   Feed
	sheet  fold.Sheet
	scheme fold.Scheme
	text   []string
	ways   []string
	parity int // turns since the last fold, 0 or 1; -1 before the first
}

func bruteWays(f *machine.Folder, folded *fold.Folded) []string {
	b := &brute{folder: f, folded: folded}
	for _, feed := range feeds {
		b.feed, b.sheet = feed.Feed, folded.Sheet
		if feed.Leading == T0 || feed.Leading == T1 {
			b.sheet = fold.Sheet{Length: folded.Sheet.Width, Width: folded.Sheet.Length}
		}
		b.scheme, b.text, b.parity = fold.Scheme{}, []string{fmt.Sprint(feed.Feed)}, -1
		b.unit(0, 0, machine.Straight)
	}
	slices.Sort(b.ways)
	return b.ways
}

// unit enters unit u with so many folds made.
func (b *brute) unit(u, done int, how machine.Entry) {
	steps, text, parity := len(b.scheme.Steps), len(b.text), b.parity
	if how != machine.Straight {
		op := fold.Left
		if how == machine.TurnRight {
			op = fold.Right
		}
		b.scheme.Steps = append(b.scheme.Steps, fold.Step{Op: op})
		if b.parity >= 0 {
			b.parity = 1 - b.parity
		}
	}
	b.text = append(b.text, fmt.Sprintf("unit %d %s", u+1, how))
	if b.parity != 0 { // otherwise this fold would have belonged to the unit before
		b.folds(u, done, 0)
	}
	if b.folder.Units[u].Passable {
		b.next(u, done)
	}
	b.scheme.Steps, b.text, b.parity = b.scheme.Steps[:steps], b.text[:text], parity
}

func (b *brute) next(u, done int) {
	if u+1 < len(b.folder.Units) {
		for _, how := range entries(&b.folder.Units[u+1]) {
			b.unit(u+1, done, how)
		}
	}
}

// folds makes one more fold in unit u, with a plate after last.
func (b *brute) folds(u, done, last int) {
	unit, parity := &b.folder.Units[u], b.parity
	tools := len(unit.Plates)
	if unit.Kind == machine.Knife {
		tools = 1
	}
	for p := last + 1; p <= tools; p++ {
		op, limit := fold.Down, unit.Stop
		if unit.Kind == machine.Knife || unit.FoldsUp(p) {
			op = fold.Up
		}
		if unit.Kind == machine.Buckle {
			limit = unit.Plates[p-1].Stop
		}
		for _, stop := range b.stops(done + 1) {
			if stop < limit.Min || stop > limit.Max {
				continue
			}
			b.scheme.Steps = append(b.scheme.Steps, fold.Step{Op: op, Depth: fold.Depth{Plus: fold.Ratio{Num: int64(stop), Den: 1}}})
			b.text = append(b.text, fmt.Sprintf("%d at %d", p, stop))
			b.parity = 0
			if done+1 == b.folded.Scheme.Folds() {
				b.judge()
			} else {
				b.folds(u, done+1, p)
				b.next(u, done+1)
			}
			b.scheme.Steps, b.text, b.parity = b.scheme.Steps[:len(b.scheme.Steps)-1], b.text[:len(b.text)-1], parity
		}
	}
}

// stops is where the lines of a fold lie across the travel of the stack so far.
func (b *brute) stops(k int) []units.Length {
	var list []units.Length
	for _, c := range b.folded.Creases {
		if c.Fold != k {
			continue
		}
		fed := fedCrease(c, b.folded.Sheet, b.feed)
		end := func(along units.Length) (units.Length, units.Length) {
			if fed.Axis == fold.S {
				return locate(b.scheme, b.sheet, len(b.scheme.Steps), fed.At, along)
			}
			return locate(b.scheme, b.sheet, len(b.scheme.Steps), along, fed.At)
		}
		s0, _ := end(fed.From)
		if s1, _ := end(fed.To); s0 == s1 && s0 > 0 && !slices.Contains(list, s0) {
			list = append(list, s0)
		}
	}
	return list
}

func (b *brute) judge() {
	fed, err := b.scheme.Apply(b.sheet)
	if err == nil && sameProduct(b.folded, fed, b.feed) == "" {
		b.ways = append(b.ways, strings.Join(b.text, ", "))
	}
}

// inBruteWords writes a way of the engine in the words of brute.
func inBruteWords(s *Settings) string {
	text := []string{fmt.Sprint(s.Feed)}
	for _, u := range s.Units {
		if !u.Engaged && !u.Passes {
			continue
		}
		text = append(text, fmt.Sprintf("unit %d %s", u.Number, u.Enters))
		for _, p := range u.Plates {
			if !p.Closed {
				text = append(text, fmt.Sprintf("%d at %d", p.Number, p.Stop))
			}
		}
		if u.Knife != nil {
			text = append(text, fmt.Sprintf("1 at %d", u.Knife.Stop))
		}
	}
	return strings.Join(text, ", ")
}

// The engine finds exactly the ways that trying everything finds.
func TestWaysAreThoseOfBruteForce(t *testing.T) {
	ways := 0
	rapid.Check(t, func(t *rapid.T) {
		_, folded := randomJob(t, 3)
		f := randomFolder(t)
		for u := range f.Units { // tight limits, no shafts: this is about stops and plates
			f.Units[u].Stations = nil
			f.Units[u].Plates = f.Units[u].Plates[:min(3, len(f.Units[u].Plates))]
			for p := range f.Units[u].Plates {
				lo := units.Length(rapid.IntRange(10, 300).Draw(t, "least"))
				f.Units[u].Plates[p].Stop = span(lo, lo+units.Length(rapid.IntRange(0, 600).Draw(t, "room")))
			}
		}
		j := jobOf(folded)
		var got []string
		list, _ := Ways(j, folded, f, DefaultHouse())
		for i := range list {
			got = append(got, inBruteWords(&list[i]))
		}
		slices.Sort(got)
		want := bruteWays(f, folded)
		ways += len(want)
		if diff := gocmp.Diff(want, got); diff != "" {
			t.Fatalf("%v: %s\n%s", folded.Sheet, folded.Scheme, diff)
		}
	})
	if ways < 5 {
		t.Fatalf("only %d ways in all: the folders of this test are too poor", ways)
	}
}
