package settings

import (
	"cmp"
	"fmt"
	"slices"
	"testing"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/units"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// The replay is the independent truth of this package: it takes a way as an operator would read it, sheet as fed, turns as
// the folder makes them, plate stops in millimetres, folds it with the fold room and compares the product. It uses
// nothing of relation.go.

// asFed gives the scheme that the machine carries out, and the sheet as it lies on the feed table. steps[u] is how many
// steps of it are done behind unit u's nips.
func asFed(f *machine.Folder, s *Settings, drawn fold.Sheet) (scheme fold.Scheme, sheet fold.Sheet, steps []int) {
	sheet = drawn
	if s.Feed.Leading == T0 || s.Feed.Leading == T1 {
		sheet = fold.Sheet{Length: drawn.Width, Width: drawn.Length}
	}
	add := func(op fold.Op, stop units.Length) {
		scheme.Steps = append(scheme.Steps, fold.Step{Op: op, Depth: fold.Depth{Plus: fold.Ratio{Num: int64(stop), Den: 1}}})
	}
	for i, u := range s.Units {
		switch u.Enters {
		case machine.TurnLeft:
			scheme.Steps = append(scheme.Steps, fold.Step{Op: fold.Left})
		case machine.TurnRight:
			scheme.Steps = append(scheme.Steps, fold.Step{Op: fold.Right})
		}
		for _, p := range u.Plates {
			if !p.Closed {
				op := fold.Down
				if f.Units[i].FoldsUp(p.Number) {
					op = fold.Up
				}
				add(op, p.Stop)
			}
		}
		if u.Knife != nil {
			add(fold.Up, u.Knife.Stop)
		}
		steps = append(steps, len(scheme.Steps))
	}
	return scheme, sheet, steps
}

// onFed takes a place of the sheet as drawn to the sheet as fed, written out case by case as one turns a sheet on a table.
func onFed(feed Feed, drawn fold.Sheet, s, t units.Length) (fs, ft units.Length) {
	l, w := drawn.Length, drawn.Width
	switch feed {
	case Feed{S0, Front}:
		return s, t
	case Feed{S1, Front}:
		return l - s, w - t
	case Feed{T0, Front}:
		return t, l - s
	case Feed{T1, Front}:
		return w - t, s
	case Feed{S0, Back}:
		return s, w - t
	case Feed{S1, Back}:
		return l - s, t
	case Feed{T0, Back}:
		return t, s
	case Feed{T1, Back}:
		return w - t, l - s
	}
	panic(feed)
}

// locate follows a point of the flat sheet through a scheme whose depths are plain lengths, step by step, as one would
// with a pencil mark: at a fold, what is ahead of the line comes back over it. steps says how far to go.
func locate(scheme fold.Scheme, sheet fold.Sheet, steps int, s, t units.Length) (units.Length, units.Length) {
	length, width := sheet.Length, sheet.Width
	for _, step := range scheme.Steps[:steps] {
		switch step.Op {
		case fold.Left:
			s, t, length, width = t, length-s, width, length
		case fold.Right:
			s, t, length, width = width-t, s, width, length
		default:
			stop := units.Length(step.Depth.Plus.Num)
			s = max(s-stop, stop-s)
			length = max(stop, length-stop)
		}
	}
	return s, t
}

func fedCrease(c fold.Crease, sheet fold.Sheet, feed Feed) fold.Crease {
	place := func(along units.Length) (units.Length, units.Length) {
		if c.Axis == fold.S {
			return onFed(feed, sheet, c.At, along)
		}
		return onFed(feed, sheet, along, c.At)
	}
	s0, t0 := place(c.From)
	s1, t1 := place(c.To)
	fed := fold.Crease{Fold: c.Fold, Axis: fold.S, At: s0, From: min(t0, t1), To: max(t0, t1), Bend: c.Bend}
	if s0 != s1 {
		fed.Axis, fed.At, fed.From, fed.To = fold.T, t0, min(s0, s1), max(s0, s1)
	}
	if feed.FaceUp == Back {
		fed.Bend = fold.Valley + fold.Mountain - c.Bend
	}
	return fed
}

// sameProduct tells what is different between drawing and machine.
func sameProduct(drawn, fed *fold.Folded, feed Feed) string {
	var creases []fold.Crease
	for _, c := range drawn.Creases {
		creases = append(creases, fedCrease(c, drawn.Sheet, feed))
	}
	if diff := gocmp.Diff(sortedCreases(creases), sortedCreases(unstepped(fed.Creases))); diff != "" {
		return diff
	}
	if _, ok := samePile(drawn, fed, feed); !ok {
		return "the cards lie in another order, or on other faces"
	}
	return ""
}

func sortedCreases(list []fold.Crease) []fold.Crease {
	slices.SortFunc(list, func(a, b fold.Crease) int {
		return cmp.Or(cmp.Compare(a.Fold, b.Fold), cmp.Compare(a.Axis, b.Axis), cmp.Compare(a.At, b.At), cmp.Compare(a.From, b.From))
	})
	return list
}

// unstepped leaves off the numbers of the steps: turns differ.
func unstepped(creases []fold.Crease) []fold.Crease {
	list := slices.Clone(creases)
	for i := range list {
		list[i].Step = 0
	}
	return list
}

// randomScheme draws steps that fold; depths are whole twelfths of the sheet, so that stops are whole nanometres.
func randomScheme(t *rapid.T, sheet fold.Sheet, most int) fold.Scheme {
	var scheme fold.Scheme
	extent := [2]int64{12, 12} // what is left of the stack, in twelfths of the sheet
	axis := 0
	for n := rapid.IntRange(1, most).Draw(t, "folds"); n > 0; {
		if rapid.IntRange(0, 2).Draw(t, "what") == 0 {
			scheme.Steps = append(scheme.Steps, fold.Step{Op: rapid.SampledFrom([]fold.Op{fold.Left, fold.Right}).Draw(t, "turn")})
			axis = 1 - axis
			continue
		}
		n--
		if extent[axis] < 2 {
			continue
		}
		d := rapid.Int64Range(1, extent[axis]-1).Draw(t, "depth")
		scheme.Steps = append(scheme.Steps, fold.Step{
			Op:    rapid.SampledFrom([]fold.Op{fold.Up, fold.Down}).Draw(t, "fold"),
			Depth: fold.Depth{Share: fold.Ratio{Num: d, Den: 12}},
		})
		extent[axis] = max(d, extent[axis]-d)
	}
	return scheme
}

// randomFolder draws a folder that is generous, so that most schemes find a way.
func randomFolder(t *rapid.T) *machine.Folder {
	f := &machine.Folder{Name: "random", Feeder: machine.Feeder{Length: span(10, 3000), Width: span(10, 3000), MaxGrammage: 1000 * units.GramPerM2, SheetsPerHourMax: 20000}}
	for u := range rapid.IntRange(1, 4).Draw(t, "units") {
		unit := machine.Unit{
			Kind: machine.Buckle, Speed: 150 * units.MetrePerMin, Gap: 50 * mm,
			Passable: rapid.Bool().Draw(t, "passable"), FirstBelow: rapid.Bool().Draw(t, "below"),
			Operator: rapid.SampledFrom([]machine.Side{machine.LeftSide, machine.RightSide}).Draw(t, "operator"),
			Guide:    machine.Guide{Side: rapid.SampledFrom([]machine.Side{machine.LeftSide, machine.RightSide}).Draw(t, "guide"), Range: span(0, 4000)},
			Enters:   []machine.Entry{machine.Straight},
		}
		if u > 0 {
			unit.Enters = rapid.SampledFrom([][]machine.Entry{
				{machine.TurnLeft}, {machine.TurnRight}, {machine.TurnLeft, machine.TurnRight}, {machine.Straight, machine.TurnRight},
			}).Draw(t, "enters")
		}
		if u > 0 && rapid.IntRange(0, 3).Draw(t, "kind") == 0 {
			unit.Kind, unit.Stop, unit.StrokesMax = machine.Knife, span(10, 900), 8000
		} else {
			for range rapid.IntRange(1, 5).Draw(t, "plates") {
				unit.Plates = append(unit.Plates, machine.Plate{Stop: span(10, 900)})
			}
		}
		for k := range rapid.IntRange(0, 2).Draw(t, "stations") {
			unit.Stations = append(unit.Stations, machine.Station{Name: fmt.Sprintf("%d%c", u+1, 'A'+k), Class: "any", From: 100 * mm, To: 4000 * mm})
		}
		f.Units = append(f.Units, unit)
	}
	return f
}

func randomJob(t *rapid.T, most int) (*job.Job, *fold.Folded) {
	sheet := fold.Sheet{
		Length: units.Length(rapid.IntRange(20, 100).Draw(t, "length")) * 12 * mm,
		Width:  units.Length(rapid.IntRange(20, 100).Draw(t, "width")) * 12 * mm,
	}
	folded, err := randomScheme(t, sheet, most).Apply(sheet)
	if err != nil {
		t.Skip(err)
	}
	return jobOf(folded), folded
}

// jobOf is a job for a folding, on stock of 100 µm.
func jobOf(folded *fold.Folded) *job.Job {
	return &job.Job{
		Name: "random", Sheet: folded.Sheet, Scheme: folded.Scheme, Sheets: 1,
		Stock: paper.Stock{Grammage: 80 * units.GramPerM2, Measured: 100 * units.Micrometre},
	}
}

// Every way, carried out as an operator would set it, gives the product as drawn.
func TestEveryWayGivesTheProduct(t *testing.T) {
	ways := 0
	rapid.Check(t, func(t *rapid.T) {
		j, folded := randomJob(t, 4)
		f := randomFolder(t)
		list, miss := Ways(j, folded, f, DefaultHouse())
		if (miss == nil) == (len(list) == 0) {
			t.Fatalf("%d ways, miss %v", len(list), miss)
		}
		best, _ := Best(j, folded, f, DefaultHouse())
		if len(list) > 0 {
			if diff := gocmp.Diff(list[0], *best); diff != "" {
				t.Fatalf("the best way is not the first:\n%s", diff)
			}
		}
		for i := range list {
			ways++
			replayed(t, f, &list[i], folded)
		}
	})
	if ways < 20 {
		t.Fatalf("only %d ways in all: the folders of this test are too poor", ways)
	}
}

// replayed carries a way out and returns the folding in the machine's frame, and how many of its steps are done behind
// each unit.
func replayed(t *rapid.T, f *machine.Folder, s *Settings, folded *fold.Folded) (*fold.Folded, []int) {
	scheme, sheet, steps := asFed(f, s, folded.Sheet)
	fed, err := scheme.Apply(sheet)
	if err != nil {
		t.Fatalf("fed %v: %v\n%s", s.Feed, err, scheme)
	}
	if diff := sameProduct(folded, fed, s.Feed); diff != "" {
		t.Fatalf("%v\nas drawn: %s\nfed %v: %s\n%s", folded.Sheet, folded.Scheme, s.Feed, scheme, diff)
	}
	at := 0
	for i, u := range s.Units {
		if !u.Engaged && !u.Passes {
			continue
		}
		entered := at
		if u.Enters != machine.Straight {
			entered++
		}
		if in := fed.States[entered]; in != u.In {
			t.Fatalf("unit %d: enters as %v, told %v", u.Number, in, u.In)
		}
		at = steps[i]
		if out := fed.States[at]; out != u.Out {
			t.Fatalf("unit %d: leaves as %v, told %v", u.Number, out, u.Out)
		}
		checkNips(t, fed, entered, &s.Units[i])
	}
	return fed, steps
}

// checkNips reads the layers off the replayed states: nip 1 as the stack enters, one more state for every open plate.
func checkNips(t *rapid.T, fed *fold.Folded, state int, u *Unit) {
	if u.Kind == machine.Knife {
		if u.Engaged && (len(u.Nips) != 1 || u.Nips[0].Layers != fed.States[state+1].Layers) {
			t.Fatalf("knife nips %v, state %v", u.Nips, fed.States[state+1])
		}
		return
	}
	for i, nip := range u.Nips {
		if i > 0 && !u.Plates[i-1].Closed {
			state++
		}
		if nip.Layers != fed.States[state].Layers || nip.Thickness != units.Length(nip.Layers)*100*units.Micrometre || nip.Number != i+1 {
			t.Fatalf("unit %d: nip %v, state %v", u.Number, nip, fed.States[state])
		}
	}
}
