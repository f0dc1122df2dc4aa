package settings

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/tooling"
	"foldwright/internal/units"

	"pgregory.net/rapid"
)

// card is a piece of the flat sheet between the creases made so far: every wheel behind a unit runs over whole cards.
type card struct{ s, t [2]units.Length }

// cardsBehind cuts the flat sheet at the creases of the folds that are made when so many folds are.
func cardsBehind(folded *fold.Folded, folds int) []card {
	cut := [2][]units.Length{fold.S: {0, folded.Sheet.Length}, fold.T: {0, folded.Sheet.Width}}
	for _, c := range folded.Creases {
		if c.Fold <= folds {
			cut[c.Axis] = append(cut[c.Axis], c.At)
		}
	}
	var list []card
	for a := range cut {
		slices.Sort(cut[a])
		cut[a] = slices.Compact(cut[a])
	}
	for i := range cut[fold.S][1:] {
		for k := range cut[fold.T][1:] {
			list = append(list, card{[2]units.Length{cut[fold.S][i], cut[fold.S][i+1]}, [2]units.Length{cut[fold.T][k], cut[fold.T][k+1]}})
		}
	}
	return list
}

// mark is the piece of a line of the flat sheet that a wheel makes on a card.
type mark struct {
	axis     fold.Axis
	at       units.Length
	from, to units.Length
}

// hit is the mark on a card of a wheel at t of the stack, as the card lies after so many steps of the scheme as fed.
func (c card) hit(drawn fold.Sheet, feed Feed, scheme fold.Scheme, sheet fold.Sheet, steps int, t units.Length) (mark, bool) {
	across := func(s, u units.Length) units.Length {
		fs, ft := onFed(feed, drawn, s, u)
		_, at := locate(scheme, sheet, steps, fs, ft)
		return at
	}
	corner, alongS, alongT := across(c.s[0], c.t[0]), across(c.s[1], c.t[0]), across(c.s[0], c.t[1])
	if alongS != corner { // the card's s runs across the machine's travel
		x := c.s[0] + t - corner
		if alongS < corner {
			x = c.s[0] + corner - t
		}
		return mark{fold.S, x, c.t[0], c.t[1]}, c.s[0] < x && x < c.s[1]
	}
	x := c.t[0] + t - corner
	if alongT < corner {
		x = c.t[0] + corner - t
	}
	return mark{fold.T, x, c.s[0], c.s[1]}, c.t[0] < x && x < c.t[1]
}

// wanted gives the marks that an operation wants on the flat sheet.
func wanted(op job.Operation, folded *fold.Folded) []mark {
	if op.Target == job.OnLine {
		end := folded.Sheet.Width
		if op.Axis == fold.T {
			end = folded.Sheet.Length
		}
		return []mark{{op.Axis, op.At, 0, end}}
	}
	var list []mark
	for _, c := range folded.Creases {
		if c.Fold == op.Fold {
			list = append(list, mark{c.Axis, c.At, c.From, c.To})
		}
	}
	return list
}

// covered is how much of a mark lies on wanted ones.
func (m mark) covered(list []mark) units.Length {
	var sum units.Length
	for _, w := range list {
		if w.axis == m.axis && w.at == m.at {
			sum += max(0, min(w.to, m.to)-max(w.from, m.from))
		}
	}
	return sum
}

func randomOperations(t *rapid.T, j *job.Job) {
	for range rapid.IntRange(1, 3).Draw(t, "operations") {
		op := job.Operation{Kind: rapid.SampledFrom([]tooling.Kind{tooling.Slit, tooling.Perforate, tooling.Score}).Draw(t, "kind")}
		if op.Kind != tooling.Slit && j.Scheme.Folds() > 1 && rapid.Bool().Draw(t, "on fold") {
			op.Target, op.Fold = job.OnFold, rapid.IntRange(2, j.Scheme.Folds()).Draw(t, "fold")
		} else {
			op.Target, op.Axis = job.OnLine, rapid.SampledFrom([]fold.Axis{fold.S, fold.T}).Draw(t, "axis")
			// Off every twelfth of every sheet, so that no line falls on a crease.
			op.At = units.Length(rapid.IntRange(0, 15).Draw(t, "at"))*12*mm + 7*mm
		}
		if !slices.Contains(j.Operations, op) {
			j.Operations = append(j.Operations, op)
		}
	}
}

// foldsBehind counts the folds made up to and including unit i.
func foldsBehind(s *Settings, i int) int {
	n := 0
	for _, u := range s.Units[:i+1] {
		for _, p := range u.Plates {
			if !p.Closed {
				n++
			}
		}
		if u.Knife != nil {
			n++
		}
	}
	return n
}

// Every wheel of every way marks exactly what is wanted: nothing else, and all of it. A pencil line is followed through
// the folding step by step; neither Trace nor relation.go is asked.
func TestWheelsMarkWhatIsWanted(t *testing.T) {
	wheels := 0
	rapid.Check(t, func(t *rapid.T) {
		j, folded := randomJob(t, 3)
		randomOperations(t, j)
		f := randomFolder(t)
		h := DefaultHouse()
		h.Body = func(string, tooling.Type) tooling.Body { return tooling.Body{Left: 2 * mm, Right: 3 * mm} }
		ways, _ := Ways(j, folded, f, h)
		for i := range ways {
			wheels += checkWheels(t, f, &ways[i], j, folded)
		}
	})
	if wheels == 0 {
		t.Fatalf("only %d wheels in all: the shops of this test are too poor", wheels)
	}
}

func checkWheels(t *rapid.T, f *machine.Folder, s *Settings, j *job.Job, folded *fold.Folded) (wheels int) {
	scheme, sheet, steps := asFed(f, s, folded.Sheet)
	done := make([]units.Length, len(j.Operations))
	for i, u := range s.Units {
		behind := cardsBehind(folded, foldsBehind(s, i))
		for _, st := range u.Stations {
			for _, tool := range st.Tools {
				wheels++
				allowed := 0
				for _, c := range behind {
					m, ok := c.hit(folded.Sheet, s.Feed, scheme, sheet, steps[i], tool.T)
					if !ok {
						continue
					}
					covered := units.Length(0)
					for k, op := range j.Operations {
						here := m.covered(wanted(op, folded))
						if op.Kind == tool.Kind {
							covered = max(covered, here)
						}
						if op.Kind == tool.Kind && named(tool.For.String(), op) {
							done[k] += here
						}
					}
					if covered != m.to-m.from {
						t.Fatalf("unit %d: %s for %s at t %v marks %v, of which %v is wanted\nfed %v: %s", u.Number, tool.Type, tool.For, tool.T, m, covered, s.Feed, scheme)
					}
					allowed++
				}
				if allowed == 0 {
					t.Fatalf("unit %d: %s for %s at t %v marks nothing", u.Number, tool.Type, tool.For, tool.T)
				}
			}
		}
	}
	for k, op := range j.Operations {
		want := units.Length(0)
		for _, w := range wanted(op, folded) {
			want += w.to - w.from
		}
		if done[k] != want {
			t.Fatalf("%s: %v marked of %v\nfed %v: %s", op, done[k], want, s.Feed, scheme)
		}
	}
	return wheels
}

func named(why string, op job.Operation) bool {
	return slices.Contains(strings.Split(why, ", "), op.Short().String())
}

// The shaft: positions by the four cases of the datum rule, bodies clear of one another and on the usable part, rings on
// the paper and off everything.
func TestTheShaftHoldsWhatStandsOnIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, folded := randomJob(t, 3)
		randomOperations(t, j)
		f := randomFolder(t)
		h := house()
		ways, _ := Ways(j, folded, f, h)
		for i := range ways {
			for u := range ways[i].Units {
				checkShaft(t, &f.Units[u], &ways[i].Units[u], h)
			}
			checkRings(t, f, &ways[i], folded, h)
		}
	})
}

func checkShaft(t *rapid.T, unit *machine.Unit, u *Unit, h *House) {
	if g := u.Guide; (u.Engaged || u.Passes) && (g.At < unit.Guide.Range.Min || g.At > unit.Guide.Range.Max || !g.Window.Has(g.At)) {
		t.Fatalf("unit %d: guide %v, range %v", u.Number, g, unit.Guide.Range)
	}
	for k, st := range u.Stations {
		class := func(tt tooling.Type) tooling.Body { return h.Body(st.Class, tt) }
		if c := tooling.Clashes(st.Pattern().Tools, class); c != nil {
			t.Fatalf("unit %d: %v clash: %v", u.Number, st.Tools, c)
		}
		if b := tooling.Beyond(st.Pattern().Tools, class, tooling.Window{Lo: unit.Stations[k].From, Hi: unit.Stations[k].To}); b != nil {
			t.Fatalf("unit %d: %v stand off the shaft", u.Number, st.Tools)
		}
		for _, tool := range st.Tools {
			if want := datum(unit, u.Guide.At, tool.T, u.Out.Width); tool.At != want {
				t.Fatalf("unit %d: tool at %v, want %v", u.Number, tool.At, want)
			}
		}
	}
}

// datum is the rule for shaft positions, case by case: the scale begins at the operator, the guide holds one edge.
func datum(u *machine.Unit, guide, t, width units.Length) units.Length {
	switch {
	case u.Operator == machine.LeftSide && u.Guide.Side == machine.LeftSide:
		return guide + t
	case u.Operator == machine.LeftSide:
		return guide - (width - t)
	case u.Guide.Side == machine.LeftSide:
		return guide - t
	}
	return guide + (width - t)
}

func checkRings(t *rapid.T, f *machine.Folder, s *Settings, folded *fold.Folded, h *House) {
	scheme, sheet, steps := asFed(f, s, folded.Sheet)
	for i, u := range s.Units {
		var lines []units.Length // on the shaft: folds still to come along the travel
		for _, c := range folded.Creases {
			if c.Fold > foldsBehind(s, i) {
				lines = append(lines, creaseOnShaft(&f.Units[i], &u, c, folded.Sheet, s.Feed, scheme, sheet, steps[i])...)
			}
		}
		for k, st := range u.Stations {
			place := f.Units[i].Stations[k]
			if len(st.DriveRings) < 2 || st.DriveRings[len(st.DriveRings)-1]-st.DriveRings[0] < u.Out.Width/4 {
				t.Fatalf("unit %d: rings at %v on a stack %v wide", u.Number, st.DriveRings, u.Out.Width)
			}
			half := h.Rings.Width / 2
			for _, at := range st.DriveRings {
				if at-half < max(st.Paper.Lo, place.From) || at+half > min(st.Paper.Hi, place.To) {
					t.Fatalf("unit %d: ring at %v, paper %v, shaft %v–%v", u.Number, at, st.Paper, place.From, place.To)
				}
				for _, tool := range st.Tools {
					lines = append(lines, tool.At)
				}
				for _, line := range lines {
					if abs(line-at) < half {
						t.Fatalf("unit %d: ring at %v rolls on the line at %v", u.Number, at, line)
					}
				}
			}
		}
	}
}

// creaseOnShaft is where a crease still to be made lies on the shafts of a unit, when it runs along the travel there.
func creaseOnShaft(unit *machine.Unit, u *Unit, c fold.Crease, drawn fold.Sheet, feed Feed, scheme fold.Scheme, sheet fold.Sheet, steps int) []units.Length {
	end := func(along units.Length) (units.Length, units.Length) {
		s, t := c.At, along
		if c.Axis == fold.T {
			s, t = along, c.At
		}
		s, t = onFed(feed, drawn, s, t)
		return locate(scheme, sheet, steps, s, t)
	}
	s0, t0 := end(c.From)
	s1, t1 := end(c.To)
	if t0 != t1 || s0 == s1 {
		return nil
	}
	return []units.Length{datum(unit, u.Guide.At, t0, u.Out.Width)}
}

// A line 100 mm from the left edge as drawn, on a sheet 610 wide: seen from behind with the tail leading, or from below, it
// lies 100 mm from the right edge; with both it is back on the left. Fed sideways it runs across.
func TestFeedsMirror(t *testing.T) {
	j, folded := docket(t, 860*mm, 610*mm, "up 1/2", "perforate at t 100 mm")
	ways, miss := Ways(j, folded, combination(), house())
	if miss != nil {
		t.Fatal(miss.Why())
	}
	got := map[Feed]units.Length{}
	for _, w := range ways {
		if w.Units[0].Engaged {
			got[w.Feed] = w.Units[0].Stations[0].Tools[0].T
		}
	}
	want := map[Feed]units.Length{{S0, Front}: 100 * mm, {S1, Front}: 510 * mm, {S0, Back}: 510 * mm, {S1, Back}: 100 * mm}
	if !maps.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}
