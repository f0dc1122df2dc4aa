package main

import (
	"context"

	"foldwright/internal/exchange"
	"foldwright/internal/shop"
)

type exportCommand struct {
	shopFlag
}

func (exportCommand) Help() string {
	return `
The whole shop as a shop file, tidied: every field in its usual order, all standard minutes written out. It reads back as
the same shop; comments of a shop file are not kept.

Examples:

    foldwright export > shop.yaml
    foldwright export --shop shop.yaml > tidy.yaml
`
}

// Run prints the shop file.
func (c exportCommand) Run(ctx context.Context, s streams) error {
	source := c.desk(s).Store
	ask := source.Shop
	if base, ok := source.(interface {
		Whole(context.Context) (*shop.Shop, error)
	}); ok {
		ask = base.Whole // a newer program may find fault with what it shall help to mend
	}
	sh, err := ask(ctx)
	if err != nil {
		return err
	}
	_, err = s.out.Write(exchange.WriteShop(sh))
	return err
}
