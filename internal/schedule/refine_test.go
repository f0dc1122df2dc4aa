package schedule

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// Whatever the problem and the order: what is refined keeps every rule, costs what it says and no more than by the rules, comes out the
// same again, and a decoder that follows the plan's wishes makes the same plan.
func TestRefineKeepsTheDefinition(t *testing.T) {
	cheaper := 0
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		order := anyOrder(d, p, true)
		plan, rules := Refine(p, order, nil), Decode(p, order)
		cost, err := Evaluate(p, order, plan)
		if err != nil || cost != plan.Cost {
			t.Fatalf("cost %+v, plan says %+v (%v)\norder %v\nplan %+v", cost, plan.Cost, err, order, plan)
		}
		if rules.Cost.Less(cost) {
			t.Fatalf("refined to %+v, by the rules %+v", cost, rules.Cost)
		}
		if cost.Less(rules.Cost) {
			cheaper++
		}
		if diff := cmp.Diff(plan, Refine(p, order, nil)); diff != "" {
			t.Fatal(diff)
		}
		if again := Refine(p, order, plan.Wishes); plan.Cost.Less(again.Cost) {
			t.Fatalf("refined again %+v, at first %+v", again.Cost, plan.Cost)
		}
		follower := NewDecoder(p).Follow(plan.Wishes)
		if again := follower.Plan(order); again.Cost != plan.Cost || cmp.Diff(plan.Tasks, again.Tasks) != "" {
			t.Fatalf("following its wishes costs %+v, the plan %+v", again.Cost, plan.Cost)
		}
		other := anyOrder(d, p, true)
		if _, err := Evaluate(p, other, follower.Plan(other)); err != nil {
			t.Fatalf("another order with the same wishes: %v", err)
		}
		if diff := cmp.Diff(Decode(p, other), follower.Follow(nil).Plan(other)); diff != "" {
			t.Fatal(diff)
		}
	})
	if cheaper == 0 {
		t.Error("nothing was ever refined")
	}
}

// By hand, as above: the rules have a set built for 78, fitting in the folder comes to 75.
func TestRefineTakesTheDearerWay(t *testing.T) {
	p := shafts(1)
	p.Tools.Sets = append(p.Tools.Sets, Set{Pattern: 0, Station: -1})
	p.Tools.Wants[0][0] = wantAt(1, 40, 60)
	p.Weights = Weights{Setup: 1000, Wait: 1200}
	plan := Refine(p, Order{{0}}, nil)
	want := []Wish{{Job: 0, Station: 0, Mode: InFolder, Set: 0}}
	if diff := cmp.Diff(want, plan.Wishes); diff != "" || plan.Cost.Total != 75_000 {
		t.Errorf("cost %d, want 75 000\n%s", plan.Cost.Total, diff)
	}
}

// By hand: machine 0 runs job 0 with the only set of pattern 1 and then job 2 with plain shafts, which takes that set out by 140. Job 1
// on machine 1 wants pattern 1. The rules fit it at once, from 0 on, 10 + 5 + 400 s of set-up; waiting until 140 for the set costs 10 + 20 s
// of set-up and 140 s of waiting at a half.
func TestRefineWaitsForASet(t *testing.T) {
	p := two(3)
	p.Tools = shafts(3).Tools
	p.Tools.Units = append(p.Tools.Units, Unit{Machine: 1, GuideMove: 7, GuideAt: 50})
	p.Tools.Stations = append(p.Tools.Stations, Station{Machine: 1, Unit: 1, Swap: 20, Access: 5})
	p.Tools.Sets = []Set{{Pattern: 1, Station: 0}, {Pattern: 0, Station: 1}, {Pattern: 0, Station: -1}}
	p.Tools.People, p.Tools.InFolder[0][1] = nil, 400
	p.Weights = Weights{Setup: 1000, Wait: 500}
	for j := range p.Jobs {
		w := wantAt(1, 40, 60)
		if j == 2 {
			w = wantAt(0, 0, 100)
		}
		p.Tools.Wants[j] = []Want{w, w}
	}
	order := Order{{0, 2}, {1}}
	rules, plan := Decode(p, order), Refine(p, order, nil)
	if saved := rules.Cost.Total - plan.Cost.Total; saved != 415_000-30_000-70_000 {
		t.Errorf("by the rules %+v, refined %+v", rules.Cost, plan.Cost)
	}
	if diff := cmp.Diff([]times{{140, 170, 270}}, timesOf(plan.Tasks[1])); diff != "" {
		t.Error(diff)
	}
}

// Whatever is wished of whatever order: the plan keeps every rule.
func TestAnyWishKeepsTheDefinition(t *testing.T) {
	granted := 0
	for seed := range uint64(2000) {
		d := seededDice(seed)
		p := anyShape(d).draw(d)
		if p.Tools == nil || len(p.Tools.Sets) == 0 {
			continue
		}
		order, wishes := anyOrder(d, p, true), anyWishes(d, p)
		plan := NewDecoder(p).Follow(wishes).Plan(order)
		if cost, err := Evaluate(p, order, plan); err != nil || cost != plan.Cost {
			t.Fatalf("seed %d: cost %+v, plan says %+v (%v)\nwishes %+v", seed, cost, plan.Cost, err, wishes)
		}
		for _, row := range plan.Tasks {
			for _, task := range row {
				for _, m := range task.Mounts {
					if m.Wished {
						granted++
					}
				}
			}
		}
	}
	if granted < 100 {
		t.Errorf("%d wishes were granted: too few to prove anything", granted)
	}
}

// anyWishes are some that may be had and some that cannot be.
func anyWishes(d dice, p *Problem) []Wish {
	var wishes []Wish
	for range d(1, 4*len(p.Jobs)) {
		w := Wish{Job: d(0, len(p.Jobs)-1), Station: d(-1, len(p.Tools.Stations)-1), Mode: Mode(d(0, 5)), Set: d(0, len(p.Tools.Sets)-1), Guide: int64(d(-50, 150))}
		if w.Unit = d(0, len(p.Tools.Units)-1); w.Station >= 0 && d(0, 3) > 0 {
			w.Unit = p.Tools.Stations[w.Station].Unit
		}
		wishes = append(wishes, w)
	}
	return wishes
}
