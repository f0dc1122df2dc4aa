package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const head = `
shop: Codes
zone: UTC
calendars: [{name: day, week: {mon: 06:00-14:00}}]
folders:
  - name: alder
    calendar: day
    feeder: {length: 150 to 800, width: 100 to 520, grammage: 50 to 200, rate: 18000}
    units: [{kind: buckle, plates: [60 to 420], speed: 150, gap: 50, operator: left, guide: {side: left, range: 20 to 600}}]
jobs:
  - {name: leaflet, sheet: A4, stock: {name: offset, grammage: 100}, fold: up 1/2, sheets: 5000}
`

// The exit code of check tells a bad file from jobs that cannot be folded, and both from a file that is well.
func TestExitCodesOfCheck(t *testing.T) {
	const long = "  - {name: long, sheet: 1000 x 500, stock: {name: offset, grammage: 100}, fold: up 1/2, sheets: 5000}\n"
	for _, c := range []struct {
		name, file string
		code, told int
	}{
		{"well", head, 0, 0},
		{"a job that cannot be folded", head + long, 1, 1},
		{"a bad file", head + "colour: green\n", 2, 1},
		{"both", head + long + "colour: green\n", 2, 2},
	} {
		path := filepath.Join(t.TempDir(), "shop.yaml")
		if err := os.WriteFile(path, []byte(c.file), 0o600); err != nil {
			t.Fatal(err)
		}
		var out, err bytes.Buffer
		if code := run(context.Background(), []string{"check", path}, streams{out: &out, err: &err}); code != c.code {
			t.Errorf("%s: exit code %d, want %d\n%s", c.name, code, c.code, err.String())
		}
		if lines := strings.Count(err.String(), "\n"); lines != c.told {
			t.Errorf("%s: %d lines on stderr, want %d:\n%s", c.name, lines, c.told, err.String())
		}
	}
}
