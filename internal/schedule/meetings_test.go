package schedule

import (
	"context"
	"slices"
	"testing"
)

// The rounds of every crew and walker follow each other without a gap and end with the time.
func TestRoundsFillTheTime(t *testing.T) {
	plans := []*meetings{(&walker{laps: 1}).meetings(), (&walker{laps: 18}).meetings()}
	for _, jobs := range []int{2, 40, 100, 200, 400} {
		crew := crewOf(jobs)
		plans = append(plans, &crew.meetings)
	}
	for n, m := range plans {
		end := 0
		for round := range m.rounds() {
			over, from, to := m.round(round)
			if m.settling(round) && from != end || over <= end || over > to {
				t.Errorf("%d: round %d is over at %d, the one before at %d, and is a part of %d to %d", n, round, over, end, from, to)
			}
			end = over
		}
		if end != 24 {
			t.Errorf("%d: the last round is over at %d", n, end)
		}
	}
}

// fixed is a search that stays at an order.
type fixed struct {
	seeker
	cost int64
	keep int
}

func (f *fixed) best() (Order, Cost) { return Order{{int(f.cost)}}, Cost{Total: f.cost} }
func (f *fixed) meetings() *meetings { return &meetings{climb: []int{12}, settle: 2, keep: f.keep} }

// The pool is the cheapest of each family, each cost once, the cheapest first; a search without a known end keeps one.
func TestThePoolIsTheCheapestOfEachFamily(t *testing.T) {
	for _, c := range []struct {
		name       string
		costs      []int64
		families   int
		keep       int
		iterations int
		want       []int64
	}{
		{"each search on its own", []int64{5, 3, 4, 3, 9, 1}, 6, 3, 100, []int64{1, 3, 4}},
		{"families of two", []int64{5, 3, 4, 7, 2, 6}, 3, 9, 100, []int64{2, 4, 5}},
		{"one order to keep", []int64{5, 3, 4}, 3, 1, 100, []int64{3}},
		{"no known end", []int64{5, 3, 4}, 3, 3, 0, []int64{3}},
	} {
		t.Run(c.name, func(t *testing.T) {
			team := &team{options: Options{Iterations: c.iterations}}
			for _, cost := range c.costs {
				team.seekers = append(team.seekers, &fixed{cost: cost, keep: c.keep})
			}
			team.gather(c.families)
			var got []int64
			for _, p := range team.pool {
				got = append(got, p.cost.Total)
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("%v, want %v", got, c.want)
			}
		})
	}
}

// A search of middling size goes on from several orders, and says the cost of the best of all.
func TestSearchesGoOnFromSeveralOrders(t *testing.T) {
	p := day(40, 4, 14, 3)
	team := newTeam(p, nil, Options{Seed: 1, Iterations: 4000})
	var most int
	for round := 0; team.left(round); round++ {
		least := team.pool[0].cost
		team.round(context.Background(), round)
		if least.Less(team.pool[0].cost) {
			t.Errorf("round %d: the best of all went from %v to %v", round, least, team.pool[0].cost)
		}
		most = max(most, len(team.pool))
	}
	if most < 2 {
		t.Errorf("went on from %d order", most)
	}
}
