package main

import (
	"context"
	"sync/atomic"
	"time"

	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"
)

// patience is how long a command may stay silent before it shows that it is at work.
const patience = time.Second

// progress is a line on stderr that tells how far a long piece of work is. It appears only on a terminal and only when
// the work takes longer than [patience], so short work, pipes and logs never see it.
type progress struct {
	bars *mpb.Progress // nil: nothing is shown
	bar  *mpb.Bar
	note atomic.Value // string
}

// progress starts such a line for work of total parts. Call done when the work is over, however it ended.
func (s streams) progress(ctx context.Context, what string, total int64) *progress {
	p := &progress{}
	if !s.live {
		return p
	}
	wait := make(chan any)
	time.AfterFunc(patience, func() { close(wait) })
	p.note.Store("")
	p.bars = mpb.NewWithContext(ctx, mpb.WithOutput(s.err), mpb.WithWidth(30), mpb.WithRenderDelay(wait), mpb.WithAutoRefresh())
	p.bar = p.bars.New(total, mpb.BarStyle().Lbound("[").Filler("=").Tip(">").Padding(" ").Rbound("]"),
		mpb.PrependDecorators(decor.Name(what+" ")),
		mpb.AppendDecorators(decor.Percentage(), decor.Any(func(decor.Statistics) string { return p.note.Load().(string) })))
	return p
}

// set tells how many parts are done, and in a few words what stands so far.
func (p *progress) set(done int64, note string) {
	if p.bars == nil {
		return
	}
	if note != "" {
		note = "  " + note
	}
	p.note.Store(note)
	p.bar.SetCurrent(done)
}

// done takes the line away.
func (p *progress) done() {
	if p.bars == nil {
		return
	}
	p.bar.Abort(true)
	p.bars.Wait()
}
