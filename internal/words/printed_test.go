package words

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"text/template/parse"
)

// printed finds every key that the templates of the pages say, with the file where it stands: {{say "…"}}, and both texts
// of {{count n "…" "…"}}.
func printed(t *testing.T) map[string]string {
	t.Helper()
	var files []string
	for _, pattern := range []string{"../ui/templates/*.html", "../ui/templates/parts/*.html"} {
		found, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, found...)
	}
	keys := map[string]string{}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, key := range printedIn(t, file, string(data)) {
			keys[key] = strings.TrimPrefix(filepath.ToSlash(file), "../")
		}
	}
	if len(keys) < 10 {
		t.Fatalf("only %d keys found in %d templates: the test looks in the wrong place", len(keys), len(files))
	}
	return keys
}

// printedIn finds the keys of one template.
func printedIn(t *testing.T, name, text string) (keys []string) {
	t.Helper()
	sets := map[string]*parse.Tree{}
	tree := parse.New(name)
	tree.Mode = parse.SkipFuncCheck
	if _, err := tree.Parse(text, "{{", "}}", sets); err != nil {
		t.Fatal(err)
	}
	for _, s := range sets {
		if s.Root != nil {
			walk(s.Root, func(c *parse.CommandNode) { keys = append(keys, keysOf(t, name, c)...) })
		}
	}
	return keys
}

// keysOf are the keys of one call; a call whose key is no plain text cannot be held to the catalogue.
func keysOf(t *testing.T, name string, c *parse.CommandNode) (keys []string) {
	id, ok := c.Args[0].(*parse.IdentifierNode)
	if !ok {
		return nil
	}
	at := map[string][]int{"say": {1}, "count": {2, 3}}[id.Ident]
	for _, i := range at {
		if i >= len(c.Args) {
			t.Errorf("%s: %s lacks its key", name, c)
			continue
		}
		key, plain := c.Args[i].(*parse.StringNode)
		if !plain {
			t.Errorf("%s: %s says what no test can see; hand over a words.Text and write text", name, c)
			continue
		}
		keys = append(keys, key.Text)
	}
	return keys
}

// walk visits every command of a tree, those in brackets too.
func walk(n parse.Node, visit func(*parse.CommandNode)) {
	switch n := n.(type) {
	case *parse.ListNode:
		if n != nil {
			for _, m := range n.Nodes {
				walk(m, visit)
			}
		}
	case *parse.ActionNode:
		walk(n.Pipe, visit)
	case *parse.TemplateNode:
		walk(n.Pipe, visit)
	case *parse.IfNode:
		branch(&n.BranchNode, visit)
	case *parse.RangeNode:
		branch(&n.BranchNode, visit)
	case *parse.WithNode:
		branch(&n.BranchNode, visit)
	case *parse.PipeNode:
		if n != nil {
			for _, c := range n.Cmds {
				walk(c, visit)
			}
		}
	case *parse.CommandNode:
		visit(n)
		for _, a := range n.Args {
			walk(a, visit)
		}
	}
}

func branch(b *parse.BranchNode, visit func(*parse.CommandNode)) {
	walk(b.Pipe, visit)
	walk(b.List, visit)
	walk(b.ElseList, visit)
}

// The search for keys sees them wherever a template can hold them.
func TestKeysAreFoundWhereverTemplatesSayThem(t *testing.T) {
	const text = `{{define "a"}}{{if say "one"}}{{say "two" .X}}{{else}}{{range .L}}<p title="{{say "three"}}">{{end}}{{end}}{{end}}
{{with (say "four")}}{{.}}{{end}}{{template "a" (pair "x" (say "five"))}}{{count .N "%d six" "%d sixes"}}{{text .T}}`
	got := map[string]bool{}
	for _, key := range printedIn(t, "x.html", text) {
		got[key] = true
	}
	want := []string{"one", "two", "three", "four", "five", "%d six", "%d sixes"}
	for _, w := range want {
		if !got[w] {
			t.Errorf("%q was not found in %s", w, fmt.Sprint(got))
		}
	}
	if len(got) != len(want) {
		t.Errorf("found %v, want %v", got, want)
	}
}
