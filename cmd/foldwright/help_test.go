package main

import (
	"context"
	"io"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
)

// Every command shows how it is used, and what it shows is understood by the grammar.
func TestHelpHasWorkingExamples(t *testing.T) {
	s := streams{out: io.Discard, err: io.Discard}
	for _, node := range leaves(newParser(context.Background(), s).Model.Node) {
		examples := examplesIn(node)
		if len(examples) == 0 {
			t.Errorf("foldwright %s --help shows no example", node.Path())
		}
		for _, line := range examples {
			words := split(line)
			if path, _, _ := strings.Cut(node.Path(), " <"); !strings.HasPrefix(line+" ", "foldwright "+path+" ") {
				t.Errorf("the help of %s shows an example of something else: %s", path, line)
			}
			if _, err := newParser(context.Background(), s).Parse(words[1:]); err != nil {
				t.Errorf("the example %q is not understood: %v", line, err)
			}
		}
		if !strings.HasSuffix(node.Help, ".") {
			t.Errorf("the help of %s is no sentence: %q", node.Name, node.Help)
		}
	}
}

func leaves(node *kong.Node) []*kong.Node {
	if len(node.Children) == 0 {
		return []*kong.Node{node}
	}
	var list []*kong.Node
	for _, child := range node.Children {
		list = append(list, leaves(child)...)
	}
	return list
}

// examplesIn gives the lines of a command's help that call it, without what the shell does with them.
func examplesIn(node *kong.Node) []string {
	var list []string
	for line := range strings.Lines(node.Detail) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "foldwright ") {
			list = append(list, bare(line))
		}
	}
	return list
}

// split parts a command line at blanks outside double quotes.
func split(line string) []string {
	quoted := false
	words := strings.FieldsFunc(line, func(r rune) bool {
		if r == '"' {
			quoted = !quoted
		}
		return r == ' ' && !quoted
	})
	for i := range words {
		words[i] = strings.ReplaceAll(words[i], `"`, "")
	}
	return words
}
