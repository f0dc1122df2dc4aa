package main

import (
	"errors"
	"os"
	"path/filepath"

	"foldwright/internal/exchange"
	"foldwright/internal/fault"
)

type importCommand struct {
	File    string `arg:"" help:"The shop file to take in."`
	Replace bool   `help:"Put it in the place of the shop that is there."`
	shopFlag
}

func (importCommand) Help() string {
	return `
Checks a shop file and, when it is well, makes it the shop that all commands ask. It is copied as it stands, comments and
all. A shop that is already there is kept unless --replace is given.

Example:

    foldwright import shop.yaml
`
}

// Run checks the file and copies it.
func (c importCommand) Run(s streams) error {
	data, err := os.ReadFile(c.File)
	if err != nil {
		return unreadable(c.File, err)
	}
	sh, err := exchange.ReadShop(c.File, data)
	if err != nil {
		return err
	}
	target := c.Shop
	if target == "" {
		target = defaultShop()
	}
	if err := c.put(target, data); err != nil {
		return err
	}
	s.say("%s: %s, %s, %s", target, counted(len(sh.Folders), "folder"), counted(len(sh.Sets), "set"), counted(len(sh.Jobs), "job"))
	return nil
}

// put writes the file whole or not at all: beside its place first, then into it.
func (c importCommand) put(target string, data []byte) error {
	if _, err := os.Stat(target); err == nil && !c.Replace {
		return fault.Fault{
			Kind: fault.Conflict, Code: "shop-exists", File: target, Wrong: "there is a shop already",
			Right: "add --replace to put the new one in its place",
		}
	}
	if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
		return unwritable(target, err)
	}
	beside := target + ".new"
	if err := os.WriteFile(beside, data, 0o644); err != nil {
		return unwritable(target, err)
	}
	if err := os.Rename(beside, target); err != nil {
		return unwritable(target, errors.Join(err, os.Remove(beside)))
	}
	return nil
}
