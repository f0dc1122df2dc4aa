package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/plan"
)

type planCommand struct {
	shopFlag
	planFlags
}

// searchFlags say how long to plan.
type searchFlags struct {
	Time       time.Duration `default:"5s" help:"How long to search, such as 5s or 2m; does not count with --iterations."`
	Iterations int           `placeholder:"N" help:"Search exactly so far instead: the same plan on every machine."`
	Seed       uint64        `default:"1" help:"Where the search begins; another seed may find another plan."`
}

// planFlags say how to answer, too; the demo takes them as well.
type planFlags struct {
	searchFlags
	wishFlags
	langFlag
	Lines bool `help:"Print the lines of every make-ready too, and every rescue of a late job."`
	JSON  bool `name:"json" xor:"as" help:"As JSON."`
	SVG   bool `name:"svg" xor:"as" help:"As a picture: the lanes of every day, as SVG."`
}

func (planCommand) Help() string {
	return `
Decides which folder runs which job after which, how every station gets its tools and what the bench builds when, and puts
the order given beside it. The plan never costs more than the order given. Jobs that nobody can fold are listed with what
comes nearest; of late jobs it says what would bring them in on time, and of every job that moved, why that pays.

A plan in force is made anew with --follow; with --keep, what is about to start stays as it is unless moving it pays.
Minutes scatter: --chance tells how likely each job is on time, --percentile plans with minutes that mostly suffice. Try a
little above the middle first: too much reserve gives up jobs for late that would mostly have fitted. How far minutes scatter
stands in the shop file, under house: spread.

Examples:

    foldwright plan --shop shop.yaml
    foldwright plan --shop shop.yaml --time 1m --lines
    foldwright plan --shop shop.yaml --iterations 2000 --seed 7 --json
    foldwright plan --shop shop.yaml --svg > day.svg
    foldwright plan --shop shop.yaml --chance 1000 --percentile 65
    foldwright plan --shop shop.yaml --follow plan.json --keep 4h --keep-price 20m
`
}

func (c planFlags) Validate() error {
	return errors.Join(c.searchFlags.Validate(), c.wishFlags.check())
}

func (c searchFlags) Validate() error {
	switch {
	case c.Iterations < 0:
		return fmt.Errorf("--iterations is %d; it counts from 1", c.Iterations)
	case c.Iterations == 0 && c.Time <= 0:
		return fmt.Errorf("--time is %v; it must be more than nothing, such as 5s", c.Time)
	}
	return nil
}

func (c planCommand) Run(ctx context.Context, s streams) error { return c.plan(ctx, s, c.desk(s)) }

// plan asks the desk for the plan of its shop and prints it.
func (c planFlags) plan(ctx context.Context, s streams, d *desk.Desk) error {
	p, err := c.search(ctx, s, d)
	if err != nil {
		return err
	}
	switch {
	case c.JSON:
		return s.json(exchange.Plan(p))
	case c.SVG:
		return c.timeline(ctx, s, d, p)
	}
	sheet{s, c.speaker(p.Inch)}.plan(p, c.Lines)
	return nil
}

// search asks for the plan, at most as long as wished.
func (c searchFlags) search(ctx context.Context, s streams, d *desk.Desk) (*plan.Plan, error) {
	return c.searchBy(ctx, s, d.Plan)
}

// searchBy searches by way of ask, and shows how far it is.
func (c searchFlags) searchBy(ctx context.Context, s streams, ask func(context.Context, plan.Options) (*plan.Plan, error)) (*plan.Plan, error) {
	began := s.now()
	bar := s.progress(ctx, "planning", c.total())
	defer bar.done()
	if c.Iterations == 0 {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(ctx, c.Time)
		defer stop()
	}
	used := func() int { return int(1000 * s.now().Sub(began) / c.Time) }
	p, err := ask(ctx, plan.Options{Seed: c.Seed, Iterations: c.Iterations, Used: used, Progress: func(at plan.Progress) {
		done := int64(at.Iterations)
		if c.Iterations == 0 {
			done = int64(s.now().Sub(began) / time.Millisecond)
		}
		bar.set(done, fmt.Sprintf("cost %s min, given %s", minutes(at.Best.Cost), minutes(at.From.Cost)))
	}})
	if p != nil {
		p.Search.Took = s.now().Sub(began)
	}
	return p, err
}

// total is what the progress counts up to: iterations, or milliseconds.
func (c searchFlags) total() int64 {
	if c.Iterations > 0 {
		return int64(c.Iterations)
	}
	return int64(c.Time / time.Millisecond)
}
