package plan

import (
	"testing"

	"foldwright/internal/schedule"
)

// Replay checks, for the tests outside, that a plan passed through its network on a day without surprises is the plan.
func (p *Prepared) Replay(pl *Plan, object func(format string, args ...any)) {
	read, err := p.read(pl.order)
	if err != nil {
		object("%v", err)
		return
	}
	plan := p.work(read.order, read.wishes).Plan
	n := newNetwork(plan, p.translation, p.root().translation)
	if len(n.order) != len(n.activities) {
		object("%d activities of %d wait for one another", len(n.activities)-len(n.order), len(n.activities))
	}
	factors := make([][kinds]int64, len(p.jobs))
	for j := range factors {
		factors[j] = [kinds]int64{1000, 1000, 1000}
	}
	n.pass(factors)
	for _, lane := range plan.Tasks {
		for _, task := range lane {
			setup, run := &n.activities[n.setups[task.Job]], &n.activities[n.runOf[task.Job]]
			if setup.start != task.SetupStart || run.start != task.RunStart || run.end != task.RunEnd {
				object("job %s is made ready at %d, runs %d to %d; in the plan %d, %d, %d", p.jobs[task.Job].Name,
					setup.start, run.start, run.end, task.SetupStart, task.RunStart, task.RunEnd)
			}
		}
	}
	for i, b := range plan.Builds {
		if a := &n.activities[n.builds[i]]; a.end > b.End {
			object("set %s is built until %d, in the plan %d", p.label(b.Set), a.end, b.End)
		}
	}
}

// Goal: working time is reckoned as the search reckons it. Worked by hand.
func TestHoursWorkedByHand(t *testing.T) {
	h := newHours([]schedule.Window{{From: 10, To: 20}, {From: 30, To: 50}})
	for _, c := range []struct{ from, work, want schedule.Time }{
		{10, 0, 10}, {10, 5, 15}, {10, 10, 20}, {10, 11, 31}, {15, 5, 20}, {15, 6, 31}, {30, 20, 50}, {10, 30, 50}, {10, 31, schedule.Forever}, {50, 1, schedule.Forever}, {20, 1, 31},
	} {
		if got := h.finish(h.next(c.from), c.work); got != c.want {
			t.Errorf("%d s from %d end at %d, should at %d", c.work, c.from, got, c.want)
		}
	}
	if h.next(20) != 30 || h.next(0) != 10 || h.next(50) != schedule.Forever {
		t.Errorf("next: %d %d %d", h.next(20), h.next(0), h.next(50))
	}
}
