package main

import (
	"context"
	"errors"
	"path/filepath"

	"foldwright/internal/ledger"
	"foldwright/internal/store"
)

type backupCommand struct {
	File string `arg:"" help:"The file to make; there must be none of that name."`
	shopFlag
}

func (backupCommand) Help() string {
	return `
Copies the whole database, audit trail included, into one file, as it is at this moment; others may go on working. The copy is
checked before it gets its name. It is a database itself: it can be asked with --shop, and taken back with restore, into a
file or a server.

Examples:

    foldwright backup monday.db
    foldwright backup monday.db --shop postgres://folding@server/shop
`
}

// Run makes the backup.
func (c backupCommand) Run(ctx context.Context, s streams) (err error) {
	base := shopBase{where: c.where(), asked: c.Shop != ""}
	if !isDatabase(base.where) {
		_, err := c.database(ctx)
		return err
	}
	kept, err := base.open(ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, kept.Close()) }()
	if err := kept.Backup(ctx, c.File); err != nil {
		return err
	}
	s.say("wrote %s", c.File)
	return nil
}

type restoreCommand struct {
	File    string `arg:"" help:"The backup."`
	Replace bool   `help:"Put it in the place of the shop that is there, with all its history."`
	shopFlag
}

func (restoreCommand) Help() string {
	return `
Takes a backup back, all of it or nothing, after checking it. What is in the database now, history too, is gone then: make a
backup of that first. A database that holds a shop is left alone unless --replace is given.

Example:

    foldwright restore monday.db --replace
`
}

// Run takes the backup back.
func (c restoreCommand) Run(ctx context.Context, s streams) (err error) {
	kept, err := c.database(ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, kept.Close()) }()
	if now, err := kept.Snapshot(ctx); err != nil {
		return err
	} else if now.Shop != nil && !c.Replace {
		return store.Occupied(kept.Where())
	}
	now, err := kept.Restore(ctx, ledger.By{Who: whoami(), What: "restore of " + filepath.Base(c.File)}, c.File)
	if err != nil {
		return err
	}
	if now.Shop == nil {
		s.say("%s: empty, as the backup is", kept.Where())
		return nil
	}
	s.say("%s: %s", kept.Where(), holds(now.Shop))
	return nil
}
