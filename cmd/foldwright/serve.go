package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/netip"
	"os"
	"strings"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/serve"
	"foldwright/internal/store"
)

// netFlags say where a server listens and what it tells.
type netFlags struct {
	Listen string `default:"127.0.0.1:8642" placeholder:"HOST:PORT" help:"Where to listen; port 0 takes any that is free."`
	Log    string `enum:"text,json,off" default:"text" placeholder:"text|json|off" help:"How to log, on stderr."`
}

type serveCommand struct {
	shopFlag
	netFlags
	Demo    bool     `help:"Serve the demo shop from a database that is gone afterwards, with people to log in as."`
	TLSCert string   `name:"tls-cert" placeholder:"FILE.pem" help:"The certificate, with those that vouch for it; read again when the file changes."`
	TLSKey  string   `name:"tls-key" placeholder:"FILE.pem" help:"Its key."`
	Address string   `placeholder:"URL" help:"Where people reach it, when not at the address it listens at."`
	Proxy   []string `placeholder:"ADDRESS" help:"An address or network of proxies that tell where a request comes from (X-Forwarded-For)."`
	limitFlags
	oidcFlags
}

// limitFlags are how often something may be asked.
type limitFlags struct {
	Calls  int `default:"600" placeholder:"N" help:"Calls of the API a minute that a token or account may make; -1 = any number."`
	LogIns int `name:"log-ins" default:"10" placeholder:"N" help:"Attempts to log in a minute from one address; -1 = any number, also for one name."`
}

func (serveCommand) Help() string {
	return `
Serves the web app and the API. Without --listen only this machine can reach it. At the first start it prints a link by
which the first admin chooses a name and a password; it can be used once, within a day. An interrupt or SIGTERM stops it in
good order: searches end and keep what they found, requests are answered, then it leaves.

For more than this machine give a certificate, or put a proxy that has one in front and say so with --address and --proxy.
docs/operations.md tells about certificates, log-in by OpenID Connect, backups, upgrades and what to watch.

Examples:

    foldwright serve
    foldwright serve --demo
    foldwright serve --shop postgres://folding@server/shop --listen 0.0.0.0:8443 --tls-cert folding.pem --tls-key folding.key
    foldwright serve --address https://folding.example --proxy 127.0.0.1 --log json
`
}

// Run serves until it is told to stop.
func (c serveCommand) Run(ctx context.Context, s streams) error {
	conf, err := c.config(s)
	if err != nil {
		return err
	}
	server, err := serve.New(ctx, conf)
	if err != nil {
		return err
	}
	if err := welcome(ctx, s, server, c.Demo); err != nil {
		return errors.Join(err, server.Close())
	}
	return server.Run(ctx)
}

func (c serveCommand) config(s streams) (serve.Config, error) {
	where := c.where()
	if !c.Demo && !isDatabase(where) {
		return serve.Config{}, fault.Fault{Kind: fault.Input, Code: store.CodeOpen, File: where, Wrong: "that is no database", Right: "take the shop file in with foldwright import, or name a database"}
	}
	proxies, err := networks(c.Proxy)
	if err != nil {
		return serve.Config{}, err
	}
	signOn, err := c.signOn()
	if err != nil {
		return serve.Config{}, err
	}
	conf := c.netFlags.config(s)
	conf.Shop, conf.Demo, conf.Cert, conf.Key, conf.Address = where, c.Demo, c.TLSCert, c.TLSKey, c.Address
	conf.Proxies, conf.SignOn, conf.Limits = proxies, signOn, c.limits()
	return conf, nil
}

// config is what every server needs.
func (f netFlags) config(s streams) serve.Config {
	log := f.logger(s)
	slog.SetDefault(log) // what the doors say of their own faults goes the same way
	return serve.Config{Listen: f.Listen, Log: log, Now: s.now}
}

func (f netFlags) logger(s streams) *slog.Logger {
	switch f.Log {
	case "json":
		return slog.New(slog.NewJSONHandler(s.err, nil))
	case "off":
		return slog.New(slog.DiscardHandler)
	}
	return slog.New(slog.NewTextHandler(s.err, nil))
}

func (f limitFlags) limits() gate.Limits {
	l := gate.Limits{Calls: f.Calls, LogInsByAddress: f.LogIns}
	if f.LogIns < 0 {
		l.LogInsByName = -1
	}
	return l
}

// Validate holds the limits to what can be.
func (f limitFlags) Validate() error {
	if f.Calls == 0 || f.LogIns == 0 {
		return fmt.Errorf("--calls and --log-ins are at least 1, or -1 for any number")
	}
	return nil
}

// networks reads addresses and networks.
func networks(texts []string) ([]netip.Prefix, error) {
	var list []netip.Prefix
	for _, text := range texts {
		p, err := netip.ParsePrefix(text)
		if at, single := netip.ParseAddr(text); single == nil {
			p, err = at.Prefix(at.BitLen())
		}
		if err != nil {
			return nil, fault.Fault{Kind: fault.Input, Code: serve.CodeListen, Field: "--proxy", Wrong: fmt.Sprintf("%q is no address", text), Right: "an address or a network, such as 127.0.0.1 or 10.0.0.0/8"}
		}
		list = append(list, p)
	}
	return list, nil
}

// welcome tells where the server is and how the first one gets in.
func welcome(ctx context.Context, s streams, server *serve.Server, isDemo bool) error {
	link, err := server.FirstLink(ctx)
	if err != nil {
		return err
	}
	s.say("serving %s at %s/", server.Where(), server.Address())
	if link != "" {
		s.say("nobody can log in yet; the first admin chooses a name and a password here, once, within a day:")
		s.say("  %s", link)
	}
	if !isDemo {
		return nil
	}
	guests, err := server.Guests(ctx)
	if err != nil {
		return err
	}
	s.say("or log in as one of these, until the demo stops:")
	t := newTable(words(""), words(""), words(""))
	for _, g := range guests {
		t.row("  "+g.Name, g.Password, mayWords[g.Role])
	}
	t.write(s)
	return nil
}

// mayWords tell what a role is good for.
var mayWords = map[access.Role]string{
	access.Viewer:   "sees the shop",
	access.Operator: "works at a folder or the bench, and records it",
	access.Lead:     "arranges jobs, sets and the day",
}

// oidcFlags are the log-in by a system of the house.
type oidcFlags struct {
	OIDCIssuer     string            `name:"oidc-issuer" placeholder:"URL" help:"Let people log in by the OpenID Connect system at this address."`
	OIDCClient     string            `name:"oidc-client" placeholder:"ID" help:"What that system calls foldwright."`
	OIDCSecretFile string            `name:"oidc-secret-file" placeholder:"FILE" help:"A file with the client secret; or set FOLDWRIGHT_OIDC_SECRET."`
	OIDCLabel      string            `name:"oidc-label" default:"single sign-on" placeholder:"TEXT" help:"What the log-in page calls it."`
	OIDCNameClaim  string            `name:"oidc-name-claim" default:"preferred_username" placeholder:"CLAIM" help:"Which claim is the name of the account."`
	OIDCRoleClaim  string            `name:"oidc-role-claim" placeholder:"CLAIM" help:"Which claim tells the role; without it roles are given here."`
	OIDCRole       map[string]string `name:"oidc-role" placeholder:"VALUE=ROLE" help:"What a value of that claim comes to, such as foldingleads=lead."`
	OIDCNewRole    string            `name:"oidc-new-role" placeholder:"ROLE" help:"Make an account with this role for whoever comes first; without it only people who have one."`
}

// oidcSecret is where the secret may stand besides a file: never among the arguments, which everybody on the machine can read.
const oidcSecret = "FOLDWRIGHT_OIDC_SECRET"

func (f oidcFlags) signOn() (*gate.SignOn, error) {
	if f.OIDCIssuer == "" && f.OIDCClient == "" {
		return nil, nil
	}
	secret := os.Getenv(oidcSecret)
	if f.OIDCSecretFile != "" {
		data, err := os.ReadFile(f.OIDCSecretFile)
		if err != nil {
			return nil, unreadable(f.OIDCSecretFile, err)
		}
		secret = strings.TrimSpace(string(data))
	}
	on := &gate.SignOn{Label: f.OIDCLabel, Issuer: f.OIDCIssuer, ID: f.OIDCClient, Secret: secret, NameClaim: f.OIDCNameClaim, RoleClaim: f.OIDCRoleClaim, Roles: map[string]access.Role{}}
	var err error
	for value, name := range f.OIDCRole {
		if on.Roles[value], err = roleNamed("--oidc-role", name); err != nil {
			return nil, err
		}
	}
	if f.OIDCNewRole != "" {
		on.NewRole, err = roleNamed("--oidc-new-role", f.OIDCNewRole)
	}
	return on, err
}

// roleNamed reads a role.
func roleNamed(flag, name string) (access.Role, error) {
	role, ok := access.RoleNamed(name)
	if !ok {
		return role, fault.Fault{Kind: fault.Input, Code: desk.CodeRole, Field: flag, Wrong: fmt.Sprintf("there is no role %q", name), Right: "viewer, operator, lead or admin"}
	}
	return role, nil
}
