package plan_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"foldwright/internal/demo"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
)

// week is the demo shop with its jobs many times over: a week of work.
func week(t testing.TB, times int) *shop.Shop {
	s, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	day := slices.Clone(s.Jobs)
	s.Jobs = nil
	for i := range times {
		for _, j := range day {
			j.Name = fmt.Sprintf("%s/%d", j.Name, i)
			j.After = nil
			j.Due = j.Due.AddDate(0, 0, i)
			s.Jobs = append(s.Jobs, j)
		}
	}
	return s
}

// BenchmarkTranslate is everything but the search: settings, changeovers, matches, the order given, the way back.
func BenchmarkTranslate(b *testing.B) {
	for _, times := range []int{1, 7} {
		s := week(b, times)
		b.Run(fmt.Sprintf("%d jobs", len(s.Jobs)), func(b *testing.B) {
			ctx, stop := context.WithCancel(context.Background())
			stop()
			for b.Loop() {
				if _, err := plan.Make(ctx, s, s.Now, plan.Options{Seed: 1}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkAsked is what people wait for at the board: an order worked out, what would rescue a late job, the chances of
// 1000 days.
func BenchmarkAsked(b *testing.B) {
	for _, times := range []int{1, 7} {
		s := week(b, times)
		p, err := plan.Prepare(s, s.Now)
		if err != nil {
			b.Fatal(err)
		}
		day, err := p.Search(context.Background(), nil, plan.Options{Seed: 1, Iterations: 3000})
		if err != nil {
			b.Fatal(err)
		}
		order := day.Order()
		b.Run(fmt.Sprintf("evaluate/%d jobs", len(s.Jobs)), func(b *testing.B) {
			for b.Loop() {
				if _, err := p.Evaluate(order); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprintf("rescues/%d jobs", len(s.Jobs)), func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				p.Rescues(day, day.Late[i%len(day.Late)].Job)
			}
		})
		b.Run(fmt.Sprintf("chances/%d jobs", len(s.Jobs)), func(b *testing.B) {
			for b.Loop() {
				p.Chances(day, 1000, 1)
			}
		})
	}
}
