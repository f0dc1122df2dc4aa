package fault_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// TestEveryCodeIsDocumented compares the codes in the source with the rows of docs/faults.md, both ways. A code stands
// there once, with an example and what is said about it.
func TestEveryCodeIsDocumented(t *testing.T) {
	used, documented := usedCodes(t), documentedCodes(t)
	for _, code := range slices.Sorted(maps.Keys(used)) {
		if !documented[code] {
			t.Errorf("%s: the code %q is missing in docs/faults.md", used[code], code)
		}
	}
	for _, code := range slices.Sorted(maps.Keys(documented)) {
		if used[code] == "" {
			t.Errorf("docs/faults.md explains %q, which nothing uses", code)
		}
		if !regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`).MatchString(code) {
			t.Errorf("%q is not written in small letters with hyphens", code)
		}
	}
}

// documentedCodes reads the first column of the tables; the other two must not be empty.
func documentedCodes(t *testing.T) map[string]bool {
	text, err := os.ReadFile("../../docs/faults.md")
	if err != nil {
		t.Fatal(err)
	}
	codes := map[string]bool{}
	for line := range strings.Lines(string(text)) {
		if !strings.HasPrefix(line, "| `") {
			continue
		}
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), " | ")
		code := strings.Trim(strings.TrimSpace(cells[0]), "`")
		if codes[code] {
			t.Errorf("docs/faults.md explains %q twice", code)
		}
		if len(cells) != 3 || strings.TrimSpace(cells[1]) == "" || strings.TrimSpace(cells[2]) == "" {
			t.Errorf("docs/faults.md: %q wants an example and what is said", code)
		}
		codes[code] = true
	}
	if len(codes) < 10 {
		t.Fatalf("only %d codes found in docs/faults.md", len(codes))
	}
	return codes
}

// usedCodes finds every code in the source, with a place where it stands: typed constants, fields and arguments.
func usedCodes(t *testing.T) map[string]string {
	fset := token.NewFileSet()
	files := map[string][]*ast.File{} // by directory
	for _, root := range []string{"../../cmd", "../../internal"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(fset, path, nil, parser.SkipObjectResolution)
			files[filepath.Dir(path)] = append(files[filepath.Dir(path)], file)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	codes := map[string]string{}
	for _, dir := range slices.Sorted(maps.Keys(files)) {
		c := collector{takers: takers(files[dir]), found: func(lit *ast.BasicLit) {
			code, err := strconv.Unquote(lit.Value)
			if err != nil {
				t.Fatal(err)
			}
			if place := fset.Position(lit.Pos()).String(); codes[code] == "" {
				codes[code] = strings.TrimPrefix(place, "../../")
			}
		}}
		for _, f := range files[dir] {
			ast.Inspect(f, c.visit)
		}
	}
	return codes
}

// takers finds the functions of a package that take a code, and at which argument.
func takers(files []*ast.File) map[string]int {
	found := map[string]int{}
	for _, f := range files {
		for _, d := range f.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok {
				continue
			}
			at := 0
			for _, p := range fn.Type.Params.List {
				if isCode(p.Type) {
					found[fn.Name.Name] = at
				}
				at += max(1, len(p.Names))
			}
		}
	}
	return found
}

// isCode tells whether a type is fault.Code.
func isCode(e ast.Expr) bool {
	s, ok := e.(*ast.SelectorExpr)
	return ok && s.Sel.Name == "Code"
}

// collector meets the literals that are codes.
type collector struct {
	takers map[string]int
	found  func(*ast.BasicLit)
}

func (c collector) literal(e ast.Expr) {
	if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
		c.found(lit)
	}
}

func (c collector) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.ValueSpec:
		for _, v := range n.Values {
			if isCode(n.Type) {
				c.literal(v)
			}
		}
	case *ast.KeyValueExpr:
		if key, ok := n.Key.(*ast.Ident); ok && key.Name == "Code" {
			c.literal(n.Value)
		}
	case *ast.AssignStmt:
		for i, target := range n.Lhs {
			if isCode(target) && i < len(n.Rhs) {
				c.literal(n.Rhs[i])
			}
		}
	case *ast.CallExpr:
		c.call(n)
	}
	return true
}

// call meets a conversion to a code, or a call that hands one on.
func (c collector) call(n *ast.CallExpr) {
	name := ""
	switch fun := n.Fun.(type) {
	case *ast.Ident:
		name = fun.Name
	case *ast.SelectorExpr:
		name = fun.Sel.Name
	}
	if isCode(n.Fun) && len(n.Args) == 1 {
		c.literal(n.Args[0])
	}
	if at, ok := c.takers[name]; ok && at < len(n.Args) {
		c.literal(n.Args[at])
	}
}
