package plan

import (
	"context"

	"foldwright/internal/schedule"
)

// budget shares what a search may take among several stretches: iterations when their number is told, else the time.
type budget struct {
	ctx     context.Context
	options Options
	done    int // iterations so far
	now     Progress
}

// untold is what the stretches together look at when nobody says how long it may take, but for the last, which goes on
// until the context ends.
const untold = 60_000

// search runs one stretch, from one percentage of what is allowed to another.
func (b *budget) search(ctx context.Context, p *schedule.Problem, from schedule.Order, low, high int) schedule.Result {
	o := schedule.Options{Seed: b.options.Seed}
	switch {
	case b.options.Iterations > 0:
		o.Iterations = max(1, b.options.Iterations*(high-low)/100)
	case b.options.Used != nil:
		o.Used = func() int { return min(1000, max(0, (b.options.Used()-10*low)*100/(high-low))) }
	case high < 100 || ctx.Done() == nil:
		o.Iterations = untold * (high - low) / 100
	}
	if b.options.Progress != nil {
		o.Progress = func(at schedule.Progress) { b.tell(at.Iterations) }
	}
	found := schedule.Search(ctx, p, from, o)
	b.done += found.Iterations
	return found
}

// leftTo says whether there is something left up to a percentage of what is allowed.
func (b *budget) leftTo(percent int) func() bool {
	timed := b.options.Iterations <= 0 && b.options.Used != nil
	all := b.options.Iterations
	if all <= 0 {
		all = untold
	}
	most, asked, over := b.done+all/10, 0, false
	return func() bool {
		switch {
		case !timed:
			over = b.done >= most
		case b.done >= asked && !over: // the clock may be dear
			asked, over = b.done+16, b.options.Used() >= 10*percent
		}
		return !over && b.ctx.Err() == nil
	}
}

// tell reports how far a stretch is.
func (b *budget) tell(iterations int) {
	at := b.now
	at.Iterations = b.done + iterations
	b.options.Progress(at)
}
