package exchange

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"foldwright/internal/fault"
)

// wanted is the fault that a line of a file in testdata/faults must give, in full but for its place.
var wanted = regexp.MustCompile("\\s*# want `[^`]*`")

// Every file in testdata/faults says on each faulty line what check must say of it, and check says nothing else. With
// -update the comments are rewritten, to be read in the diff.
func TestFaultsStandWhereTheyAre(t *testing.T) {
	files, err := filepath.Glob("testdata/faults/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no files", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data := read(t, file)
			found := annotate(data, CheckShop(file, data))
			if *update {
				write(t, file, found)
				return
			}
			diffLines(t, string(found), string(data))
		})
	}
}

// annotate writes the faults as comments on their lines.
func annotate(data []byte, found fault.List) []byte {
	lines := strings.Split(strings.TrimRight(wanted.ReplaceAllString(string(data), ""), "\n"), "\n")
	for _, f := range found {
		line := f.Line
		f.File, f.Line, f.Col = "", 0, 0
		lines[line-1] += fmt.Sprintf("  # want `%s`", f.Error())
	}
	return []byte(strings.Join(lines, "\n") + "\n")
}

// Files of which nothing can be read, each with its one fault.
func TestFilesThatAreNone(t *testing.T) {
	for _, c := range []struct{ name, data, want string }{
		{"empty", "", "f.yaml:1: the file holds nothing; see docs/shop-file.md for what a shop file holds [empty-field]"},
		{"only a comment", "# nothing\n", "f.yaml:1: the file holds nothing; see docs/shop-file.md for what a shop file holds [empty-field]"},
		{"a text", "hello\n", `f.yaml:1:1: "hello" stands here; write the fields of a shop file, such as shop: … [wrong-type]`},
		{"a list", "- shop\n", "f.yaml:1:1: a list stands here; write the fields of a shop file, such as shop: … [wrong-type]"},
		{"a brace left open", "shop: A\nzone: {a\n", "f.yaml:3:1: no YAML: did not find expected ',' or '}' (while parsing a flow mapping) [yaml-syntax]"},
		{"a tabulator", "shop: A\nclasses:\n\t- x\n", "f.yaml:3:1: no YAML: found character that cannot start any token (while scanning for the next token) [yaml-syntax]"},
		{"no UTF-8", "shop: A\nzone: Caf\xe9\n", "f.yaml:2: byte 0xE9 is no UTF-8 text; save it as UTF-8 [file-encoding]"},
		{"a bell", "shop: A\nzone: \a\n", "f.yaml:2: there is a control character, byte 0x07; take it out [file-encoding]"},
		{"deep", strings.Repeat("[", 1000), "f.yaml:1:51: no YAML: exceeded max depth of 50 (while increasing flow level) [yaml-syntax]"},
		{"an alias bomb", "shop: A\nzone: UTC\njobs:\n" + bomb(), "f.yaml:4:3: jobs: a group of fields stands here; write a list, such as one line a piece with a dash before it [wrong-type]"},
		{"two documents", "shop: A\nzone: UTC\n---\nshop: B\n", "f.yaml:3:1: a second document starts here; a shop file is one document [yaml-unused]"},
		{"an unknown anchor", "shop: *nobody\n", "f.yaml:1:7: no YAML: unknown anchor 'nobody' referenced [yaml-syntax]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := ReadShop("f.yaml", []byte(c.data))
			if err == nil || s != nil {
				t.Fatalf("it was read: %v", s)
			}
			if got := err.Error(); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}

// bomb is a file of a few hundred bytes that would unfold to a billion values.
func bomb() string {
	var b strings.Builder
	b.WriteString("  a0: &a0 [x, x, x, x, x, x, x, x, x]\n")
	for i := 1; i < 9; i++ {
		fmt.Fprintf(&b, "  a%d: &a%d [%s]\n", i, i, strings.TrimSuffix(strings.Repeat(fmt.Sprintf("*a%d, ", i-1), 9), ", "))
	}
	return b.String()
}

// What a fault quotes of a file cannot steer the terminal on which it is read.
func TestFaultsArePrintable(t *testing.T) {
	file := "shop: \"\\e[2J\"\nzone: UTC\n\"\\e[31m\": red\nclasses: [{name: \"a\\nb\", diameter: \"\\a\", length: 5}]\n"
	found := CheckShop("f.yaml", []byte(file))
	if len(found) < 4 {
		t.Errorf("only %d faults", len(found))
	}
	for _, f := range found {
		if strings.ContainsFunc(f.Error(), func(r rune) bool { return r < ' ' }) {
			t.Errorf("%q", f.Error())
		}
	}
}

func TestHugeFileIsNotRead(t *testing.T) {
	_, err := ReadShop("f.yaml", bytes.Repeat([]byte("# a long comment\n"), fileMost/17+1000))
	want := "f.yaml: there are 16794215 bytes; at most 16777216 are read [file-size]"
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// What check finds of a file is what reading it says, but for the jobs that cannot be folded.
func TestReadAndCheckAgree(t *testing.T) {
	files, _ := filepath.Glob("testdata/faults/*.yaml")
	for _, file := range append(files, "testdata/example.yaml") {
		data := read(t, file)
		var bad fault.List
		for _, f := range CheckShop(file, data) {
			if f.Kind != fault.No {
				bad.Add(f)
			}
		}
		s, err := ReadShop(file, data)
		if (s == nil) != (len(bad) > 0) {
			t.Errorf("%s: %d faults, and the shop is %v", file, len(bad), s)
		}
		if got := fault.All(err); got.Error() != bad.Error() {
			t.Errorf("%s: reading says\n%s\nand checking\n%s", file, got.Error(), bad.Error())
		}
	}
}

func read(t testing.TB, file string) []byte {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func write(t testing.TB, file string, data []byte) {
	t.Helper()
	if err := os.WriteFile(file, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

// diffLines shows the first lines that differ.
func diffLines(t testing.TB, got, want string) {
	t.Helper()
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range max(len(g), len(w)) {
		a, b := "(no line)", "(no line)"
		if i < len(g) {
			a = g[i]
		}
		if i < len(w) {
			b = w[i]
		}
		if a != b {
			t.Errorf("line %d:\ngot  %s\nwant %s", i+1, a, b)
		}
	}
}

// A file that is all faults is given up, soon and with a word about it.
func TestTooManyFaults(t *testing.T) {
	for _, item := range []string{"- x\n", "- {}\n", "- {name: a, sheet: 1 x 1, stock: {name: x, grammage: 1}, fold: up 1/2, sheets: 0}\n"} {
		found := CheckShop("f.yaml", []byte("jobs:\n"+strings.Repeat(item, 20_000)))
		last := found[len(found)-1].Error()
		if want := "f.yaml: there are 1000 faults or more; mend these first [faults-many]"; last != want {
			t.Errorf("%d faults, the last: %s", len(found), last)
		}
	}
}
