package schedule

import (
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
		one := newDecoder(newModel(p))
		one.decode(a, nil)
		var again Plan
		cost := one.decode(b, &again)
		if cost != again.Cost {
			t.Fatalf("decode returns %+v and writes %+v", cost, again.Cost)
		}
		if diff := cmp.Diff(Decode(p, b), &again); diff != "" {
			t.Fatal(diff)
		}
	})
}
