package schedule

import (
	"slices"
	"testing"
)

// rackDay is one machine whose rack holds two sets; jobs need {0,1} {2} {0,1}, as in TestLoads.
func rackDay() (*Problem, Order) {
	p := bare(3, Window{0, Forever})
	for j := range p.Jobs {
		p.Jobs[j].Run = []Time{10}
	}
	p.Racks = []Rack{{Places: 2, Load: 7, Needs: [][]int{{0, 1}, {2}, {0, 1}}}}
	p.Closing = [][]Time{{1, 2, 5}}
	p.Weights = Weights{Setup: 1}
	return p, Order{{0, 1, 2}}
}

// Worked by hand: the first two sets fill the rack for nothing; set 2 takes one's place (7 s); of 0 and 1 one is still
// there and the other comes back (7 s); the closing set-up after job 2 is 5 s and takes no time.
func TestRackByHand(t *testing.T) {
	p, order := rackDay()
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	for i := range p.Setup[0] {
		for j := range p.Setup[0][i] {
			p.Setup[0][i][j] = 0
		}
	}
	plan := Decode(p, order)
	cost, err := Evaluate(p, order, plan)
	if err != nil {
		t.Fatal(err)
	}
	if cost.Setup != 7+7+5 || cost.Makespan != 3*10+7+7 {
		t.Errorf("%+v", cost)
	}
	var brought []int
	for _, task := range plan.Tasks[0] {
		brought = append(brought, len(task.Brought))
	}
	if !slices.Equal(brought, []int{2, 1, 1}) {
		t.Errorf("brought %v", brought)
	}
}

// Evaluate notices a rack that is kept wrongly.
func TestEvaluateHoldsTheRack(t *testing.T) {
	for name, spoil := range map[string]func(*Plan){
		"a set that is not needed":  func(p *Plan) { p.Tasks[0][1].Brought = []int{5} },
		"a set that never came":     func(p *Plan) { p.Tasks[0][1].Brought = nil },
		"a rack that is too full":   func(p *Plan) { p.Tasks[0][2].Brought = nil },
		"a load that takes no time": func(p *Plan) { p.Tasks[0][1].Loads = 0 },
	} {
		p, order := rackDay()
		plan := Decode(p, order)
		spoil(plan)
		if _, err := Evaluate(p, order, plan); err == nil {
			t.Errorf("%s goes unnoticed", name)
		}
	}
}
