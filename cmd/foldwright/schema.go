package main

import "foldwright/internal/exchange"

type schemaCommand struct{}

func (schemaCommand) Help() string {
	return `
The JSON Schema of the shop file, for editors that complete and check while one types. What spans several fields only
"foldwright check" can tell.

Example:

    foldwright schema > shop.schema.json
`
}

// Run prints the schema.
func (schemaCommand) Run(s streams) error {
	_, err := s.out.Write(exchange.ShopSchema())
	return err
}
