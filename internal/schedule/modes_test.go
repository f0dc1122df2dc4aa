package schedule

import (
	"slices"
	"testing"
)

// tinyShop is small enough that every plan of it can be looked at.
func tinyShop(seed uint64) *Problem {
	d := seededDice(seed)
	s := shape{
		jobs: d(3, 4), machines: 2, stations: d(1, 3), classes: 1, kinds: 2, people: 1,
		windows: d(0, 1) == 0, before: d(0, 1), scarce: d(0, 2) == 0,
	}
	s.patterns, s.sets = d(3, 4), min(4, s.stations+d(1, 2))
	p := s.draw(d)
	for q := s.classes; q < s.patterns; q++ {
		if p.Tools.Patterns[q].Plain() {
			p.Tools.Patterns[q].Tools = []Count{{Type: q % s.kinds, N: 1}}
		}
	}
	for _, wants := range p.Tools.Wants {
		for k := range wants {
			wants[k].Fits = slices.DeleteFunc(wants[k].Fits, func(f Fit) bool {
				return p.Tools.Patterns[f.Pattern].Plain() && !p.Tools.Patterns[wants[k].Pattern].Plain()
			})
		}
	}
	p.Weights.Wait = min(p.Weights.Wait, p.Weights.Setup)
	p.Tools.OnBench, p.Tools.InFolder = byTheTool(p.Tools, 15, 10, 20), byTheTool(p.Tools, 20, 20, 40)
	return p
}

// byTheTool is a table of conversions with a time for every one, for every tool off and for every tool on: no way by another
// pattern is shorter.
func byTheTool(t *Tooling, each, off, on Time) [][]Time {
	var table [][]Time
	for a := range t.Patterns {
		var row []Time
		for b := range t.Patterns {
			var work Time
			if a != b {
				work = each
			}
			for kind := range t.Loose {
				more := total(t.Patterns[b], kind) - total(t.Patterns[a], kind)
				work += max(0, Time(more))*on + max(0, Time(-more))*off
			}
			row = append(row, work)
		}
		table = append(table, row)
	}
	return table
}

// shortfall is how far the best that the decoder makes of any order is from the best of all plans.
type shortfall struct {
	shops, equal, left int // left: shops of which the best plan leaves out fewer jobs
	sum, largest       float64
	largestOf          uint64
	modes              [Plain + 1]int // of the best plans, as are the builds
	builds             int
}

func (g *shortfall) add(seed uint64, reached Cost, best *Plan) {
	g.shops++
	g.builds += len(best.Builds)
	for _, row := range best.Tasks {
		for _, t := range row {
			for _, m := range t.Mounts {
				g.modes[m.Mode]++
			}
		}
	}
	switch {
	case reached.Compare(best.Cost) == 0:
		g.equal++
	case reached.Unplaced > best.Cost.Unplaced:
		g.left++
	default:
		gap := float64(reached.Total-best.Cost.Total) / float64(best.Cost.Total)
		g.sum += gap
		if gap > g.largest {
			g.largest, g.largestOf = gap, seed
		}
	}
}

// What the decoder's rules cost: of 200 tiny shops, the best that it makes of any order beside the best of all plans, with every
// way to get the tools, every guide position, waits and any sequence at the bench. It is never better, and not
// worse more often than when this was written.
func TestDecoderAgainstEveryPlan(t *testing.T) {
	var g shortfall
	for seed := range uint64(200) {
		p := tinyShop(seed)
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		reached := bestOfAll(t, p)
		best := bestPlan(t, p, reached)
		if best == nil || reached.Less(best.Cost) {
			t.Fatalf("seed %d: the decoder reaches %+v, and no plan of all plans does", seed, reached)
		}
		g.add(seed, reached, best)
	}
	t.Logf("the best of all plans in %d of %d shops; in %d fewer jobs could be left out; else the gap is %.1f %% in the mean of all, %.0f %% at most (seed %d)",
		g.equal, g.shops, g.left, 100*g.sum/float64(g.shops), 100*g.largest, g.largestOf)
	if g.equal < 150 || g.left > 2 || g.sum > 0.025*float64(g.shops) {
		t.Errorf("the decoder's rules have become worse: %+v", g)
	}
	if slices.Min(g.modes[:]) < 20 || g.builds < 50 {
		t.Errorf("too tame to prove anything: %+v", g)
	}
}

// By hand: one job wants a pattern that no set has. The decoder counts a second of work and of waiting as one more than its
// price, since later jobs move with it; here there are none. It has the set built, 10 + 20 s of set-up and 40 s of waiting at 1.2,
// which is 78; fitting in the folder would be 10 + 65 s of set-up, 75.
func TestEveryPlanFindsWhatTheDecoderMisses(t *testing.T) {
	p := shafts(1)
	p.Tools.Sets = append(p.Tools.Sets, Set{Pattern: 0, Station: -1})
	p.Tools.Wants[0][0] = wantAt(1, 40, 60)
	p.Weights = Weights{Setup: 1000, Wait: 1200}
	reached := bestOfAll(t, p)
	best := bestPlan(t, p, reached)
	if reached.Total != 78_000 || best == nil || best.Cost.Total != 75_000 {
		t.Errorf("the decoder reaches %+v, all plans %+v; want 78 000 and 75 000", reached, best)
	}
}
