package main

import (
	"context"
	"errors"
	"io/fs"
	"os"

	"foldwright/internal/demo"
	"foldwright/internal/fault"
)

type demoCommand struct {
	Write string `placeholder:"FILE.yaml" help:"Write the demo's shop file there instead of planning it."`
	planFlags
}

func (demoCommand) Help() string {
	return `
An invented bindery: four folders, 25 shaft sets, one bench, sixty jobs over two days. One of the jobs can be folded
nowhere, and the plan says why.

Examples:

    foldwright demo
    foldwright demo --time 30s
    foldwright demo --write shop.yaml
`
}

func (c demoCommand) Run(ctx context.Context, s streams) error {
	if c.Write != "" {
		return writeDemo(s, c.Write)
	}
	return c.plan(ctx, s, deskOf(s, demoShop{}))
}

// writeDemo never overwrites: the file that stands there may be somebody's own shop.
func writeDemo(s streams, path string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return unwritable(path, err)
	}
	_, err = f.Write(demo.File())
	if err = errors.Join(err, f.Close()); err != nil {
		return unwritable(path, err)
	}
	s.say("wrote %s", path)
	s.say("next: foldwright check %s", path)
	s.say("then: foldwright plan --shop %s", path)
	return nil
}

// unwritable says why a file cannot be written.
func unwritable(path string, err error) error {
	f := fault.Fault{Kind: fault.Input, Code: "file-write", File: path, Wrong: "cannot be written", Right: "a place in a directory that is there and may be written to"}
	if errors.Is(err, fs.ErrExist) {
		f.Kind, f.Wrong, f.Right = fault.Conflict, "there is such a file already", "another name, or take that file away first"
	}
	return f
}
