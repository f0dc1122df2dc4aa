package desk

import (
	"context"
	"fmt"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

// RepeatAsk is what is different in a repeat of an earlier job; what is empty is as it was.
type RepeatAsk struct {
	Name         string // of the new job; empty = the next free one, such as 2101-2
	Title        string
	Sheets       int
	Weight       int
	Release, Due time.Time // the earlier ones do not count again
}

// Repeat puts a new job into the shop that is folded as an earlier one was, waiting or done. It is free: not pinned, waiting for no
// other, on no folder yet.
func (d *Desk) Repeat(ctx context.Context, name string, ask RepeatAsk) (Thing, error) {
	var made job.Job
	now, err := d.update(ctx, access.Arrange, "repeat of "+name, func(now *ledger.Snapshot) ([]ledger.Edit, error) {
		was, err := jobNamed(now.Shop, name)
		if err != nil {
			return nil, err
		}
		made = repeated(now.Shop, *was, ask)
		return []ledger.Edit{ledger.Add(ledger.OfJob, made)}, nil
	})
	return thingIn(now, ledger.OfJob, made.Name), err
}

// Again is what [Desk.Repeat] would put into the shop, without keeping it.
func (d *Desk) Again(ctx context.Context, name string, ask RepeatAsk) (job.Job, error) {
	s, err := d.Shop(ctx)
	if err != nil {
		return job.Job{}, err
	}
	was, err := jobNamed(s, name)
	if err != nil {
		return job.Job{}, err
	}
	return repeated(s, *was, ask), nil
}

// repeated is a job as another one was. A stock that the shop lists is the one that it has now.
func repeated(s *shop.Shop, j job.Job, ask RepeatAsk) job.Job {
	from := j.Name
	j.Pin, j.After, j.Given, j.Choices = job.Pin{}, nil, "", nil
	j.Release, j.Due = ask.Release, ask.Due
	if listed, ok := s.Stock(j.Stock.Name); ok {
		grain := j.Stock.Grain
		j.Stock = *listed
		j.Stock.Grain = grain
	}
	if j.Name = ask.Name; j.Name == "" {
		j.Name = FreeName(s, from)
	}
	if ask.Title != "" {
		j.Title = ask.Title
	}
	if ask.Sheets != 0 {
		j.Sheets = ask.Sheets
	}
	if ask.Weight != 0 {
		j.Weight = ask.Weight
	}
	return j
}

// FreeName is a name for a repeat of a job that none has yet: 2101-2, 2101-3 and so on.
func FreeName(s *shop.Shop, name string) string {
	for n := 2; ; n++ {
		if free := fmt.Sprintf("%s-%d", name, n); !taken(s, free) {
			return free
		}
	}
}

func taken(s *shop.Shop, name string) bool {
	_, ok := s.Job(name)
	return ok
}
