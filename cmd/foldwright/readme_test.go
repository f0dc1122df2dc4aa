package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// pages are the texts for people that name commands and other files.
var pages = []string{"README.md", "ARCHITECTURE.md", "CONTRIBUTING.md", "docs/glossary.md", "docs/shop-file.md", "docs/worked-job.md", "docs/faults.md", "docs/performance.md", "docs/operations.md"}

var link = regexp.MustCompile(`\]\(([^)#]+)\)`)

// What a page tells people to type is understood, and what it points at is there.
func TestPagesTellTheTruth(t *testing.T) {
	root := filepath.Join("..", "..")
	for _, page := range pages {
		data, err := os.ReadFile(filepath.Join(root, page))
		if err != nil {
			t.Error(err)
			continue
		}
		for _, line := range commandsIn(string(data)) {
			if _, err := newParser(context.Background(), streams{out: io.Discard, err: io.Discard}).Parse(split(line)[1:]); err != nil {
				t.Errorf("%s: %q is not understood: %v", page, line, err)
			}
		}
		for _, found := range link.FindAllStringSubmatch(string(data), -1) {
			if strings.Contains(found[1], "://") {
				continue
			}
			if _, err := os.Stat(filepath.Join(root, filepath.Dir(page), found[1])); err != nil {
				t.Errorf("%s points at %s: %v", page, found[1], err)
			}
		}
	}
}

// commandsIn gives the lines of fenced blocks that call foldwright, without what the shell does with them.
func commandsIn(text string) []string {
	var list []string
	fenced := false
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "```") {
			fenced = !fenced
		}
		if !fenced || !strings.HasPrefix(line, "foldwright ") {
			continue
		}
		list = append(list, bare(line))
	}
	return list
}

// bare takes off what the shell does with a command: redirection, pipe, comment.
func bare(line string) string {
	for _, mark := range []string{" > ", " | ", " # "} {
		line, _, _ = strings.Cut(line, mark)
	}
	return strings.TrimSpace(line)
}

// The map that ARCHITECTURE.md draws is the one that internal/rooms_test.go enforces.
func TestMapOfRooms(t *testing.T) {
	drawn := roomsIn(t, "ARCHITECTURE.md", regexp.MustCompile("(?m)^\\| (\\S+) \\| `(\\w+)` \\| ([^|]*) \\|"))
	held := roomsIn(t, filepath.Join("internal", "rooms_test.go"), regexp.MustCompile(`(?m)^(pure|use-case|adapter|door|wiring) +(\w+)( [a-z ]*)?$`))
	if diff := cmp.Diff(held, drawn); diff != "" {
		t.Errorf("rooms as held (-) and as drawn (+):\n%s", diff)
	}
}

func roomsIn(t *testing.T, file string, line *regexp.Regexp) map[string]string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", file))
	if err != nil {
		t.Fatal(err)
	}
	rooms := map[string]string{}
	for _, m := range line.FindAllStringSubmatch(string(data), -1) {
		rooms[m[2]] = m[1] + ": " + strings.Join(strings.Fields(strings.Trim(m[3], "–")), " ")
	}
	if len(rooms) < 10 {
		t.Fatalf("%s names only %d rooms", file, len(rooms))
	}
	return rooms
}
