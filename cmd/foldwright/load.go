package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/shop"
)

// shopFlag is how a command is told which shop to ask.
type shopFlag struct {
	Shop string `placeholder:"FILE" help:"The shop file; without it ${shop_default}."`
}

// desk gives the desk of that shop.
func (f shopFlag) desk(s streams) *desk.Desk {
	path := f.Shop
	if path == "" {
		path = defaultShop()
	}
	return deskOf(s, &shopFile{path: path, asked: f.Shop != ""})
}

func deskOf(s streams, store desk.Store) *desk.Desk { return &desk.Desk{Store: store, Now: s.now} }

// shopFile is a shop in a YAML file, read once a command. It must not be shared between goroutines.
type shopFile struct {
	path  string
	asked bool // named by the user, so there is no need to tell about the default
	read  *shop.Shop
}

// Shop reads the file, or says every fault in it.
func (f *shopFile) Shop(context.Context) (*shop.Shop, error) {
	if f.read != nil {
		return f.read, nil
	}
	data, err := os.ReadFile(f.path)
	if errors.Is(err, fs.ErrNotExist) && !f.asked {
		return nil, noShop(f.path)
	}
	if err != nil {
		return nil, unreadable(f.path, err)
	}
	f.read, err = exchange.ReadShop(f.path, data)
	return f.read, err
}

// demoShop is the embedded demo.
type demoShop struct{}

func (demoShop) Shop(context.Context) (*shop.Shop, error) { return demo.Shop() }

// noShop is the fault of a first start: nobody named a shop and there is none where it would lie.
func noShop(path string) error {
	return fault.Fault{
		Kind: fault.Missing, Code: "no-shop", File: path, Wrong: "there is no shop file yet",
		Right: fmt.Sprintf("name one with --shop, or begin with the demo: mkdir -p %q && foldwright demo --write %q", filepath.Dir(path), path),
	}
}

// defaultShop is where the shop file lies when nobody names one: in the user's data directory, as the system has it.
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
	return filepath.Join(base, "foldwright", "shop.yaml")
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
