package plan

import (
	"context"
	"slices"
	"time"

	"foldwright/internal/schedule"
)

// Stable keeps the near future as the order given has it, but for what pays: people have fetched the paper, the bench has
// begun. It matters when a plan that is in force is made anew; see [Prepared.Follow].
type Stable struct {
	Until time.Time     // what is made ready before then is near; zero: nothing is kept
	Price time.Duration // what a near job that changes its folder or place has to save, in minutes of the plan's cost
}

// Kept tells what became of the near future. The cost of the plan does not contain what was paid: it decides only.
type Kept struct {
	Stable
	Near  int           // jobs that the order given makes ready before then
	Moved []string      // jobs, near in the order given or now, that changed folder or place; in the order of the shop
	Paid  time.Duration // the price of all of them
	Free  time.Duration // what the best plan costs that was found, never mind the price
}

// keeper searches with a price on moving near jobs.
type keeper struct {
	*Prepared
	until schedule.Time
	price int64 // of a job, in thousandths of a second as costs are
	was   []spot
	near  []bool // by job: near in the order given
	trial *schedule.Decoder
	budget
}

// settled is an order worked out, with its cost and the price of what it moves.
type settled struct {
	outcome
	moved []int
	total schedule.Cost
}

// keep searches in three stretches: freely; with the near jobs where the order given has them; and, with the near jobs of
// the better of the two where that has them, for the rest. After each of the first two, single near jobs are tried
// elsewhere, and moved back, as long as that saves more than its price.
func (p *Prepared) keep(ctx context.Context, from schedule.Order, wishes []schedule.Wish, o Options) (schedule.Result, *Kept) {
	k := p.newKeeper(ctx, o)
	best := k.settle(from)
	k.now = Progress{Best: parts(best.total), From: p.figures(p.given.Plan)}
	free := k.search(ctx, p.problem, from, 0, 30)
	for _, candidate := range []settled{
		k.descend(k.settle(free.Order), 40),
		k.descend(k.settle(k.search(ctx, k.freeze(p.given), p.given.order, 40, 70).Order), 80),
	} {
		if candidate.total.Less(best.total) {
			best = candidate
			k.now.Best = parts(best.total)
		}
	}
	if last := k.settle(k.search(ctx, k.freeze(best.outcome), best.order, 80, 100).Order); last.total.Less(best.total) {
		best = last
	}
	best = k.refined(k.sendBack(best).order, nil)
	if start := k.refined(from, wishes); start.total.Less(best.total) {
		best = start
	}
	kept := &Kept{
		Stable: o.Stable, Paid: time.Duration(len(best.moved)) * o.Stable.Price,
		Free: time.Duration(min(free.Plan.Cost.Total, best.Cost.Total)) * time.Millisecond,
	}
	for j := range k.near {
		if k.near[j] {
			kept.Near++
		}
	}
	for _, j := range best.moved {
		kept.Moved = append(kept.Moved, k.jobs[j].Name)
	}
	return schedule.Result{Order: best.order, Plan: best.Plan, Iterations: k.done}, kept
}

func (p *Prepared) newKeeper(ctx context.Context, o Options) *keeper {
	k := &keeper{
		Prepared: p, until: p.at(o.Stable.Until), price: o.Stable.Price.Milliseconds(),
		was: p.spots(p.given.Plan, nil), near: make([]bool, len(p.jobs)),
		trial: schedule.NewDecoder(p.problem), budget: budget{ctx: ctx, options: o},
	}
	k.markNear(p.given.Plan, k.near)
	return k
}

// markNear marks the jobs that a plan makes ready before the end of the near future.
func (k *keeper) markNear(plan *schedule.Plan, near []bool) {
	for _, lane := range plan.Tasks {
		for _, task := range lane {
			near[task.Job] = near[task.Job] || task.SetupStart < k.until
		}
	}
}

// settle works an order out by the rules, with the price of what it moves.
func (k *keeper) settle(order schedule.Order) settled {
	return k.priced(outcome{order, k.trial.Plan(order)})
}

// refined works an order out as it will be carried out.
func (k *keeper) refined(order schedule.Order, wishes []schedule.Wish) settled {
	return k.priced(outcome{order, schedule.Refine(k.problem, order, wishes)})
}

func (k *keeper) priced(found outcome) settled {
	s := settled{outcome: found}
	near := slices.Clone(k.near)
	k.markNear(s.Plan, near)
	for j, moved := range moved(k.was, s.Plan) {
		if moved && near[j] {
			s.moved = append(s.moved, j)
		}
	}
	s.total = s.Cost
	s.total.Total += int64(len(s.moved)) * k.price
	return s
}

// freeze is the problem with the near jobs of an answer fixed where that has them.
func (k *keeper) freeze(at outcome) *schedule.Problem {
	p := *k.problem
	p.Machines = slices.Clone(p.Machines)
	near := make([]bool, len(k.jobs))
	k.markNear(at.Plan, near)
	for m, row := range at.order {
		fixed := len(p.Machines[m].Fixed)
		for i, j := range row {
			if near[j] {
				fixed = max(fixed, i+1)
			}
		}
		p.Machines[m].Fixed = row[:fixed]
	}
	return &p
}

// descend tries every near job at every place, and keeps what is cheaper, until nothing is or its share is spent.
func (k *keeper) descend(best settled, percent int) settled {
	left := k.leftTo(percent)
	for again := true; again && left(); {
		again = false
		near := slices.Clone(k.near)
		k.markNear(best.Plan, near)
		for j := range near {
			if near[j] && !k.isFixed(j) {
				if better, ok := k.elsewhere(best, j, left); ok {
					best, again = better, true
				}
			}
		}
	}
	return best
}

// elsewhere finds a better place for a job: the first that is better.
func (k *keeper) elsewhere(best settled, j int, left func() bool) (settled, bool) {
	base := without(best.order, j)
	for m := range base {
		if k.problem.Jobs[j].Run[m] < 0 {
			continue
		}
		for at := len(k.problem.Machines[m].Fixed); at <= len(base[m]) && left(); at++ {
			order := slices.Clone(base)
			order[m] = slices.Insert(slices.Clone(base[m]), at, j)
			k.done++
			if k.trial.Cost(order).Less(best.total) { // the price comes on top, so what is dearer already stays so
				if s := k.settle(order); s.total.Less(best.total) {
					return s, true
				}
			}
		}
	}
	return best, false
}

// sendBack moves near jobs back as long as that saves their price, so that every one that did move is worth it.
func (k *keeper) sendBack(best settled) settled {
	for again := true; again; {
		again = false
		for _, j := range best.moved {
			if s := k.settle(k.goBack(k.was, best.order, j)); s.total.Less(best.total) {
				best, again = s, true
				break
			}
		}
	}
	return best
}

func (t *translation) isFixed(j int) bool {
	return slices.ContainsFunc(t.problem.Machines, func(m schedule.Machine) bool { return slices.Contains(m.Fixed, j) })
}
