package main

import (
	"context"
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

func example(t *testing.T, parts ...string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(append([]string{"..", "..", "examples"}, parts...)...))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func understood(t *testing.T, args []string) {
	t.Helper()
	if _, err := newParser(context.Background(), streams{out: io.Discard, err: io.Discard}).Parse(args); err != nil {
		t.Errorf("%q is not understood: %v", args, err)
	}
}

// The unit calls the program as it wants to be called, and systemd finds nothing wrong with it.
func TestUnit(t *testing.T) {
	unit := example(t, "systemd", "foldwright.service")
	line := regexp.MustCompile(`(?m)^ExecStart=(/usr/local/bin/foldwright) (.*)$`).FindStringSubmatch(unit)
	flags := regexp.MustCompile(`(?m)^# FOLDWRIGHT_FLAGS="(.*)" and`).FindStringSubmatch(unit)
	if line == nil || flags == nil {
		t.Fatalf("no start, or no example of flags, in %s", unit)
	}
	said := strings.ReplaceAll(line[2], "$FOLDWRIGHT_FLAGS", strings.ReplaceAll(flags[1], "…", "folding.pem"))
	understood(t, strings.Fields(said))
	if _, err := exec.LookPath("systemd-analyze"); err != nil {
		t.Skip("systemd-analyze is not here to look at the unit")
	}
	program, err := exec.LookPath("foldwright")
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "foldwright.service")
	if err := os.WriteFile(file, []byte(strings.Replace(unit, line[1], program, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("systemd-analyze", "verify", "--man=no", file).CombinedOutput(); err != nil || len(out) > 0 {
		t.Errorf("systemd finds: %v\n%s", err, out)
	}
}

// So does the container; and what it copies is there.
func TestContainer(t *testing.T) {
	file := example(t, "container", "Containerfile")
	start := regexp.MustCompile(`(?m)^CMD (\[.*\])$`).FindStringSubmatch(file)
	var args []string
	if start == nil || json.Unmarshal([]byte(start[1]), &args) != nil {
		t.Fatalf("no start in %s", file)
	}
	understood(t, args)
	for _, m := range regexp.MustCompile(`/src/([A-Z]+)`).FindAllStringSubmatch(file, -1) {
		if _, err := os.Stat(filepath.Join("..", "..", m[1])); err != nil {
			t.Error(err)
		}
	}
	if version := regexp.MustCompile(`golang:(\d+\.\d+)`).FindStringSubmatch(file); version == nil || !strings.Contains(goMod(t), "\ngo "+version[1]+".") {
		t.Errorf("the container builds with %v, go.mod wants another", version)
	}
}

func goMod(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
