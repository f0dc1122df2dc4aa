package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"time"

	"foldwright/internal/demo"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/serve"
)

type demoCommand struct {
	Write string `placeholder:"FILE.yaml" help:"Write the demo's shop file there instead of planning it."`
	Print bool   `help:"Plan and print only, and serve nothing; so do --json and --svg."`
	planFlags
	netFlags
}

func (demoCommand) Help() string {
	return `
An invented bindery: four folders, 25 shaft sets, one bench, sixty jobs over two days. One of the jobs can be folded
nowhere, and the plan says why. The shop is put into a database, planned, and served on this machine with people to log in as;
the database is gone when the demo stops.

Examples:

    foldwright demo
    foldwright demo --time 30s --print
    foldwright demo --write shop.yaml
`
}

// Run plans the demo, and serves it unless only the plan is wanted.
func (c demoCommand) Run(ctx context.Context, s streams) error {
	switch {
	case c.Write != "":
		return writeDemo(s, c.Write)
	case c.Print || c.JSON || c.SVG:
		return c.plan(ctx, s, deskOf(s, demoShop{}))
	}
	conf := c.netFlags.config(s)
	conf.Demo = true
	server, err := serve.New(ctx, conf)
	if err != nil {
		return err
	}
	if err := c.begin(ctx, s, server); err != nil {
		return errors.Join(err, server.Close())
	}
	return server.Run(ctx)
}

// begin plans the day, keeps the plan as a draft for the pages, and tells how to get in.
func (c demoCommand) begin(ctx context.Context, s streams, server *serve.Server) error {
	d := server.Desk()
	p, err := c.search(ctx, s, d)
	if err != nil {
		return err
	}
	sheet{s, c.speaker(p.Inch)}.plan(p, c.Lines)
	note := fmt.Sprintf("%d orders in %.0f s", p.Search.Iterations, p.Search.Took.Seconds())
	draft := ledger.Draft{ID: strings.ToLower(rand.Text()), Who: "demo", At: s.now().Truncate(time.Millisecond), How: "search", Note: note, Order: p.Order()}
	if err := d.Books.AddDraft(ctx, draft); err != nil {
		return err
	}
	s.gap()
	return welcome(ctx, s, server, true)
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
