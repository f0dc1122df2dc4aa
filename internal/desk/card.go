package desk

import (
	"context"
	"fmt"
	"slices"

	"foldwright/internal/changeover"
	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/words"
)

// Card is what an operator needs to know of one job on one folder.
type Card struct {
	Shop    *shop.Shop
	Job     *job.Job
	Folded  *fold.Folded
	Folder  *machine.Folder
	Task    plan.Task       // with settings, lines, sets, and what the folder was set for before
	Planned bool            // the times are those of the day; else the job is taken as the next one
	Places  []tooling.Place // where the set of each station of the task is fetched from; zero when it stands there already
}

// Card answers how a job is set up on a folder, the best one when none is named, if it came next.
func (d *Desk) Card(ctx context.Context, name, folder string) (*Card, error) {
	answers, err := d.Settings(ctx, name, folder)
	if err != nil {
		return nil, err
	}
	s, err := d.Shop(ctx)
	if err != nil {
		return nil, err
	}
	best := answers[0]
	p, err := plan.Make(ctx, alone(s, best.Job, best.Folder), d.now(s), plan.Options{Iterations: 1})
	if err != nil {
		return nil, err
	}
	cards, err := cardsOf(s, p, false)
	if err != nil {
		return nil, err
	}
	if len(cards) == 0 { // there are settings, and yet no place in an empty day
		return nil, fault.Fault{Kind: fault.No, Code: "no-place", Field: "job " + name, Wrong: best.Folder.Name + " finds no place for it", Right: words.NewSpeaker(words.English, s.Inch).Text(p.Unplaced[0].Whys[0].Text)}
	}
	return cards[0], nil
}

// Cards answers how the jobs of a planned day are set up, in the order in which their make-ready starts.
func (d *Desk) Cards(ctx context.Context, p *plan.Plan) ([]*Card, error) {
	s, err := d.Shop(ctx)
	if err != nil {
		return nil, err
	}
	return cardsOf(s, p, true)
}

func cardsOf(s *shop.Shop, p *plan.Plan, planned bool) ([]*Card, error) {
	var list []*Card
	for _, lane := range p.Folders {
		for _, task := range lane.Tasks {
			c := &Card{Shop: s, Task: task, Planned: planned}
			c.Job, _ = s.Job(task.Job)
			c.Folder, _ = s.Folder(lane.Name)
			var err error
			if c.Folded, err = c.Job.Scheme.Apply(c.Job.Sheet); err != nil {
				return nil, fmt.Errorf("job %s: %w", task.Job, err)
			}
			list = append(list, c)
		}
	}
	slices.SortStableFunc(list, func(a, b *Card) int { return a.Task.MakereadyStart.Compare(b.Task.MakereadyStart) })
	for _, c := range list {
		c.Places = c.places(p)
	}
	return list, nil
}

// places tells where the sets of a task come from.
func (c *Card) places(p *plan.Plan) []tooling.Place {
	list := make([]tooling.Place, len(c.Task.Stations))
	for i, st := range c.Task.Stations {
		set, ok := c.Shop.Set(st.Set)
		if !ok {
			continue
		}
		here := tooling.Place{Folder: c.Folder.Name, Station: st.Station}
		switch at := placeAt(p, set, c.Task.MakereadyStart); {
		case st.Mode == changeover.Built:
			list[i] = tooling.Place{Bench: true}
		case at != here:
			list[i] = at
		}
	}
	return list
}
