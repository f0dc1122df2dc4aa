package main

import (
	"context"
	"errors"

	"foldwright/internal/desk"
	"foldwright/internal/press"
)

type cardCommand struct {
	Job    string `arg:"" optional:"" names:"job" help:"The job whose card is wanted, as if it came next."`
	Day    bool   `help:"The cards of the whole planned day instead, in the order in which their make-ready starts."`
	Folder string `names:"folder" placeholder:"NAME" help:"On this folder; without it on the best one."`
	shopFlag
	searchFlags
	paperFlag
	printFlags
}

func (cardCommand) Help() string {
	return `
A set-up card tells the operator on one page everything that is set for a job: feed, plates, nips, side guides, tools with
a drawing of the shafts, which set to fetch from where, what stays from the job before, the minutes line by line, cautions,
and room for what it really was. The QR code opens the job on the floor page.

Print at full size. With --day the plan is made first, exactly as "foldwright plan" with the same --seed and --iterations
makes it, and the cards show the sets and guide places of that plan.

Examples:

    foldwright card 2101
    foldwright card 2101 --folder alder --paper Letter --inch --lang es -o card.pdf
    foldwright card --day --iterations 2000 -o day.pdf
`
}

func (c cardCommand) Validate() error {
	switch {
	case c.Day == (c.Job != ""):
		return errors.New("name a job, or ask for all with --day")
	case c.Day && c.Folder != "":
		return errors.New("--folder goes with a job; --day has the cards of all folders")
	}
	return errors.Join(c.searchFlags.Validate(), c.printFlags.Validate())
}

func (c cardCommand) Run(ctx context.Context, s streams) error {
	d := c.desk(s)
	shop, err := d.Shop(ctx)
	if err != nil {
		return err
	}
	cards, err := c.cards(ctx, s, d)
	if err != nil {
		return err
	}
	say := c.reader(shop)
	pages, err := press.Cards(cards, c.at(), c.paper(), say)
	if err != nil {
		return err
	}
	if c.Day {
		return c.pdf(s, shop, fileName("cards", dayOf(cards[0].Task.MakereadyStart)), say.Say("Set-up cards: %s", shop.Name), pages)
	}
	return c.pdf(s, shop, fileName("card", c.Job), pages[0].Title, pages)
}

func (c cardCommand) cards(ctx context.Context, s streams, d *desk.Desk) ([]*desk.Card, error) {
	if !c.Day {
		card, err := d.Card(ctx, c.Job, c.Folder)
		return []*desk.Card{card}, err
	}
	p, err := c.search(ctx, s, d)
	if err != nil {
		return nil, err
	}
	cards, err := d.Cards(ctx, p)
	if err == nil && len(cards) == 0 {
		err = nothingPlanned("no job found a place, so there is no card")
	}
	return cards, err
}
