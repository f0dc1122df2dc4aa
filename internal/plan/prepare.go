package plan

import (
	"context"
	"sync"
	"time"

	"foldwright/internal/schedule"
	"foldwright/internal/shop"
)

// Prepared is a shop translated for planning at a moment: asked often, it answers without settings and changeovers being
// worked out again. It does not change, so several may ask at once; the shop it was made from must not change either.
// Plans of one Prepared share what is the same in all, such as the order given: they are for reading.
type Prepared struct {
	*translation
	base     *Prepared // with the minutes in the middle; nil: this is it
	given    outcome
	givenDay Day
	bound    func() time.Duration
}

// Prepare translates a shop, so that orders of its jobs can be worked out and searched. The shop must have passed its own
// check; a fault from here is a fault of the program.
func Prepare(s *shop.Shop, now time.Time) (*Prepared, error) { return prepare(s, now, nil) }

// Again is Prepare for another shop or moment. Where they differ little it is quicker: what settings answered for a job
// that is the same on the same folders is taken over. The answer is that of Prepare.
func (p *Prepared) Again(s *shop.Shop, now time.Time) (*Prepared, error) {
	return prepare(s, now, p.askedFor(s))
}

func prepare(s *shop.Shop, now time.Time, earlier map[string]asked) (*Prepared, error) {
	t := translate(s, now.Truncate(time.Second), earlier)
	if err := t.problem.Check(); err != nil {
		return nil, err
	}
	return withGiven(&Prepared{translation: t}, t.givenOrder(), t.givenWishes()), nil
}

// withGiven completes what is prepared with the order given and the choices that were made for it.
func withGiven(p *Prepared, order schedule.Order, wishes []schedule.Wish) *Prepared {
	p.given = p.work(order, wishes)
	p.givenDay = p.day(p.given, nil)
	problem := p.problem
	p.bound = sync.OnceValue(func() time.Duration { return duration(schedule.Bound(problem)) })
	return p
}

// Given is the order given: that of the shop file, each job on the folder it names, else where it would end first.
func (p *Prepared) Given() Order { return p.named(p.given.order, p.given.Wishes) }

// Evaluate works out exactly this order, with the order given beside it. Jobs of the shop that it leaves out are unplaced,
// and so is what waits for them. An order that cannot be read is a [fault.List]. [Plan.Bound] and [Plan.Search] stay empty.
func (p *Prepared) Evaluate(o Order) (*Plan, error) {
	r, err := p.read(o)
	if err != nil {
		return nil, err
	}
	return p.result(r.named, p.work(r.order, r.wishes), r.left), nil
}

// Search looks for a better order than start, the order given when that is nil, and returns the best it has when the
// iterations are used up or the context is done: never one that is worse than start. A job that start leaves out is put
// behind the others, where its docket says or where it would end first.
func (p *Prepared) Search(ctx context.Context, start Order, o Options) (*Plan, error) {
	if o.Percentile != 0 && o.Percentile != p.percentile {
		at, err := p.At(o.Percentile)
		if err != nil {
			return nil, err
		}
		return at.Search(ctx, start, o)
	}
	from, wishes := p.given.order, p.given.Wishes
	if start != nil {
		r, err := p.read(start)
		if err != nil {
			return nil, err
		}
		from, wishes = p.complete(r.all), r.wishes
	}
	found, kept := p.find(ctx, from, wishes, o)
	out := p.result(p.named(found.Order, found.Plan.Wishes), outcome{found.Order, found.Plan}, nil)
	out.Kept = kept
	if found.Plan.Cost.Unplaced+p.given.Cost.Unplaced == 0 { // the bound counts on every job being run
		out.Bound = p.bound()
	}
	out.Search = Search{Seed: o.Seed, Iterations: found.Iterations, Restarts: found.Restarts}
	p.Rescue(out, o.Rescues)
	out.Chances = p.Chances(out, o.Samples, o.Seed)
	return out, nil
}

// find searches from an order, with a price on moving near jobs when that is wished.
func (p *Prepared) find(ctx context.Context, from schedule.Order, wishes []schedule.Wish, o Options) (schedule.Result, *Kept) {
	if o.Stable.Until.After(p.from) {
		return p.keep(ctx, from, wishes, o)
	}
	return schedule.Search(ctx, p.problem, from, schedule.Options{
		Seed:       o.Seed,
		Wishes:     wishes,
		Iterations: o.Iterations,
		Used:       o.Used,
		Progress:   p.progress(o.Progress, p.given.Plan),
	}), nil
}

// result turns an answer of the search into a plan.
func (p *Prepared) result(order Order, found outcome, left []leftOut) *Plan {
	w := p.problem.Weights
	out := &Plan{
		Shop:       p.shop.Name,
		From:       p.from,
		Zone:       p.shop.Zone,
		Inch:       p.shop.Inch,
		Weights:    Weights{Late: w.Late, Makeready: w.Setup, Waiting: w.Wait, Bench: w.Bench},
		Day:        p.day(found, left),
		Given:      p.givenDay,
		order:      order,
		Percentile: p.percentile,
	}
	out.Moves, out.Elsewhere = p.compare(found, &out.Day).moves()
	return out
}

// work works an order out with the choices that were made for it.
func (t *translation) work(order schedule.Order, wishes []schedule.Wish) outcome {
	return outcome{order, schedule.NewDecoder(t.problem).Follow(wishes).Plan(order)}
}

// numbers are the job numbers by name.
func (t *translation) numbers() map[string]int {
	out := make(map[string]int, len(t.jobs))
	for j := range t.jobs {
		out[t.jobs[j].Name] = j
	}
	return out
}

// named is an order, and what was chosen for it, with the names of folders and jobs.
func (t *translation) named(order schedule.Order, wishes []schedule.Wish) Order {
	out, choices := make(Order, len(order)), t.choices(order, wishes)
	for m, row := range order {
		out[m] = Lane{Folder: t.folder(m).Name, Jobs: make([]string, len(row)), Choices: choices[m]}
		for i, j := range row {
			out[m].Jobs[i] = t.jobs[j].Name
		}
	}
	return out
}
