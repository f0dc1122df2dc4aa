package plan_test

import (
	"bytes"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"foldwright/internal/demo"
	"foldwright/internal/job"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
	"foldwright/internal/units"
)

// Goal: preparing a shop from another that was prepared before gives what preparing it alone does. Method: change jobs, folders,
// tools and sets of the demo at random, one shop after the other, and compare the order given in all its lines.
func TestPreparedAgainIsAsPrepared(t *testing.T) {
	now, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Prepare(now, now.Now)
	if err != nil {
		t.Fatal(err)
	}
	rounds := 0
	rapid.Check(t, func(r *rapid.T) {
		if rounds++; rounds > 25 {
			return
		}
		now = changed(r, now)
		if p, err = p.Again(now, now.Now); err != nil {
			t.Fatal(err)
		}
		alone, err := plan.Prepare(now, now.Now)
		if err != nil {
			t.Fatal(err)
		}
		got, err := p.Evaluate(p.Given())
		if err != nil {
			t.Fatal(err)
		}
		want, err := alone.Evaluate(alone.Given())
		if err != nil {
			t.Fatal(err)
		}
		if got, want := inJSON(t, got), inJSON(t, want); !bytes.Equal(got, want) {
			r.Fatal(cmp.Diff(string(want), string(got)))
		}
	})
}

// changed is a shop of which one thing is another, in lists of its own.
func changed(r *rapid.T, s *shop.Shop) *shop.Shop {
	next := *s
	next.Jobs = append([]job.Job(nil), s.Jobs...)
	i := rapid.IntRange(0, len(s.Jobs)-1).Draw(r, "job")
	k := rapid.IntRange(0, len(s.Jobs)-1).Draw(r, "other")
	j := &next.Jobs[i]
	switch rapid.IntRange(0, 7).Draw(r, "what") {
	case 0:
		j.Title += "x"
	case 1:
		j.Scheme, j.Sheet, j.Operations = s.Jobs[k].Scheme, s.Jobs[k].Sheet, s.Jobs[k].Operations
	case 2:
		j.Stock = s.Jobs[k].Stock
	case 3:
		j.RateMax = 1000 * rapid.IntRange(0, 9).Draw(r, "rate")
	case 4:
		next.Folders = append(next.Folders[:0:0], s.Folders...)
		next.Folders[0].Feeder.SheetsPerHourMax -= 100
	case 5:
		next.Tools = append(next.Tools[:0:0], s.Tools...)
		for k := range next.Tools {
			next.Tools[k].Body.Left += 10 * units.Millimetre
		}
	case 6:
		next.Sets = append(next.Sets[:0:0], s.Sets...)
		next.Sets[rapid.IntRange(0, len(s.Sets)-1).Draw(r, "set")].Tools = nil
	case 7:
		next.House.Rings.Width++
	}
	return &next
}
