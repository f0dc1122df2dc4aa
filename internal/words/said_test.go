package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// said finds every key that the program says, with a place where it stands. A key is a string handed to Say, T or Count, as
// a literal or a constant; by a function or closure that hands its parameter on; or a literal of a list that is said one by
// one.
func said(t *testing.T) map[string]string {
	t.Helper()
	fset, keys := token.NewFileSet(), map[string]string{}
	for _, files := range sources(t, fset) {
		s := &sayings{consts: constants(files), takers: map[string][]int{"Say": {0}, "T": {0}, "Count": {1, 2}}}
		s.found = func(lit *ast.BasicLit) {
			key, err := strconv.Unquote(lit.Value)
			if err != nil {
				t.Fatal(err)
			}
			keys[key] = strings.TrimPrefix(fset.Position(lit.Pos()).String(), "../../")
		}
		for range 2 { // one that hands on to one that hands on
			for _, f := range files {
				maps.Copy(s.takers, s.handing(f))
			}
		}
		for _, f := range files {
			s.file(f)
		}
	}
	if len(keys) < 100 {
		t.Fatalf("only %d keys found: the test looks in the wrong place", len(keys))
	}
	return keys
}

// sources parses the program but its tests and the catalogue itself, by directory.
func sources(t *testing.T, fset *token.FileSet) map[string][]*ast.File {
	t.Helper()
	files := map[string][]*ast.File{}
	for _, root := range []string{"../../cmd", "../../internal"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.HasPrefix(d.Name(), "entries") {
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
	return files
}

// constants finds the string constants of a package.
func constants(files []*ast.File) map[string]*ast.BasicLit {
	found := map[string]*ast.BasicLit{}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			if spec, ok := n.(*ast.ValueSpec); ok {
				for i, name := range spec.Names {
					if i < len(spec.Values) {
						if lit, ok := spec.Values[i].(*ast.BasicLit); ok && lit.Kind == token.STRING {
							found[name.Name] = lit
						}
					}
				}
			}
			return true
		})
	}
	return found
}

// listed are functions whose literals are all said.
var listed = []string{"Cautions", "BenchCautions"}

// sayings collects keys from the files of one package.
type sayings struct {
	consts map[string]*ast.BasicLit
	takers map[string][]int // functions that take keys, and at which arguments
	found  func(*ast.BasicLit)
}

// file goes through the functions of a file, each with its own closures, and through what stands outside of functions.
func (s *sayings) file(f *ast.File) {
	for _, d := range f.Decls {
		inside := *s
		inside.takers = maps.Clone(s.takers)
		if fn, ok := d.(*ast.FuncDecl); ok {
			if slices.Contains(listed, fn.Name.Name) && fn.Recv == nil {
				s.collect(fn.Body)
			}
			maps.Copy(inside.takers, s.closures(fn))
		}
		ast.Inspect(d, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok {
				for _, at := range inside.takers[called(call)] {
					if at < len(call.Args) {
						s.collect(call.Args[at])
					}
				}
			}
			return true
		})
	}
}

// collect takes every literal and constant of an expression, which may be a choice between several.
func (s *sayings) collect(e ast.Node) {
	ast.Inspect(e, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BasicLit:
			if n.Kind == token.STRING {
				s.found(n)
			}
		case *ast.Ident:
			if lit := s.consts[n.Name]; lit != nil {
				s.found(lit)
			}
		case *ast.CallExpr:
			return false // its own arguments are looked at when it is met
		}
		return true
	})
}

// handing finds the functions of a file that hand a parameter on as a key.
func (s *sayings) handing(f *ast.File) map[string][]int {
	found := map[string][]int{}
	for _, d := range f.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && fn.Body != nil {
			if at := s.handed(fn.Type, fn.Body); at != nil {
				found[fn.Name.Name] = at
			}
		}
	}
	return found
}

// closures finds those inside a function.
func (s *sayings) closures(fn *ast.FuncDecl) map[string][]int {
	found := map[string][]int{}
	ast.Inspect(fn, func(n ast.Node) bool {
		if a, ok := n.(*ast.AssignStmt); ok && len(a.Lhs) == 1 && len(a.Rhs) == 1 {
			name, named := a.Lhs[0].(*ast.Ident)
			if lit, ok := a.Rhs[0].(*ast.FuncLit); ok && named {
				if at := s.handed(lit.Type, lit.Body); at != nil {
					found[name.Name] = at
				}
			}
		}
		return true
	})
	return found
}

// handed tells which parameters go on as keys.
func (s *sayings) handed(of *ast.FuncType, body *ast.BlockStmt) (at []int) {
	number := map[string]int{}
	for _, p := range of.Params.List {
		for _, name := range p.Names {
			number[name.Name] = len(number)
		}
	}
	ast.Inspect(body, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok {
			for _, arg := range s.takers[called(call)] {
				if arg < len(call.Args) {
					if id, ok := call.Args[arg].(*ast.Ident); ok {
						if i, is := number[id.Name]; is && !slices.Contains(at, i) {
							at = append(at, i)
						}
					}
				}
			}
		}
		return true
	})
	return at
}

// called is the name of a called function; those of package strings, which has a Count of its own, say nothing.
func called(call *ast.CallExpr) string {
	switch f := call.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		if from, ok := f.X.(*ast.Ident); ok && from.Name == "strings" {
			return ""
		}
		return f.Sel.Name
	}
	return ""
}
