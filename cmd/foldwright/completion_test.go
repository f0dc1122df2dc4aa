package main

import (
	"context"
	"io"
	"slices"
	"strings"
	"testing"
)

func TestCandidates(t *testing.T) {
	root := newParser(context.Background(), streams{out: io.Discard, err: io.Discard}).Model.Node
	lookup := func(kind, shop string) []string {
		switch kind {
		case "job":
			return []string{"2101", "2102", "3000 of " + shop}
		case "folder":
			return []string{"alder", "birch"}
		}
		return nil
	}
	for _, c := range []struct{ typed, want string }{
		{"", "completion rack settings version"}, // and more, as other commands come
		{"set", "settings"},
		{"settings ", "2101 2102 3000 of "},
		{"settings 2", "2101 2102"},
		{"settings 2101 --fo", "--folder"},
		{"settings 2101 --folder ", "alder birch"},
		{"settings --folder a", "alder"},
		{"settings --shop other.yaml 3", "3000 of other.yaml"},
		{"settings --json 2", "2101 2102"},
		{"completion f", "fish"},
		{"rack --serves 2102 --j", "--json"},
		{"no-such-command ", ""},
		{"settings 2101 zz", ""},
	} {
		got := candidates(root, strings.Split(c.typed, " "), lookup)
		if c.typed == "" {
			for _, name := range strings.Fields(c.want) {
				if !slices.Contains(got, name) {
					t.Errorf("%s is not offered among %q", name, got)
				}
			}
			continue
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("after %q: got %q, want %q", c.typed, got, c.want)
		}
	}
}
