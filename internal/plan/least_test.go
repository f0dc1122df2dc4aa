package plan_test

import (
	"testing"

	"foldwright/internal/demo"
	"foldwright/internal/plan"
)

// The bound of a draft is that of a search of the same shop, lies below what any order comes to, and is silent when a job is
// left out.
func TestBoundOfAnOrder(t *testing.T) {
	s, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Prepare(s, s.Now)
	if err != nil {
		t.Fatal(err)
	}
	given, err := p.Evaluate(p.Given())
	if err != nil {
		t.Fatal(err)
	}
	found, err := p.Search(t.Context(), nil, plan.Options{Seed: 1, Iterations: 200})
	if err != nil {
		t.Fatal(err)
	}
	bound := p.Bound(given)
	if bound <= 0 || bound != found.Bound || bound > found.Figures.Makeready || bound > given.Figures.Makeready {
		t.Errorf("the bound is %v; of the search %v; make-readies %v and %v", bound, found.Bound, found.Figures.Makeready, given.Figures.Makeready)
	}
	less := p.Given().Clone()
	less[0].Jobs = less[0].Jobs[1:]
	part, err := p.Evaluate(less)
	if err != nil {
		t.Fatal(err)
	}
	if got := p.Bound(part); got != 0 {
		t.Errorf("an order that leaves a job out has the bound %v", got)
	}
}
