package draw

import (
	"context"
	"fmt"
	"sync"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

// day is the demo shop with its planned day, which the tests of this room draw.
type day struct {
	desk   *desk.Desk
	shop   *shop.Shop
	plan   *plan.Plan
	cards  []*Card
	builds []*BenchCard
	labels []Label
}

type demoStore struct{ shop *shop.Shop }

// seeing is the context of somebody who may look at the shop.
func seeing(ctx context.Context) context.Context {
	return access.With(ctx, access.Who{Name: "ada", Role: access.Viewer})
}

func (s demoStore) Shop(context.Context) (*shop.Shop, error) { return s.shop, nil }

var planDemo = sync.OnceValues(func() (*day, error) {
	s, err := demo.Shop()
	if err != nil {
		return nil, err
	}
	d := &desk.Desk{Store: demoStore{s}, Now: func() time.Time { return s.Now }}
	ctx := seeing(context.Background())
	p, err := d.Plan(ctx, plan.Options{Iterations: 30, Seed: 1})
	if err != nil {
		return nil, err
	}
	cards, err := d.Cards(ctx, p)
	if err != nil {
		return nil, err
	}
	builds, err := d.Builds(ctx, p)
	if err != nil {
		return nil, err
	}
	return drawn(d, s, p, cards, builds), nil
})

// drawn hands to this room what the desk answers, as the doors do.
func drawn(d *desk.Desk, s *shop.Shop, p *plan.Plan, cards []*desk.Card, builds []*desk.Build) *day {
	all := &day{desk: d, shop: s, plan: p}
	for _, c := range cards {
		all.cards = append(all.cards, cardOf(c))
	}
	for _, b := range builds {
		all.builds = append(all.builds, benchOf(b))
	}
	for _, set := range s.Sets {
		class, _ := s.Class(set.Class)
		all.labels = append(all.labels, Label{Set: set.Label, Class: *class, Tools: set.Tools, Jobs: set.Served, Address: "http://foldwright.local/rack/" + set.Label})
	}
	return all
}

func cardOf(c *desk.Card) *Card {
	return &Card{
		Shop: c.Shop, Job: c.Job, Folded: c.Folded, Folder: c.Folder, Task: c.Task, Planned: c.Planned, Places: c.Places,
		Address: "http://foldwright.local/floor/jobs/" + c.Job.Name,
	}
}

func benchOf(b *desk.Build) *BenchCard {
	return &BenchCard{
		Shop: b.Shop, Set: b.Set, Place: b.Place, Job: b.Job, Folder: b.Folder, Station: b.Station, By: b.By, Frees: b.Frees,
		Work: b.Work, Have: b.Have, Want: b.Want, Steps: b.Steps, Address: "http://foldwright.local/rack/" + b.Set.Label,
	}
}

// next is the card of a job as if it came next: no search has a say in it.
func (d *day) next(t testing.TB, job, folder string) *Card {
	t.Helper()
	c, err := d.desk.Card(seeing(t.Context()), job, folder)
	if err != nil {
		t.Fatal(err)
	}
	return cardOf(c)
}

// build is the bench card that makes of a set what a job wants.
func (d *day) build(t testing.TB, set, job, folder string) *BenchCard {
	t.Helper()
	b, err := d.desk.Build(seeing(t.Context()), set, job, folder, "")
	if err != nil {
		t.Fatal(err)
	}
	return benchOf(b)
}

// theDay is the demo, planned once for all tests.
func theDay(t testing.TB) *day {
	t.Helper()
	d, err := planDemo()
	if err != nil {
		t.Fatal(err)
	}
	if len(d.cards) < 55 || len(d.builds) == 0 || len(d.labels) < 20 {
		t.Fatalf("the demo shows only %d cards, %d builds, %d labels", len(d.cards), len(d.builds), len(d.labels))
	}
	return d
}

// card is that of one job of the demo.
func (d *day) card(t testing.TB, job string) *Card {
	t.Helper()
	for _, c := range d.cards {
		if c.Job.Name == job {
			return c
		}
	}
	t.Fatalf("the demo has no card for job %s", job)
	return nil
}

// readers are all readers a page can have.
func readers() map[string]*words.Speaker {
	all := map[string]*words.Speaker{}
	for _, lang := range words.Langs() {
		for unit, inch := range map[string]bool{"mm": false, "in": true} {
			all[fmt.Sprintf("%s %s", lang, unit)] = words.NewSpeaker(lang, inch)
		}
	}
	return all
}

var papers = map[string]Paper{"A4": A4, "Letter": Letter}
