package main

import (
	"context"
	"errors"

	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/press"
)

type benchCommand struct {
	Set     string `arg:"" optional:"" names:"set" help:"The set to be changed."`
	For     string `names:"job" placeholder:"JOB" help:"The job that it is changed for."`
	Day     bool   `help:"The cards of everything that the bench builds on the planned day instead."`
	Folder  string `names:"folder" placeholder:"NAME" help:"On this folder; without it on the best one."`
	Station string `placeholder:"NAME" help:"For this station; without it the first that wants tools of the set's class."`
	shopFlag
	searchFlags
	paperFlag
	printFlags
}

func (benchCommand) Help() string {
	return `
A bench card tells what to take off, slide and fit on a pair of shafts, in this order, and where every tool must stand. On
the pages behind it the shafts are drawn at full scale, to be cut out and laid along them. Every such page has a line that
must measure 100 mm: print at 100 %, without fitting to the page.

Examples:

    foldwright bench W-04 --for 2101
    foldwright bench --day --iterations 2000 -o bench.pdf
`
}

func (c benchCommand) Validate() error {
	switch {
	case c.Day && (c.Set != "" || c.For != "" || c.Folder != "" || c.Station != ""):
		return errors.New("--day has the cards of all builds; name nothing else")
	case !c.Day && (c.Set == "" || c.For == ""):
		return errors.New("name a set and the job it is changed for: foldwright bench SET --for JOB; or ask for all with --day")
	}
	return errors.Join(c.searchFlags.Validate(), c.printFlags.Validate())
}

func (c benchCommand) Run(ctx context.Context, s streams) error {
	d := c.desk(s)
	shop, err := d.Shop(ctx)
	if err != nil {
		return err
	}
	builds, err := c.builds(ctx, s, d)
	if err != nil {
		return err
	}
	say := c.reader(shop)
	pages, err := press.BenchCards(builds, c.at(), c.paper(), say)
	if err != nil {
		return err
	}
	if c.Day {
		return c.pdf(s, shop, fileName("bench", dayOf(builds[0].By)), say.Say("Bench cards: %s", shop.Name), pages)
	}
	return c.pdf(s, shop, fileName("bench", c.Set), pages[0].Title, pages)
}

func (c benchCommand) builds(ctx context.Context, s streams, d *desk.Desk) ([]*desk.Build, error) {
	if !c.Day {
		b, err := d.Build(ctx, c.Set, c.For, c.Folder, c.Station)
		return []*desk.Build{b}, err
	}
	p, err := c.search(ctx, s, d)
	if err != nil {
		return nil, err
	}
	builds, err := d.Builds(ctx, p)
	if err == nil && len(builds) == 0 {
		err = nothingPlanned("the plan leaves the bench nothing to build")
	}
	return builds, err
}

// nothingPlanned is the answer when a day has nothing that could be printed.
func nothingPlanned(why string) error {
	return fault.Fault{Kind: fault.No, Code: "no-pages", Wrong: why, Right: `foldwright plan shows the day`}
}
