package main

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/store"
)

// shopFlag is how a command is told which shop to ask.
type shopFlag struct {
	Shop string `placeholder:"WHERE" help:"A shop file, a database file (.db) or a postgres:// URL; without it ${shop_default}."`
}

// desk gives the desk of that shop.
func (f shopFlag) desk(s streams) *desk.Desk {
	if where := f.where(); isDatabase(where) {
		return deskOf(s, &shopBase{where: where, asked: f.Shop != ""})
	}
	return deskOf(s, &shopFile{path: f.Shop})
}

// where is what was named, or where the shop is when nothing was.
func (f shopFlag) where() string {
	if f.Shop == "" {
		return defaultShop()
	}
	return f.Shop
}

// isDatabase tells a database from a shop file: by its URL, its name, or its first bytes.
func isDatabase(where string) bool {
	return store.IsURL(where) || strings.EqualFold(filepath.Ext(where), ".db") || store.IsFile(where)
}

func deskOf(s streams, store desk.Store) *desk.Desk { return &desk.Desk{Store: store, Now: s.now} }

// shopFile is a shop in a YAML file, read once a command. It must not be shared between goroutines.
type shopFile struct {
	path string
	read *shop.Shop
}

// Shop reads the file, or says every fault in it.
func (f *shopFile) Shop(context.Context) (*shop.Shop, error) {
	if f.read != nil {
		return f.read, nil
	}
	data, err := os.ReadFile(f.path)
	if err != nil {
		return nil, unreadable(f.path, err)
	}
	f.read, err = exchange.ReadShop(f.path, data)
	return f.read, err
}

// shopBase is a shop in a database, read once a command. It must not be shared between goroutines.
type shopBase struct {
	where string
	asked bool // named by the user, so there is no need to tell about the default
	read  *shop.Shop
}

// Shop reads the shop, or says what is wrong with it.
func (b *shopBase) Shop(ctx context.Context) (*shop.Shop, error) {
	if b.read != nil {
		return b.read, nil
	}
	kept, err := b.open(ctx)
	if err != nil {
		return nil, err
	}
	b.read, err = kept.Shop(ctx)
	return b.read, errors.Join(b.begin(err), kept.Close())
}

// Whole gives the shop even when it does not pass the rules, for taking it out and mending it.
func (b *shopBase) Whole(ctx context.Context) (*shop.Shop, error) {
	kept, err := b.open(ctx)
	if err != nil {
		return nil, err
	}
	now, err := kept.Snapshot(ctx)
	if err == nil && now.Shop == nil {
		_, err = kept.Shop(ctx)
	}
	if err = errors.Join(b.begin(err), kept.Close()); err != nil {
		return nil, err
	}
	return now.Shop, nil
}

// open opens a database that is there already. One that is asked and missing is not made: it would be empty anyhow.
func (b *shopBase) open(ctx context.Context) (*store.Store, error) {
	if _, err := os.Stat(b.where); !store.IsURL(b.where) && err != nil {
		if errors.Is(err, fs.ErrNotExist) && !b.asked {
			return nil, noShop(b.where)
		}
		return nil, unreadable(b.where, err)
	}
	return store.Open(ctx, b.where, store.Options{})
}

// begin says how to begin instead of only that there is nothing.
func (b *shopBase) begin(err error) error {
	if all := fault.All(err); len(all) == 1 && all[0].Code == ledger.CodeNoShop && !b.asked {
		return noShop(b.where)
	}
	return err
}

// demoShop is the embedded demo.
type demoShop struct{}

func (demoShop) Shop(context.Context) (*shop.Shop, error) { return demo.Shop() }

// noShop is the fault of a first start: nobody named a shop and there is none where it would lie.
func noShop(path string) error {
	return fault.Fault{
		Kind: fault.Missing, Code: ledger.CodeNoShop, File: path, Wrong: "there is no shop yet",
		Right: "name one with --shop, take one in with foldwright import, or begin with the demo: foldwright demo --write shop.yaml && foldwright import shop.yaml",
	}
}

// defaultShop is the database that is asked when nobody names a shop: in the user's data directory, as the system has it.
func defaultShop() string {
	base := os.Getenv("XDG_DATA_HOME")
	home, _ := os.UserHomeDir()
	switch {
	case base != "":
	case runtime.GOOS == "windows":
		base = os.Getenv("LocalAppData")
	case runtime.GOOS == "darwin":
		base = filepath.Join(home, "Library", "Application Support")
	default:
		base = filepath.Join(home, ".local", "share")
	}
	return filepath.Join(base, "foldwright", "shop.db")
}

// defaultShopShown is the same for people, with the home directory as ~.
func defaultShopShown() string {
	path := defaultShop()
	if home, err := os.UserHomeDir(); err == nil && home != "" {
		if rest, ok := strings.CutPrefix(path, home); ok {
			return "~" + rest
		}
	}
	return path
}

// names lists what an argument can be called after, for completion: the jobs or folders of the shop. A shop that cannot be
// read has none; completion is no place for faults.
func names(ctx context.Context, s streams, kind, file string) []string {
	sh, err := shopFlag{file}.desk(s).Shop(ctx)
	if err != nil {
		return nil
	}
	switch kind {
	case "job":
		return sh.JobNames()
	case "folder":
		return sh.FolderNames()
	case "set":
		return sh.SetLabels()
	}
	return nil
}
