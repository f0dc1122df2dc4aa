package main

import (
	"context"
	"fmt"
	"os"
	"time"

	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/plan"
)

// wishFlags say what else a plan should be.
type wishFlags struct {
	Percentile int           `placeholder:"N" help:"Plan with minutes that suffice in so many of 100 cases, 50 to 99."`
	Chance     int           `placeholder:"DAYS" help:"Simulate so many days, such as 1000, and tell how likely every job is on time."`
	Follow     string        `placeholder:"PLAN.json" help:"Take this plan, as --json wrote it, for the order given: the plan in force, made anew."`
	Keep       time.Duration `placeholder:"4h" help:"Leave what is made ready within so long as the order given has it, unless moving it pays."`
	KeepPrice  time.Duration `default:"15m" placeholder:"15m" help:"What a job has to save to be moved all the same, with --keep."`
}

// daysMost is how many days are simulated at the most: more tell nothing new.
const daysMost = 100_000

// rescuesMost is how many late jobs are told what would help: who has more is helped by other means.
const rescuesMost = 20

func (c wishFlags) check() error {
	switch {
	case c.Percentile != 0 && (c.Percentile < 50 || c.Percentile > 99):
		return fmt.Errorf("--percentile is %d; it goes from 50 to 99", c.Percentile)
	case c.Chance < 0 || c.Chance > daysMost:
		return fmt.Errorf("--chance is %d days; it goes from 1 to %d", c.Chance, daysMost)
	case c.Keep < 0:
		return fmt.Errorf("--keep is %v; it must be more than nothing, such as 4h", c.Keep)
	case c.KeepPrice < 0:
		return fmt.Errorf("--keep-price is %v; it must not be below nothing, such as 15m", c.KeepPrice)
	}
	return nil
}

// again is the plan in force and what to keep of it.
func (c wishFlags) again() (desk.Again, error) {
	a := desk.Again{Keep: c.Keep}
	if c.Follow == "" {
		return a, nil
	}
	data, err := os.ReadFile(c.Follow)
	if err != nil {
		return a, unreadable(c.Follow, err)
	}
	doc, err := exchange.ReadPlan(data)
	if err != nil {
		return a, fault.Fault{Kind: fault.Input, Code: "plan-file", File: c.Follow, Wrong: "is no plan", Right: "a file that foldwright plan --json wrote"}
	}
	a.Follow = doc.Order()
	return a, nil
}

// search asks for the plan, with all that is wished of it.
func (c planFlags) search(ctx context.Context, s streams, d *desk.Desk) (*plan.Plan, error) {
	a, err := c.again()
	if err != nil {
		return nil, err
	}
	return c.searchBy(ctx, s, func(ctx context.Context, o plan.Options) (*plan.Plan, error) {
		o.Percentile, o.Samples, o.Rescues, o.Stable.Price = c.Percentile, c.Chance, rescuesMost, c.KeepPrice
		return d.PlanAgain(ctx, a, o)
	})
}
