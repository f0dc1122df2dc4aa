package main

import (
	"context"

	"foldwright/internal/exchange"
)

type exportCommand struct {
	shopFlag
}

func (exportCommand) Help() string {
	return `
The whole shop as a shop file, tidied: every field in its usual order, all standard minutes written out. It reads back as
the same shop; comments are not kept.

Example:

    foldwright export --shop shop.yaml > tidy.yaml
`
}

// Run prints the shop file.
func (c exportCommand) Run(ctx context.Context, s streams) error {
	sh, err := c.desk(s).Shop(ctx)
	if err != nil {
		return err
	}
	_, err = s.out.Write(exchange.WriteShop(sh))
	return err
}
