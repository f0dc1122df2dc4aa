package schedule

import (
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// After a decoding every turn lies between the end of the job before and the begin of the one behind, and the forecasts go by it;
// but what is running at the start waits for nothing.
func TestTurnsLieBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		m := newModel(p)
		o := newOutlook(m, newArcs(m))
		dec := newDecoder(m)
		dec.decode(anyOrder(d, p, true), nil)
		o.takeTurns(dec)
		for n, x := range p.Precedences {
			if !dec.placed(x.Before) || !dec.placed(x.After) {
				if o.turns[n] != 0 {
					t.Fatalf("%v has the turn %d, though one of them has no place", x, o.turns[n])
				}
				continue
			}
			if o.turns[n] < dec.end[x.Before] || o.turns[n] > max(dec.begun[x.After], dec.end[x.Before]) {
				t.Fatalf("%v: turn %d, ends %d, begins %d", x, o.turns[n], dec.end[x.Before], dec.begun[x.After])
			}
			for i := range p.Machines {
				before, behind := o.legs[i][x.Before], o.legs[i][x.After]
				least := max(o.turns[n], p.Jobs[x.After].Release)
				if running := m.started[i] == x.After; before.turn > o.turns[n] || running && behind.release != 0 || !running && behind.release < least {
					t.Fatalf("%v: the forecasts of machine %d do not go by the turn %d", x, i, o.turns[n])
				}
			}
		}
	})
}

// Two machines; the job of the second may run when the first job of the other is finished. What a forecast by rows cannot see, turns
// show: that another job in front of the first makes the second machine wait.
func TestTurnsShowWhatRowsDoNot(t *testing.T) {
	open := []Window{{0, 1000}}
	p := &Problem{
		Machines:    []Machine{{Windows: open}, {Windows: open}},
		Jobs:        []Job{{Run: []Time{100, -1}, Due: 900, Weight: 1}, {Run: []Time{-1, 50}, Due: 900, Weight: 1}, {Run: []Time{30, -1}, Due: 900, Weight: 1}},
		Setup:       [][][]Time{{{0, 0, 0}, {0, 0, 0}, {0, 0, 0}, {0, 0, 0}}, {{0, 0, 0}, {0, 0, 0}, {0, 0, 0}, {0, 0, 0}}},
		Precedences: []Precedence{{Before: 0, After: 1}},
		Weights:     Weights{Late: 1, Setup: 1, Wait: 1},
	}
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	m := newModel(p)
	c := newClimber(m, newArcs(m), rand.New(rand.NewPCG(1, 0)), Order{{0, 2}, {1}}, crew{roams: true, heat: 3, cold: 24, still: 96})
	worse := []int{2, 0}
	if c.outlook.turns[0] != 100 {
		t.Fatalf("the turn is %d, want 100", c.outlook.turns[0])
	}
	// 30 s later than its turn: job 1 would wait, at 1 a second, and become later, at 1 a second
	if rise := c.outlook.rise(0, []int{0, 2}, worse, 1<<40); rise != 60 {
		t.Errorf("forecast to cost %d more, want 60", rise)
	}
	if got := c.decode(Order{worse, {1}}, nil); got.Total != 130 || c.firm.cost.Total != 100 {
		t.Errorf("decoded: %d, then %d; want 100, then 130", c.firm.cost.Total, got.Total)
	}
}
