package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/serve"
)

// userCommand is about who can log in. It works on the database itself, so it helps where nobody can log in any more.
type userCommand struct {
	List   userListCommand   `cmd:"" help:"List the people who can log in."`
	Invite userInviteCommand `cmd:"" help:"Print a link by which somebody chooses a password."`
	End    userEndCommand    `cmd:"" help:"Let somebody in no longer, or in again."`
	Token  userTokenCommand  `cmd:"" help:"Make a token for a program."`
}

// inDatabase opens the database and hands its desk on.
func (f shopFlag) inDatabase(ctx context.Context, s streams, do func(d *desk.Desk) error) (err error) {
	base := shopBase{where: f.where(), asked: f.Shop != ""}
	if !isDatabase(base.where) {
		_, err := f.database(ctx)
		return err
	}
	kept, err := base.open(ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, kept.Close()) }()
	return do(&desk.Desk{Store: kept, Books: kept, Vault: kept, Now: s.now, Random: rand.Reader})
}

type userListCommand struct {
	shopFlag
}

func (userListCommand) Help() string {
	return `
Examples:

    foldwright user list
    foldwright user list --shop house.db
`
}

// Run lists them.
func (c userListCommand) Run(ctx context.Context, s streams) error {
	return c.inDatabase(ctx, s, func(d *desk.Desk) error {
		list, err := d.Accounts(ctx)
		if err != nil {
			return err
		}
		t := newTable(words("name"), words("role"), words("since"), words(""))
		for _, a := range list {
			t.row(a.Name, a.Role.String(), a.Since.Format(time.DateOnly), standing(a))
		}
		t.write(s)
		return nil
	})
}

// standing says in a word what else is to be known of an account.
func standing(a desk.Account) string {
	switch {
	case a.Ended:
		return "ended"
	case !a.Chosen:
		return "no password"
	}
	return ""
}

type userInviteCommand struct {
	Name    string `arg:"" help:"Who; somebody new, or somebody who forgot their password."`
	Role    string `enum:"viewer,operator,lead,admin," default:"" placeholder:"ROLE" help:"What somebody new is: viewer, operator, lead or admin."`
	Lang    string `enum:"en,de,es,fr," default:"" placeholder:"LANG" help:"Language of their pages; without it their browser's."`
	Address string `default:"http://127.0.0.1:8642" placeholder:"URL" help:"Where they reach the server."`
	shopFlag
}

func (userInviteCommand) Help() string {
	return `
Prints a link by which somebody chooses a password, once, within a day. Somebody new gets an account of the role given; for
somebody who is there already leave the role out: the old password is good until they choose another one.

Examples:

    foldwright user invite ada --role lead
    foldwright user invite ada --address https://folding.example
`
}

// Run prints the link.
func (c userInviteCommand) Run(ctx context.Context, s streams) error {
	return c.inDatabase(ctx, s, func(d *desk.Desk) error {
		role, _ := access.RoleNamed(c.Role)
		secret, err := d.Invite(ctx, c.Name, role, c.Lang)
		if err != nil {
			return err
		}
		s.say("%s", serve.Link(c.Address, secret))
		return nil
	})
}

type userEndCommand struct {
	Name  string `arg:"" help:"Who."`
	Again bool   `help:"Let them in again."`
	shopFlag
}

func (userEndCommand) Help() string {
	return `
Sessions and tokens of the account let nobody in any more (tokens within half a minute). The name stays with what was done
under it.

Examples:

    foldwright user end ada
    foldwright user end ada --again
`
}

// Run ends or revives the account.
func (c userEndCommand) Run(ctx context.Context, s streams) error {
	return c.inDatabase(ctx, s, func(d *desk.Desk) error {
		a, err := accountNamed(ctx, d, c.Name)
		if err != nil {
			return err
		}
		a.Ended = !c.Again
		if a, err = d.PutAccount(ctx, a); err != nil {
			return err
		}
		s.say("%s %s", a.Name, map[bool]string{true: "has been ended", false: "may log in"}[a.Ended])
		return nil
	})
}

// accountNamed finds an account as it may be shown.
func accountNamed(ctx context.Context, d *desk.Desk, name string) (desk.Account, error) {
	kept, err := d.Holder(ctx, name)
	if err != nil {
		return desk.Account{}, err
	}
	list, err := d.Accounts(ctx)
	for _, a := range list {
		if a.Name == kept.Name {
			return a, nil
		}
	}
	return desk.Account{}, err
}

type userTokenCommand struct {
	Name   string `arg:"" help:"Whose; the program acts in their name."`
	Called string `required:"" placeholder:"TEXT" help:"What the program is called."`
	Role   string `enum:"viewer,operator,lead,admin" default:"viewer" placeholder:"ROLE" help:"What the program may, at most what the account may."`
	Days   int    `default:"0" placeholder:"N" help:"After how many days it ends; without it, when it is taken back."`
	shopFlag
}

func (userTokenCommand) Help() string {
	return `
Prints a token, which is kept nowhere and cannot be shown again. Programs send it in the header Authorization: Bearer …

Examples:

    foldwright user token ada --called "shop screen"
    foldwright user token ada --called export --role lead --days 90
`
}

// Validate holds the days to what can be.
func (c userTokenCommand) Validate() error {
	if c.Days < 0 || c.Days > 3650 {
		return fmt.Errorf("--days is %d; it counts from 1 to 3650", c.Days)
	}
	return nil
}

// Run makes the token.
func (c userTokenCommand) Run(ctx context.Context, s streams) error {
	return c.inDatabase(ctx, s, func(d *desk.Desk) error {
		role, _ := access.RoleNamed(c.Role)
		var until time.Time
		if c.Days > 0 {
			until = s.now().AddDate(0, 0, c.Days)
		}
		secret, _, err := d.MakeToken(ctx, c.Name, c.Called, role, until)
		if err != nil {
			return err
		}
		s.say("%s", secret)
		return nil
	})
}
