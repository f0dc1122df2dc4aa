package schedule

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The guide is at 50 and has to move for the first job; each case says where it stands for each job, by hand.
func TestGuideLooksToTheNextJobs(t *testing.T) {
	for _, c := range []struct {
		name  string
		wants []Want
		want  []int64
	}{
		{"nothing in common: each job at its best", []Want{wantAt(0, 60, 80), wantAt(0, 90, 110)}, []int64{70, 100}},
		{"the best of the first serves both, and stays", []Want{wantAt(0, 60, 80), wantAt(0, 65, 105)}, []int64{70, 70}},
		{"in common is 72 to 80, its middle 76", []Want{wantAt(0, 60, 80), wantAt(0, 72, 100)}, []int64{76, 76}},
		{"a job that takes anything is passed over", []Want{wantAt(0, 60, 80), {Any: true}, wantAt(0, 72, 100)}, []int64{76, 76, 76}},
		{"the third has nothing in common with the first two", []Want{wantAt(0, 60, 80), wantAt(0, 72, 100), wantAt(0, 85, 95)}, []int64{76, 76, 90}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, order := shafts(len(c.wants)), Order{nil}
			for j, w := range c.wants {
				p.Tools.Wants[j][0] = w
				order[0] = append(order[0], j)
			}
			var got []int64
			for _, task := range hold(t, p, order).Tasks[0] {
				got = append(got, task.Mounts[0].Guide)
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// Sets 1 and 2 both serve the first job at the price of a swap. Set 2 goes in when it serves the second, too.
func TestOfTwoSetsAtOnePriceTheOneThatLasts(t *testing.T) {
	for _, c := range []struct {
		name string
		next Want
		want []int // the sets
	}{
		{"the second takes anything: the job's own pattern", Want{Any: true}, []int{1, 1}},
		{"the second wants what set 1 has", wantAt(1, 40, 60), []int{1, 1}},
		{"the second wants what set 2 has", wantAt(2, 40, 60), []int{2, 2}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := shafts(2)
			p.Tools.Sets = append(p.Tools.Sets, Set{Pattern: 1, Station: -1}, Set{Pattern: 2, Station: -1})
			p.Tools.Wants[0][0] = Want{Pattern: 1, Guide: 50, Fits: []Fit{{1, 40, 60}, {2, 40, 60}}}
			p.Tools.Wants[1][0] = c.next
			var got []int
			for _, task := range hold(t, p, Order{{0, 1}}).Tasks[0] {
				got = append(got, task.Mounts[0].Set)
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}
