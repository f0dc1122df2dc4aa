package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

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
