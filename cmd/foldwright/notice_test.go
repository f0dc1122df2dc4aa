package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Whatever is built into the program is named in NOTICE with its licence, and nothing else is. The list is that of Linux;
// other systems need at most the same.
func TestNoticeNamesWhatIsBuiltIn(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "NOTICE"))
	if err != nil {
		t.Fatal(err)
	}
	var named []string
	for line := range strings.Lines(string(data)) {
		if fields := strings.SplitN(strings.TrimPrefix(line, "- "), " · ", 3); len(fields) == 3 && strings.HasPrefix(line, "- ") {
			named = append(named, fields[0])
		}
	}
	listed := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{.Path}}{{end}}", ".")
	listed.Env = append(os.Environ(), "GOOS=linux")
	out, err := listed.Output()
	if err != nil {
		t.Fatal(err)
	}
	built := strings.Fields(string(out))
	slices.Sort(built)
	built = slices.DeleteFunc(slices.Compact(built), func(m string) bool { return m == "foldwright" })
	slices.Sort(named)
	for _, m := range built {
		if !slices.Contains(named, m) {
			t.Errorf("%s is built in; NOTICE must name it with its licence", m)
		}
	}
	for _, m := range named {
		if !slices.Contains(built, m) {
			t.Errorf("NOTICE names %s, which is not built in", m)
		}
	}
	for _, font := range []string{"Go Regular and Go Bold", "Bigelow & Holmes", "BSD-3-Clause"} {
		if !strings.Contains(string(data), font) {
			t.Errorf("NOTICE does not tell of the embedded fonts: %q is missing", font)
		}
	}
}
