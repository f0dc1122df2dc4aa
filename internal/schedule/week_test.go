package schedule

import (
	"context"
	"testing"
)

// week is six folders and 400 jobs, of our own invention: a day's problem at the size of a week.
func week(seed uint64) *Problem { return day(400, 6, 60, seed) }

// waitingWeek is a week in which a quarter of the sheets come later and some jobs wait for others.
func waitingWeek(seed uint64) *Problem {
	p, d := week(seed), seededDice(seed+1000)
	for j := range p.Jobs {
		if d(0, 3) == 0 {
			p.Jobs[j].Release = p.Jobs[j].Due * Time(d(0, 80)) / 100
		}
	}
	for range 12 {
		if a, b := d(0, len(p.Jobs)-1), d(0, len(p.Jobs)-1); a < b {
			p.Precedences = append(p.Precedences, Precedence{Before: a, After: b})
		}
	}
	return p
}

// A week can be planned, and a short search betters the dispatched order by far.
func TestSearchOfAWeek(t *testing.T) {
	for name, p := range map[string]*Problem{"all there": week(1), "waiting": waitingWeek(1)} {
		t.Run(name, func(t *testing.T) {
			if err := p.Check(); err != nil {
				t.Fatal(err)
			}
			began := Decode(p, Construct(p)).Cost
			r := Search(context.Background(), p, nil, Options{Seed: 1, Iterations: 2000})
			got, err := Evaluate(p, r.Order, r.Plan)
			if err != nil || got.Unplaced > 0 || got.Total > began.Total*2/3 {
				t.Errorf("found %+v (%v), began with %+v", got, err, began)
			}
		})
	}
}

// A plan in force stays good when it is made anew: a search that begins with it, and has no time, ends with it or better.
func TestReplanningAWeek(t *testing.T) {
	p := waitingWeek(2)
	force := Search(context.Background(), p, nil, Options{Seed: 1, Iterations: 1000})
	again := Search(context.Background(), p, force.Order, Options{Seed: 2, Iterations: 10, Wishes: force.Plan.Wishes})
	if force.Plan.Cost.Less(again.Plan.Cost) {
		t.Errorf("in force %+v, made anew %+v", force.Plan.Cost, again.Plan.Cost)
	}
}

// BenchmarkWeek runs 20 000 orders of the week over all cores; the cost is what they come to, in minutes.
func BenchmarkWeek(b *testing.B) { benchmarkWeek(b, week(1)) }

// BenchmarkWaitingWeek does so with a week in which jobs wait.
func BenchmarkWaitingWeek(b *testing.B) { benchmarkWeek(b, waitingWeek(1)) }

func benchmarkWeek(b *testing.B, p *Problem) {
	var r Result
	for b.Loop() {
		r = Search(context.Background(), p, nil, Options{Seed: 1, Iterations: 20_000})
	}
	b.ReportMetric(20_000*float64(b.N)/b.Elapsed().Seconds(), "orders/s")
	b.ReportMetric(float64(r.Plan.Cost.Total)/60_000, "minutes")
}
