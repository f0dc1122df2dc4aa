package schedule

import (
	"context"
	"testing"
)

// week is six folders and 400 jobs, of our own invention: a day's problem at the size of a week.
func week(seed uint64) *Problem { return day(400, 6, 60, seed) }

// A week can be planned, and a short search betters the dispatched order.
func TestSearchOfAWeek(t *testing.T) {
	p := week(1)
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	began := Decode(p, Construct(p)).Cost
	r := Search(context.Background(), p, nil, Options{Seed: 1, Iterations: 2000})
	got, err := Evaluate(p, r.Order, r.Plan)
	if err != nil || got.Unplaced > 0 || !got.Less(began) {
		t.Errorf("found %+v (%v), began with %+v", got, err, began)
	}
}

// BenchmarkWeek runs 20 000 orders of the week over all cores; the cost is what they come to, in minutes.
func BenchmarkWeek(b *testing.B) {
	p := week(1)
	var r Result
	for b.Loop() {
		r = Search(context.Background(), p, nil, Options{Seed: 1, Iterations: 20_000})
	}
	b.ReportMetric(20_000*float64(b.N)/b.Elapsed().Seconds(), "orders/s")
	b.ReportMetric(float64(r.Plan.Cost.Total)/60_000, "minutes")
}
