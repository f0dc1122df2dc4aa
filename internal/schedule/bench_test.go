package schedule

import (
	"context"
	"testing"
)

// BenchmarkDecode decodes one order of the 60-job day again and again, as the search does.
func BenchmarkDecode(b *testing.B) {
	p := day(60, 4, 25, 1)
	order := Construct(p)
	d := newDecoder(newModel(p))
	d.decode(order, nil)
	b.ReportAllocs()
	for b.Loop() {
		d.decode(order, nil)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/60, "ns/task")
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "plans/s")
}

// BenchmarkSearch runs 20 000 orders of the same day over all cores.
func BenchmarkSearch(b *testing.B) {
	p := day(60, 4, 25, 1)
	for b.Loop() {
		Search(context.Background(), p, nil, Options{Seed: 1, Iterations: 20_000})
	}
	b.ReportMetric(20_000*float64(b.N)/b.Elapsed().Seconds(), "orders/s")
}

// BenchmarkConstruct makes and decodes all dispatched orders of the day.
func BenchmarkConstruct(b *testing.B) {
	p := day(60, 4, 25, 1)
	for b.Loop() {
		Construct(p)
	}
}

// BenchmarkRefine refines one order of that day.
func BenchmarkRefine(b *testing.B) {
	p := day(60, 4, 25, 1)
	order := Construct(p)
	b.ReportAllocs()
	for b.Loop() {
		Refine(p, order, nil)
	}
}
