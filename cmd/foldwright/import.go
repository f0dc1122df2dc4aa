package main

import (
	"context"
	"errors"
	"os"
	"os/user"
	"path/filepath"

	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/store"
)

type importCommand struct {
	File    string `arg:"" help:"The shop file to take in."`
	Replace bool   `help:"Put it in the place of the shop that is there."`
	shopFlag
}

func (importCommand) Help() string {
	return `
Checks a shop file and, when it is well, puts it into the database that all commands ask, all of it or nothing. The
database is made when there is none. A shop that is already there is kept unless --replace is given; then what differs is
changed, and the audit trail says what it was before.

Examples:

    foldwright import shop.yaml
    foldwright import shop.yaml --replace
    foldwright import shop.yaml --shop postgres://folding@server/shop
`
}

// Run checks the file and takes it in.
func (c importCommand) Run(ctx context.Context, s streams) (err error) {
	data, err := os.ReadFile(c.File)
	if err != nil {
		return unreadable(c.File, err)
	}
	sh, err := exchange.ReadShop(c.File, data)
	if err != nil {
		return err
	}
	kept, err := c.database(ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, kept.Close()) }()
	put := kept.Fill
	if c.Replace {
		put = kept.Replace
	}
	if _, err = put(ctx, ledger.By{Who: whoami(), What: "import of " + filepath.Base(c.File)}, sh); err != nil {
		return err
	}
	s.say("%s: %s", kept.Where(), holds(sh))
	return nil
}

// database opens the database that the flag names, and makes it when it is not there. A shop file is none.
func (f shopFlag) database(ctx context.Context) (*store.Store, error) {
	where := f.where()
	if !isDatabase(where) {
		return nil, fault.Fault{
			Kind: fault.Input, Code: store.CodeOpen, File: where, Wrong: "that is no database",
			Right: "a file whose name ends in .db, or a postgres:// URL",
		}
	}
	return store.Open(ctx, where, store.Options{})
}

// holds tells in a few words what is in a shop.
func holds(sh *shop.Shop) string {
	return counted(len(sh.Folders), "folder") + ", " + counted(len(sh.Sets), "set") + ", " + counted(len(sh.Jobs), "job")
}

// whoami is who stands in the audit trail for what is done on the command line.
func whoami() string {
	if u, err := user.Current(); err == nil && u.Username != "" {
		return u.Username
	}
	return "command line"
}
