package main

import (
	"context"
	"errors"

	"foldwright/internal/draw"
	"foldwright/internal/press"
)

type labelCommand struct {
	Sets  []string `arg:"" optional:"" names:"set" help:"The sets whose labels are wanted."`
	All   bool     `help:"All sets instead."`
	Stock string   `default:"A4 99.1 x 67.7" placeholder:"SIZE" help:"What is in the printer: ${label_stocks}."`
	Skip  int      `placeholder:"N" help:"Leave out so many places of the first sheet, which are used already."`
	shopFlag
	printFlags
}

func (labelCommand) Help() string {
	return `
A label carries the name of a shaft set to be read from two metres, its class and bore, its tools with their places on the
shaft, the jobs it serves, and a QR code that opens the set in the rack. Print at full size.

Examples:

    foldwright label W-04
    foldwright label --all --stock "A4 105 x 74" --skip 3 -o labels.pdf
    foldwright label W-04 --stock "roll 76 x 51" --inch
`
}

func (c labelCommand) Validate() error {
	if c.All == (len(c.Sets) > 0) {
		return errors.New("name the sets, or ask for all with --all")
	}
	return c.printFlags.Validate()
}

func (c labelCommand) Run(ctx context.Context, s streams) error {
	stock, err := draw.StockNamed(c.Stock)
	if err != nil {
		return err
	}
	d := c.desk(s)
	shop, err := d.Shop(ctx)
	if err != nil {
		return err
	}
	sets, err := d.Labels(ctx, c.Sets)
	if err != nil {
		return err
	}
	pages, err := press.Labels(shop, sets, c.at(), stock, c.Skip, c.reader(shop))
	if err != nil {
		return err
	}
	name := "labels.pdf"
	if len(sets) == 1 {
		name = fileName("label", sets[0].Set.Label)
	}
	return c.pdf(s, shop, name, pages[0].Title, pages)
}
