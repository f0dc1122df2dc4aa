package main

import (
	"os"

	"foldwright/internal/exchange"
)

type checkCommand struct {
	File string `arg:"" help:"The shop file."`
	JSON bool   `name:"json" help:"As JSON, on stdout."`
}

func (checkCommand) Help() string {
	return `
Lists everything that is wrong: file, line and column, field, what is wrong, what would be right. Exit code 0: nothing;
1: only jobs that no folder can fold, the rest can be planned; 2: the file is bad.

Example:

    foldwright check shop.yaml
`
}

// Run reads the file and says what is wrong with it, or what it holds.
func (c checkCommand) Run(s streams) error {
	data, err := os.ReadFile(c.File)
	if err != nil {
		return unreadable(c.File, err)
	}
	found := exchange.CheckShop(c.File, data)
	if c.JSON {
		if err := s.json(exchange.Check(c.File, found)); err != nil {
			return err
		}
	}
	if len(found) > 0 {
		return found
	}
	sh, err := exchange.ReadShop(c.File, data)
	if err != nil {
		return err
	}
	if !c.JSON {
		s.say("%s: %s, %s, %s; nothing wrong", c.File, counted(len(sh.Folders), "folder"), counted(len(sh.Sets), "set"), counted(len(sh.Jobs), "job"))
	}
	return nil
}
