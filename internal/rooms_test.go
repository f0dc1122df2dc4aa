// Package internal_test holds the house to its rules: who may import whom, what a pure room may not touch, and how long a
// function may be. Loosening a line here is a decision record.
package internal_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// rooms is the import table: a room may import what its line lists and whatever those may; nothing else of ours. Pure
// rooms do no I/O, start nothing and know no clock, no chance and no state that changes.
const rooms = `
pure      fault
pure      units      fault
pure      calendar   fault
pure      paper      units
pure      fold       units
pure      tooling    units
pure      schedule
pure      words      tooling
pure      job        paper fold words
pure      machine    tooling calendar
pure      settings   job machine
pure      changeover settings
pure      shop       changeover
pure      plan       shop schedule
pure      ledger     plan
pure      access     fault
use-case  desk       plan ledger access
adapter   exchange   plan ledger access
adapter   draw       plan
adapter   store      plan ledger access
door      demo       exchange
door      gate       desk exchange
door      press      desk exchange draw
door      api        gate exchange press
door      ui         gate exchange press demo
wiring    serve      api ui gate store demo
`

// forbidden is what a pure room may not import.
var forbidden = []string{"os", "net", "io/fs", "io/ioutil", "database/sql", "log", "syscall", "unsafe", "math/rand", "crypto/rand", "plugin", "runtime/debug"}

// clocks are the functions of package time that read the clock or wait for it.
var clocks = []string{"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker"}

// seeded are the functions of math/rand/v2 that need a seed; all others use the generator that nobody can repeat.
var seeded = []string{"New", "NewPCG", "NewChaCha8", "NewZipf"}

// vague are names of rooms that say nothing.
var vague = []string{"util", "utils", "common", "helper", "helpers", "misc", "shared", "base", "lib"}

// longest is the most lines a function may have. None needs more, and what is short stays short.
const longest = 60

// room is a directory of the checkout with its place in the table.
type room struct {
	kind    string
	imports map[string]bool // with all that those may import
}

func TestImportsFollowTheTable(t *testing.T) {
	table := readTable(t)
	for _, p := range packages(t) {
		if slices.Contains(vague, p.name) {
			t.Errorf("%s: a room named %q says nothing about what is inside", p.dir, p.name)
		}
		if p.room == "" {
			continue
		}
		r, listed := table[p.room]
		if !listed {
			t.Errorf("%s: the room is missing in the table of rooms_test.go", p.dir)
			continue
		}
		for file, path := range p.imports() {
			other, ours := strings.CutPrefix(path, "foldwright/internal/")
			if ours && other != p.room && !r.imports[other] {
				t.Errorf("%s: %s may not import %s", file, p.room, other)
			}
		}
	}
}

func TestPureRoomsStayPure(t *testing.T) {
	table := readTable(t)
	for _, p := range packages(t) {
		if table[p.room].kind != "pure" {
			continue
		}
		for file, path := range p.imports() {
			for _, f := range forbidden {
				if path == f || strings.HasPrefix(path, f+"/") && path != "math/rand/v2" {
					t.Errorf("%s: pure room imports %s", file, path)
				}
			}
		}
		for _, finding := range p.impurities() {
			t.Error(finding)
		}
	}
}

func TestGoroutinesStartInTheSearchAndTheDoorsOnly(t *testing.T) {
	table := readTable(t)
	for _, p := range packages(t) {
		if p.room == "" || p.room == "schedule" || table[p.room].kind == "door" {
			continue
		}
		p.inspect(func(n ast.Node) {
			if startsGoroutine(n) {
				t.Errorf("%s: %s starts a goroutine; only schedule and the doors may", p.at(n), p.room)
			}
		})
	}
}

// startsGoroutine sees a go statement, and a call of a Go method as wait groups have.
func startsGoroutine(n ast.Node) bool {
	if _, ok := n.(*ast.GoStmt); ok {
		return true
	}
	call, ok := n.(*ast.CallExpr)
	if !ok {
		return false
	}
	method, ok := call.Fun.(*ast.SelectorExpr)
	return ok && method.Sel.Name == "Go"
}

func TestFunctionsStayShort(t *testing.T) {
	for _, p := range packages(t) {
		p.inspect(func(n ast.Node) {
			f, ok := n.(*ast.FuncDecl)
			if !ok {
				return
			}
			lines := p.fset.Position(f.End()).Line - p.fset.Position(f.Pos()).Line + 1
			if lines > longest {
				t.Errorf("%s: %s has %d lines; at most %d", p.at(f), f.Name.Name, lines, longest)
			}
		})
	}
}

// TestTheRulesCatchOffenders breaks each rule on purpose, so that a rule which no longer sees anything is noticed.
func TestTheRulesCatchOffenders(t *testing.T) {
	for code, want := range map[string]string{
		`import "time"; func f() { _ = time.Now() }`:            "reads the clock",
		`import clock "time"; var f = clock.Now`:                "reads the clock",
		`import "math/rand/v2"; func f() { _ = rand.IntN(3) }`:  "rolls dice that nobody can repeat",
		`var count int; func f() { count++ }`:                   "changes count, which outlives the call",
		`var last = map[string]int{}; func f() { last["a"]=1 }`: "changes last, which outlives the call",
		`func init() {}`: "runs code at start",
	} {
		p := parse(t, "offender.go", "package offender; "+code)
		if got := strings.Join(p.impurities(), "\n"); !strings.Contains(got, want) {
			t.Errorf("%s\n gave %q, want %q", code, got, want)
		}
	}
	innocent := parse(t, "innocent.go", `package innocent
import ("time"; "math/rand/v2")
var table = map[string]int{"a": 1}
func f(seed uint64, now time.Time) { table := map[string]int{}; table["a"] = 1; _ = rand.New(rand.NewPCG(seed, 0)); _ = now.Add(time.Second) }`)
	if got := innocent.impurities(); len(got) > 0 {
		t.Errorf("the innocent are accused: %v", got)
	}
}

// readTable reads the import table and follows it through.
func readTable(t *testing.T) map[string]room {
	table := map[string]room{}
	for line := range strings.Lines(strings.TrimSpace(rooms)) {
		words := strings.Fields(line)
		r := room{kind: words[0], imports: map[string]bool{}}
		for _, name := range words[2:] {
			below, known := table[name]
			if !known {
				t.Fatalf("the table lists %s above %s, so that rank cannot be read off it", words[1], name)
			}
			r.imports[name] = true
			maps.Copy(r.imports, below.imports)
		}
		table[words[1]] = r
	}
	return table
}

// source is the code of one package without its tests.
type source struct {
	dir, name, room string
	fset            *token.FileSet
	files           []*ast.File
}

// packages parses the code of the checkout, tests aside, in the order of the directories.
func packages(t *testing.T) []*source {
	byDir := map[string]*source{}
	for _, root := range []string{"../cmd", "../internal", "../tools"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case d.IsDir() && d.Name() == "testdata":
				return fs.SkipDir
			case d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go"):
				return nil
			}
			dir := filepath.ToSlash(filepath.Dir(path))
			if byDir[dir] == nil {
				byDir[dir] = newSource(dir)
			}
			file, err := parser.ParseFile(byDir[dir].fset, path, nil, parser.SkipObjectResolution)
			byDir[dir].files = append(byDir[dir].files, file)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	var all []*source
	for _, dir := range slices.Sorted(maps.Keys(byDir)) {
		all = append(all, byDir[dir])
	}
	if len(all) < 10 {
		t.Fatalf("only %d packages found: the test looks in the wrong place", len(all))
	}
	return all
}

// newSource is a package yet without files. A directory below a room belongs to the room.
func newSource(dir string) *source {
	s := &source{dir: strings.TrimPrefix(dir, "../"), name: filepath.Base(dir), fset: token.NewFileSet()}
	if inside, ok := strings.CutPrefix(dir, "../internal/"); ok {
		s.room, _, _ = strings.Cut(inside, "/")
	}
	return s
}

// parse makes a package of one text.
func parse(t *testing.T, name, text string) *source {
	s := newSource("../internal/" + strings.TrimSuffix(name, ".go"))
	file, err := parser.ParseFile(s.fset, name, text, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	s.files = []*ast.File{file}
	return s
}

// imports yields every import as the place of its line and its path.
func (s *source) imports() func(yield func(place, path string) bool) {
	return func(yield func(place, path string) bool) {
		for _, f := range s.files {
			for _, i := range f.Imports {
				if !yield(s.at(i), strings.Trim(i.Path.Value, `"`)) {
					return
				}
			}
		}
	}
}

func (s *source) inspect(visit func(ast.Node)) {
	for _, f := range s.files {
		ast.Inspect(f, func(n ast.Node) bool {
			visit(n)
			return true
		})
	}
}

func (s *source) at(n ast.Node) string {
	p := s.fset.Position(n.Pos())
	return fmt.Sprintf("%s:%d", strings.TrimPrefix(filepath.ToSlash(p.Filename), "../"), p.Line)
}

// hollow lets the type checker resolve names without reading what is imported: every package is there and empty.
type hollow struct{}

func (hollow) Import(path string) (*types.Package, error) {
	name := strings.TrimSuffix(path, "/v2")
	p := types.NewPackage(path, name[strings.LastIndex(name, "/")+1:])
	p.MarkComplete()
	return p, nil
}

// impurities lists where the package reads a clock, rolls dice, changes what outlives a call or runs code at start.
func (s *source) impurities() (findings []string) {
	info := &types.Info{Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}
	conf := types.Config{Importer: hollow{}, Error: func(error) {}}
	pkg, _ := conf.Check(s.name, s.fset, s.files, info) // its complaints about empty imports are expected
	find := func(n ast.Node, what string) { findings = append(findings, s.at(n)+": pure room "+what) }
	s.inspect(func(n ast.Node) {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			if what := unrepeatable(info, n); what != "" {
				find(n, what)
			}
		case *ast.AssignStmt:
			for _, target := range n.Lhs {
				if name := outlives(info, pkg, target); name != "" {
					find(n, "changes "+name+", which outlives the call")
				}
			}
		case *ast.IncDecStmt:
			if name := outlives(info, pkg, n.X); name != "" {
				find(n, "changes "+name+", which outlives the call")
			}
		case *ast.FuncDecl:
			if n.Name.Name == "init" && n.Recv == nil {
				find(n, "runs code at start")
			}
		}
	})
	return findings
}

// unrepeatable says what a name from another package does that no second run can repeat.
func unrepeatable(info *types.Info, sel *ast.SelectorExpr) string {
	id, ok := sel.X.(*ast.Ident)
	if !ok {
		return ""
	}
	p, ok := info.Uses[id].(*types.PkgName)
	if !ok {
		return ""
	}
	name := sel.Sel.Name
	switch path := p.Imported().Path(); {
	case path == "time" && slices.Contains(clocks, name):
		return "reads the clock"
	case path == "math/rand/v2" && !slices.Contains(seeded, name) && !isType(name):
		return "rolls dice that nobody can repeat"
	}
	return ""
}

// isType tells the types of math/rand/v2 from its functions.
func isType(name string) bool {
	return slices.Contains([]string{"Rand", "Source", "PCG", "ChaCha8", "Zipf"}, name)
}

// outlives gives the name of the package's variable that an assignment to target would change, if any.
func outlives(info *types.Info, pkg *types.Package, target ast.Expr) string {
	for {
		switch t := target.(type) {
		case *ast.IndexExpr:
			target = t.X
		case *ast.SelectorExpr:
			target = t.X
		case *ast.StarExpr:
			target = t.X
		case *ast.ParenExpr:
			target = t.X
		case *ast.Ident:
			if v, ok := info.Uses[t].(*types.Var); ok && v.Parent() == pkg.Scope() {
				return t.Name
			}
			return ""
		default:
			return ""
		}
	}
}
