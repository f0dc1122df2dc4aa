package schedule

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// Whatever the problem and the order: the decoder's plan keeps every rule and costs what it says, by the definition that
// shares no code with it.
func TestDecodeKeepsTheDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		order := anyOrder(d, p, true)
		plan := Decode(p, order)
		cost, err := Evaluate(p, order, plan)
		if err != nil {
			t.Fatalf("%v\norder %v\nplan %+v", err, order, plan)
		}
		if cost != plan.Cost {
			t.Fatalf("cost %+v, plan says %+v", cost, plan.Cost)
		}
	})
}

// The same decoder gives the same plan again: nothing of one order is left in the next.
func TestDecoderForgets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		a, b := anyOrder(d, p, true), anyOrder(d, p, true)
		one := NewDecoder(p)
		one.Plan(a)
		cost, again := one.Cost(b), one.Plan(b)
		if cost != again.Cost {
			t.Fatalf("Cost is %+v, the plan's is %+v", cost, again.Cost)
		}
		if diff := cmp.Diff(Decode(p, b), again); diff != "" {
			t.Fatal(diff)
		}
	})
}

// The beginning of an order decodes as if the other jobs did not exist: the same as after taking them out of the problem.
func TestDecodeOfABeginning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		s := anyShape(d)
		s.before, s.fixed = 0, false
		p := s.draw(d)
		last := len(p.Jobs) - 1
		order := anyOrder(d, p, true)
		for i, row := range order {
			order[i] = slices.DeleteFunc(row, func(j int) bool { return j == last })
		}
		smaller := *p
		smaller.Jobs = p.Jobs[:last]
		smaller.Setup = nil
		for _, table := range p.Setup {
			smaller.Setup = append(smaller.Setup, append(slices.Clone(table[:last]), table[last+1]))
		}
		smaller.Racks = slices.Clone(p.Racks)
		for i := range smaller.Racks {
			smaller.Racks[i].Needs = p.Racks[i].Needs[:last]
		}
		if diff := cmp.Diff(Decode(&smaller, order), Decode(p, order)); diff != "" {
			t.Fatal(diff)
		}
	})
}

func TestDecodingAllocatesNothing(t *testing.T) {
	p := day(60, 4, 25, 1)
	d, order := NewDecoder(p), Construct(p)
	d.Cost(order)
	if n := testing.AllocsPerRun(20, func() { d.Cost(order) }); n > 0 {
		t.Errorf("decoding an order allocates %v times; it should not once warm", n)
	}
}
