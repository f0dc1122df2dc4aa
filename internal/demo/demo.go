// Package demo holds a shop of our own invention: a bindery with four folders of different age, 25 shaft sets, one bench
// and sixty jobs over two days, among them one that no folder can fold. It shows what foldwright does before anybody has
// typed a shop of their own, and tests plan it.
package demo

import (
	_ "embed"

	"foldwright/internal/exchange"
	"foldwright/internal/shop"
)

//go:embed shop.yaml
var file string

// Name is what the file is called in messages.
const Name = "demo.yaml"

// File returns the shop file, with its comments.
func File() []byte { return []byte(file) }

// Shop reads the file. A fault in it is a fault of the program, but comes back as any other.
func Shop() (*shop.Shop, error) { return exchange.ReadShop(Name, File()) }
